// What an encoder makes of the position of its master: counts, their frequency, the ripple of a speed that is counted.
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { Master } from './axis.ts';
import {
  countedSpeedStep,
  countedTurningAcceleration,
  countedTurningStep,
  countFrequency,
  encoderAngle,
  encoderCounts,
  encoderWay,
  filterAngleLag,
  filteredSpeedStep,
  filteredTurningStep,
  filterWayLag,
  followerRipple,
  longestCable,
  speedRipple,
  trackFrequency,
  turningCountFrequency,
} from './calc/encoder.ts';
import { totalInertia } from './calc/inertia.ts';
import { accelerationTorque } from './calc/load.ts';
import type { AxisDemand } from './demand.ts';
import { inUnit } from './phase-makers.ts';
import type { MasterSection } from './section.ts';

export interface Counted {
  readonly master: Master;
  readonly encoder: NonNullable<MasterSection['encoder']>;
  /** Of one turn. */
  readonly counts: Value<Quantity<'1'>>;
  /** Way of the master for one count, in m or rad. */
  readonly step: Value<Quantity>;
  readonly track: Value<Quantity<'Hz'>>;
  readonly speedStep: Value<Quantity>;
  /** What the filter leaves of the step. */
  readonly swing: Value<Quantity>;
  readonly ripple: Value<Quantity<'1'>>;
  /** How far the filter lags at full speed; nothing without one. */
  readonly lag: Value<Quantity> | undefined;
  readonly cableAtMost: Value<Quantity<'m'>>;
  readonly followers: readonly Follower[];
}

/** What the ripple of a counted master does to an axis that follows it. */
export interface Follower {
  readonly demand: AxisDemand;
  /** At the motor. */
  readonly ripple: Value<Quantity<'rad/s'>>;
  readonly torque: Value<Quantity<'N·m'>>;
}

/** What is counted of a master, and what follows it; nothing where the controller makes its position. */
export function countedOf(master: Master, axes: readonly AxisDemand[]): Counted | undefined {
  const { encoder, speed: v, name } = master;
  if (encoder === undefined) return undefined;
  const { lines: z, counted: q, sample: T, filter: τ } = encoder;
  const counts = given({ z, q }, (known) => encoderCounts(known, name));
  const of = (
    inputs: Readonly<Record<string, Value<Quantity> | undefined>>,
    along: Formula,
    turning: Formula,
  ): Value<Quantity> =>
    given({ ...inputs, unit: master.unit }, ({ unit, ...known }) =>
      (unit === 'm' ? along : turning)(known as never, name),
    );
  const W = given({ unit: master.unit }, ({ unit }) => inUnit(encoder.way, unit, `${encoder.path}.way`));
  const step = of({ W, n: counts }, encoderWay, encoderAngle);
  const f = of({ v, w: step }, countFrequency, turningCountFrequency) as Value<Quantity<'Hz'>>;
  const track = given({ f, q }, (known) => trackFrequency(known, name));
  const speedStep = of({ w: step, T }, countedSpeedStep, countedTurningStep);
  const swing = τ === undefined ? speedStep : of({ s: speedStep, T, τ }, filteredSpeedStep, filteredTurningStep);
  const ripple = given({ s: swing, v }, (known) => speedRipple(known as never, name));
  return {
    master,
    encoder,
    counts,
    step,
    track,
    speedStep,
    swing,
    ripple,
    lag: τ === undefined ? undefined : of({ v, τ }, filterWayLag, filterAngleLag),
    cableAtMost: encoder.cable_at_most ?? reach(encoder, track, name),
    followers: axes.flatMap((demand) => (demand.axis.master === master ? followerOf(demand, ripple, T) : [])),
  };
}

function followerOf(demand: AxisDemand, r: Value<Quantity<'1'>>, T: Value<Quantity<'s'>>): Follower {
  const { axis, inertia, speed } = demand;
  const ripple = given({ r, ω: speed }, (known) => followerRipple(known, axis.name));
  const torque = given({ s: ripple, T, load: inertia, rotor: axis.motor.inertia }, ({ s, T, load, rotor }) =>
    accelerationTorque(
      {
        J: totalInertia({ J: [load, rotor] }, `${axis.name}.with_rotor`),
        α: countedTurningAcceleration({ s, T }, axis.name),
      },
      `${axis.name}.ripple`,
    ),
  );
  return { demand, ripple, torque };
}

type Formula = (inputs: never, about: string) => Quantity;

/** Only for a differential signal does a guideline say how far it reaches. */
function reach(
  { receiver, path }: Counted['encoder'],
  track: Value<Quantity<'Hz'>>,
  name: string,
): Value<Quantity<'m'>> {
  return receiver === 'differential'
    ? given({ f: track }, ({ f }) => longestCable({ L: slowReach, r: slowRate, f }, name))
    : missing(`${path}.cable_at_most`, 'absent', 'a length', '30 m');
}

const guideline = { source: 'tia-422', because: 'twisted pairs of 0.2 mm² with a termination' } as const;
const slowReach = assumed('axes.encoder.reach', 1200, 'm', guideline);
const slowRate = assumed('axes.encoder.rate', 100e3, 'Hz', { ...guideline, as: 'kHz' });
