// The axes of the file with their parts filled in, each with the master that it follows.
import { fill, type PartLookUp, type PartUse, partName } from '../reading/parts.ts';
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, isAbsent, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { Axis, Bus, Drive, Master, Motor, Site } from './axis.ts';
import type { LossActsOn } from './calc/efficiency.ts';
import { turnsEverySpeed, turnTime, wayTime } from './calc/follow.ts';
import { kits } from './motion-kit.ts';
import { driveFigures, gearFields, gearKind, gearLimits, motorFields, resistorFields } from './parts.ts';
import type { AxisSection, BusSection, ElementSection, MasterSection } from './section.ts';

export type { Axis, Bus, Master, Site };

export interface AxesOfFile {
  readonly axes: readonly AxisSection[];
  readonly masters: readonly MasterSection[];
}

const gearOfTrain = { ...gearKind.fields, ...gearFields, ...gearLimits };

/** Whether the file says what an axis does or what is on it; one that only hangs on a network is none of ours. */
const isDriven = ({ motion, train, motor }: AxisSection): boolean =>
  !(isAbsent(motion.kind) && isAbsent(train) && motor.absent);

export const resolveMasters = (file: AxesOfFile): readonly Master[] =>
  file.masters.map((master) => masterOf(master, file));

export function resolveAxes(
  { axes }: AxesOfFile,
  masters: readonly Master[],
  site: Site,
  partOf: PartLookUp,
  /** For drives, which the networks count among the parts in use. */
  look: PartLookUp,
): readonly Axis[] {
  const known = new Map(masters.map((master) => [master.name, master]));
  return axes.filter(isDriven).map((axis) => ({
    name: axis.name,
    path: `axes.${axis.name}`,
    motion: axis.motion,
    master: followed(axis, known),
    train: trainOf(axis, partOf),
    lossesOn: axis.losses_on ?? ('load_and_inertia' as LossActsOn),
    lossesSaid: axis.losses_on !== undefined,
    motor: motorOf(axis, partOf),
    drive: driveOf(axis, look),
    site,
    gain: axis.gain,
    feedForward:
      axis.feed_forward ??
      assumed(`axes.${axis.name}.feed_forward`, 0, '1', {
        source: 'judgement',
        because: 'not said, so that the loop makes all of the speed out of its error',
        as: '%',
      }),
    followsWithin: axis.follows_within,
    inertiaRatioAtMost: axis.inertia_ratio_at_most,
    stated: axis.stated,
  }));
}

function followed({ motion }: AxisSection, masters: ReadonlyMap<string, Master>): Value<Master> | undefined {
  const { follow } = motion;
  if (follow === undefined) return undefined;
  if (follow instanceof Missing) return follow;
  return masters.get(follow.name) ?? missing(`${motion.path}.follow`, 'problem', 'the name of a master', 'line');
}

function motorOf({ motor }: AxisSection, partOf: PartLookUp): Motor {
  return { ...fill(motor, partOf(motor), motorFields), path: motor.path, part: partName(motor), absent: motor.absent };
}

function driveOf({ drive }: AxisSection, partOf: PartLookUp): Drive {
  return { ...fill(drive, partOf(drive), driveFigures), path: drive.path, part: partName(drive), absent: drive.absent };
}

export function resolveBuses(buses: readonly BusSection[], axes: readonly Axis[], partOf: PartLookUp): readonly Bus[] {
  return buses.map(({ name, path, axes: aboard, resistor, capacitance }) => ({
    name,
    path,
    axes: axes.filter(
      (axis) =>
        !(aboard instanceof Missing) && aboard.some((each) => !(each instanceof Missing) && each.name === axis.name),
    ),
    resistor: resistor && {
      ...fill(resistor, partOf(resistor), resistorFields),
      path: resistor.path,
      part: partName(resistor),
      absent: resistor.absent,
    },
    capacitance,
  }));
}

function trainOf({ train }: AxisSection, partOf: PartLookUp): Value<readonly ElementSection[]> {
  if (train instanceof Missing) return train;
  return train.map((element) => {
    const { gear } = element;
    if (gear === undefined) return element;
    return {
      ...element,
      gear: {
        ...gear,
        ...fill(gear as PartUse<typeof gearOfTrain>, isAbsent(gear.part) ? undefined : partOf(gear), gearOfTrain),
      },
    };
  });
}

// ── masters ──────────────────────────────────────────────────────────────────────────────────────────────────────────

function masterOf(master: MasterSection, file: AxesOfFile, way: readonly string[] = []): Master {
  const { name, path, repeat, encoder, ramp_up, ramp_down, stops } = master;
  const speed = master.axis === undefined ? master.speed : speedOfAxis(master, file, [...way, name]);
  const unit = given({ speed }, (known) => (known.speed.unit === 'm/s' ? ('m' as const) : ('rad' as const)));
  const product = given({ speed, unit }, (known): Value<Quantity<'s'>> => {
    if (known.unit === 'rad') return turnTime({ ω: known.speed as Quantity<'rad/s'> }, name);
    const l = repeat ?? missing(`${path}.repeat`, 'absent', 'a length', '250 mm');
    return given({ l }, (all) => wayTime({ l: all.l, v: known.speed as Quantity<'m/s'> }, `${name}.product`));
  });
  return { name, path, speed, unit, product, encoder, ramp_up, ramp_down, stops };
}

/** The speed of an axis that goes at constant speed, from the master that it follows itself. */
function speedOfAxis({ path, axis }: MasterSection, file: AxesOfFile, way: readonly string[]): Value<Quantity> {
  if (axis === undefined || axis instanceof Missing)
    return axis ?? missing(`${path}.axis`, 'absent', 'an axis', 'main');
  const refused = (due: string): Missing => missing(`${path}.axis`, 'problem', due, 'main');
  const found = file.axes.find(({ name }) => name === axis.name);
  if (found === undefined) return refused('the name of an axis');
  const { follow, gear, turns, runs } = found.motion;
  if (runs !== undefined) return runs.speed;
  const above = follow instanceof Missing ? undefined : file.masters.find(({ name }) => name === follow?.name);
  if (above === undefined || (gear === undefined && turns === undefined))
    return refused('an axis that goes at constant speed');
  if (way.includes(above.name)) return refused('an axis that does not follow this master in the end');
  const { speed, unit } = masterOf(above, file, way);
  if (turns !== undefined)
    return given({ v: speed as Value<Quantity<'m/s'>>, l: turns.every }, (known) =>
      turnsEverySpeed(known, `${found.name}.master`),
    );
  if (gear instanceof Missing || gear === undefined) return gear ?? refused('an axis that goes at constant speed');
  return given({ v: speed, unit, z: gear.turns, n: gear.of }, ({ v, unit: u, z, n }) =>
    kits[u].geared({ v, z, n }, `${found.name}.master`),
  );
}
