// How far and how long each stop of a master goes: on its ramp while the drives work, and by friction and brake without them.
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { resultsOf } from '../working/formula.ts';
import { given, isAbsent, missing } from '../working/missing.ts';
import type { Inputs, Quantity } from '../working/quantity.ts';
import type { Master, Stop } from './axis.ts';
import type { PlainLine } from './calc/drive-line.ts';
import { shaftRatio } from './calc/drive-line.ts';
import { totalInertia } from './calc/inertia.ts';
import { type Stop as Coasted, coast, stopAngle, stopTime, stopWay } from './calc/stop.ts';
import type { AxisDemand } from './demand.ts';
import { plainForm } from './line.ts';
import { coastedAngle, coastedAngleOfTool, coastedTime, coastedWayOfTool } from './stop-methods.ts';

export interface StopDemand {
  readonly master: Master;
  readonly stop: Stop;
  /** Whether the drives work in it: categories 1 and 2 of IEC 60204-1, and where none is said. */
  readonly powered: boolean;
  /** Of the master, reaction included; nothing without the drives. */
  readonly way: Value<Quantity> | undefined;
  readonly time: Value<Quantity<'s'>> | undefined;
  /** Without the drives, axis by axis. */
  readonly coasts: readonly Coast[];
}

export interface Coast {
  readonly demand: AxisDemand;
  /** Of the motor and of the tool; `never` where the load drives it on. */
  readonly found: Value<Coasting | 'never'>;
}

export interface Coasting {
  readonly time: Quantity<'s'>;
  readonly angle: Quantity<'rad'>;
  readonly tool: Quantity;
}

export function stopsOf(master: Master, demands: readonly AxisDemand[]): readonly StopDemand[] {
  return master.stops.map((stop): StopDemand => {
    const { category, within, reaction, path } = stop;
    const powered = category !== '0';
    if (!powered)
      return {
        master,
        stop,
        powered,
        way: undefined,
        time: undefined,
        coasts: demands
          .filter(({ axis }) => axis.master === master)
          .map((demand) => ({ demand, found: coastOf(demand, reaction, `${demand.axis.name}.${stop.name}`) })),
      };
    const about = `${master.name}.${stop.name}`;
    const r = reaction ?? assumed(`${path}.reaction`, 0, 's', { source: 'judgement', because: 'none unless said' });
    return {
      master,
      stop,
      powered,
      way: given({ v: master.speed, unit: master.unit, r, t: within }, ({ v, unit, r, t }) =>
        unit === 'm'
          ? stopWay({ v: v as Quantity<'m/s'>, r, t }, about)
          : stopAngle({ v: v as Quantity<'rad/s'>, r, t }, about),
      ),
      time: given({ r, t: within }, (known) => stopTime(known, about)),
      coasts: [],
    };
  });
}

/**
 * From its highest speed, which it keeps for the reaction, the drive off: friction of the train and the holding brake of
 * the motor stop it.
 */
function coastOf(
  { axis, line, speed, inertia, motion }: AxisDemand,
  reaction: Stop['reaction'],
  about: string,
): Value<Coasting | 'never'> {
  const { motor } = axis;
  const asked = {
    line,
    motion,
    ω: speed,
    load: inertia,
    rotor: motor.inertia,
    reaction,
    brake: isAbsent(motor.brake) ? undefined : motor.brake,
    delay: isAbsent(motor.brake) ? undefined : motor.brake_delay,
  };
  return given(asked, ({ line, motion, ω, load, rotor, reaction, brake, delay }): Value<Coasting | 'never'> => {
    if (line.stages.some(({ placed }) => placed.length > 0))
      return missing(`${axis.path}.train`, 'problem', 'a train without loads that depend on the position', '');
    const form = plainForm(line);
    const inputs: Inputs = {
      ...form.inputs,
      ω,
      J: totalInertia({ J: [load, rotor] }, `${about}.with_rotor`),
      ...(brake && { T: brake as Quantity<'N·m'>, d: delay as Quantity<'s'> }),
      ...(reaction && { r: reaction as Quantity<'s'> }),
    };
    const means = {
      ...form.means,
      ω: 'highest speed of the motor',
      J: 'inertia of load and rotor at the motor shaft',
      T: 'torque of the holding brake',
      d: 'time until it holds',
      r: 'reaction, at that speed',
    };
    const count = Object.keys(form.inputs).length;
    const { now, call } = resultsOf({ inputs, means }, (values) => {
      const plain = form.build(values.slice(0, count));
      const [speed_rad_per_s = 0, inertia_kg_m2 = 0, ...more] = values.slice(count) as number[];
      const [brake_Nm = 0, delay_s = 0] = brake === undefined ? [] : more;
      const reaction_s = reaction === undefined ? 0 : more.at(-1)!;
      const stop = coast({ ...atShaft(plain), speed_rad_per_s, inertia_kg_m2, brake_Nm, delay_s }) ?? never;
      const lasts_s = stop.lasts_s + reaction_s;
      const forth_rad = stop.forth_rad + speed_rad_per_s * reaction_s;
      return { ...stop, lasts_s, forth_rad, ratio: shaftRatio(plain) };
    });
    if (now.lasts_s === Infinity) return 'never';
    const turned = ({ forth_rad, back_rad }: Coasted): number => Math.max(forth_rad, back_rad);
    return {
      time: coastedTime(
        call(({ lasts_s }) => lasts_s),
        about,
      ),
      angle: coastedAngle(call(turned), about),
      tool: (motion.unit === 'm' ? coastedWayOfTool : coastedAngleOfTool)(
        call((stop) => turned(stop) / stop.ratio),
        about,
      ),
    };
  }) as Value<Coasting | 'never'>;
}

/** What does not come to rest. */
const never: Coasted = { lasts_s: Infinity, forth_rad: Infinity, back_rad: Infinity, atBrake_rad_per_s: Infinity };

/** Friction and loads of all stages as they are at the motor shaft, without what stages lose: that would only help. */
function atShaft({
  stages,
}: PlainLine): Pick<Parameters<typeof coast>[0], 'friction_Nm' | 'viscous_Nms_per_rad' | 'load_Nm'> {
  let [friction_Nm, viscous_Nms_per_rad, load_Nm] = [0, 0, 0];
  for (const { coulomb, viscous, constant, pass } of stages) {
    friction_Nm = (friction_Nm + coulomb) * pass;
    // Torque for each part of the speed: both go through the stage.
    viscous_Nms_per_rad = (viscous_Nms_per_rad + viscous) * pass * pass;
    load_Nm = (load_Nm + constant) * pass;
  }
  return { friction_Nm, viscous_Nms_per_rad, load_Nm };
}
