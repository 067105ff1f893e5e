// The reasons why an axis needs a setpoint so often, each with what it costs as the axis is served, and the slowest period
// that it bears: what lies between setpoints, steps of the speed, a loop over the network, jitter.
import type { AxisUpdate } from '../physics/axis-update.ts';
import type { ServedStation } from '../physics/service.ts';
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, isAbsent, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { cycleInTime, cyclesTogether } from './calc/lag.ts';
import { clockBeat, clockDrift, goneIn } from './calc/lead.ts';
import { cycleForBandwidth, loopBandwidth, sampledBandwidth } from './calc/needed-rate.ts';
import { jitterTorque } from './calc/signal-rate.ts';
import { jitterOf, lateCycles } from './setpoint-path.ts';
import { kitOf } from './update-kit.ts';

type Time = Quantity<'s'>;

export interface Reason {
  /** 'straight lines between setpoints'. */
  readonly title: string;
  /** What it costs as the axis is served: a way, a step of the speed; of a loop, the bandwidth that is left to it. */
  readonly costs: Value<Quantity>;
  /** Of a loop, the bandwidth that it needs. */
  readonly allowed: Value<Quantity>;
  /** Any, where no period makes it less and what it costs is allowed. */
  readonly slowest: Value<Time> | 'any';
  /** What its cost is put together from. */
  readonly parts: readonly { readonly title: string; readonly costs: Value<Quantity> }[];
}

/** An axis that a network serves. */
export interface ServedAxis {
  readonly axis: AxisUpdate;
  readonly station: ServedStation;
}

interface Found {
  readonly costs: Quantity;
  readonly slowest: Time | 'any';
}

/** A reason that is known or lacks something as a whole. */
export const reasonOf = (
  title: string,
  allowed: Value<Quantity>,
  found: Value<Found>,
  parts: Reason['parts'] = [],
): Reason =>
  found instanceof Missing
    ? { title, allowed, costs: found, slowest: found, parts }
    : { title, allowed, ...found, parts };

/** The tolerance, in the unit in which the axis moves. */
export const toleranceOf = ({ path, tolerance, speed }: AxisUpdate): Value<Quantity> =>
  given(
    { e: tolerance ?? missing(`${path}.tolerance`, 'absent', 'a length or an angle', '0.05 mm'), speed },
    ({ e, speed: { unit } }) =>
      unit === 'm/s'
        ? inUnit(e, 'm', `${path}.tolerance`, 'a length', '0.05 mm')
        : inUnit(e, 'rad', `${path}.tolerance`, 'an angle', '0.1°'),
  );

const inUnit = (value: Quantity, unit: string, path: string, due: string, example: string): Value<Quantity> =>
  value.unit === unit ? value : missing(path, 'problem', due, example);

/** Of one axis for itself. */
export function ownReasons(served: ServedAxis): readonly Reason[] {
  const { axis } = served;
  return [
    ...(axis.tolerance === undefined ? [] : [...betweenSetpoints(served), jitter(served)]),
    ...(axis.speedStep === undefined ? [] : speedSteps(served, axis.speedStep)),
    ...(axis.overNetwork ? [loop(served)] : []),
  ];
}

const isNothing = (value: Value<Quantity>): boolean => !(value instanceof Missing) && value.value === 0;

/** Nothing for an axis that goes at constant speed, but where setpoints are held: a straight line is what it goes. */
function betweenSetpoints({ axis, station }: ServedAxis): readonly Reason[] {
  const { name, follows, acceleration, speed: v, jerk } = axis;
  const { interpolates } = follows.drive;
  const e = toleranceOf(axis);
  const T = station.period;
  if (interpolates instanceof Missing) return [reasonOf('what lies between setpoints', e, interpolates)];
  if (isNothing(v)) return [];
  if (interpolates === 'none')
    return [
      reasonOf(
        'setpoints that are held',
        e,
        given({ e, v, T }, (known) => ({
          costs: goneIn(known.v, known.T, `${name}.held`),
          slowest: kitOf(known.v).timeFor({ e: known.e, v: known.v }, `${name}.held`),
        })),
      ),
    ];
  if (isNothing(acceleration)) return [];
  const known = { e, a: acceleration, T };
  if (interpolates === 'linear')
    return [
      reasonOf(
        'straight lines between setpoints',
        e,
        given(known, ({ e: allowed, a, T: period }) => ({
          costs: kitOf(a).linear({ a, T: period }, name),
          slowest: kitOf(a).cycleForLinear({ e: allowed, a }, name),
        })),
      ),
    ];
  const found =
    jerk === undefined
      ? given(known, ({ e: allowed, a, T: period }) => ({
          costs: kitOf(a).cubicJump({ a, T: period }, name),
          slowest: kitOf(a).cycleForCubicJump({ e: allowed, a }, name),
        }))
      : given({ ...known, j: jerk }, ({ e: allowed, a, j, T: period }) => ({
          costs: kitOf(a).cubic({ a, j, T: period }, name),
          slowest: kitOf(a).cycleForCubic({ e: allowed, a, j }, name),
        }));
  return [reasonOf('cubic curves between setpoints', e, found)];
}

/** Nothing for cubic curves, whose speed goes on without a step, and for constant speed. */
function speedSteps({ axis, station }: ServedAxis, allowed: Value<Quantity>): readonly Reason[] {
  const { name, path, acceleration, follows } = axis;
  if (follows.drive.interpolates === 'cubic' || isNothing(acceleration)) return [];
  const step = given({ v: allowed, a: acceleration }, ({ v, a }) =>
    a.unit === 'm/s²'
      ? inUnit(v, 'm/s', `${path}.speed_step_at_most`, 'a speed along', '5 mm/s')
      : inUnit(v, 'rad/s', `${path}.speed_step_at_most`, 'a speed of turning', '1 rpm'),
  );
  return [
    reasonOf(
      'steps of the speed from setpoint to setpoint',
      step,
      given({ v: step, a: acceleration, T: station.period }, ({ v, a, T }) => ({
        costs: kitOf(a).jump({ a, T }, name),
        slowest: kitOf(a).cycleForJump({ v, a }, name),
      })),
    ),
  ];
}

function loop({ axis: { name, path, follows }, station }: ServedAxis): Reason {
  const gain = follows.gain ?? missing(`${path}.gain`, 'absent', 'a gain', '60 1/s');
  const f = given({ k: gain }, (known) => loopBandwidth(known, name));
  const fixed = { φ: phaseMargin, n: cyclesOfLoop, d: nothingBeside };
  return reasonOf(
    'the loop that closes over the network',
    f,
    given({ f, T: station.period }, (known) => ({
      costs: sampledBandwidth({ ...fixed, T: known.T }, name),
      slowest: cycleForBandwidth({ ...fixed, f: known.f }, name),
    })),
  );
}

function jitter({ axis, station }: ServedAxis): Reason {
  const about = `${axis.name}.jitter`;
  const e = toleranceOf(axis);
  const n = given({ n: lateCycles(axis.follows) }, (known) => cyclesTogether(known, about));
  return reasonOf(
    'jitter of the setpoints',
    e,
    given({ e, v: axis.speed, n, T: station.period, d: jitterOf(axis.follows) }, (known) => lagging(known, about)),
    [...ownClockParts(axis, station), ...torqueOfJitter(axis, station)],
  );
}

/** Where each setpoint is held, one that comes late makes the speed step; nothing where the drive goes on between them. */
function torqueOfJitter({ name, follows, shaft }: AxisUpdate, station: ServedStation): Reason['parts'] {
  if (follows.drive.interpolates !== 'none') return [];
  const asked = { J: shaft.inertias, ω: shaft.speed, j: jitterOf(follows), T: station.period };
  return [{ title: 'torque that it asks for', costs: given(asked, (known) => jitterTorque(known, name)) }];
}

/** How a clock of its own, whose rate is said, moves against that of the network; nothing elsewhere. */
function ownClockParts({ name, follows: { drive }, speed }: AxisUpdate, station: ServedStation): Reason['parts'] {
  const { setpoints, clock_apart: p } = drive;
  if (setpoints !== 'own_clock' || isAbsent(p)) return [];
  return [
    {
      title: 'drift of its own clock in a period',
      costs: given({ v: speed, p, t: station.period }, ({ v, ...known }) =>
        goneIn(v, clockDrift(known, name), `${name}.drift`),
      ),
    },
    {
      title: 'beat of both clocks, which comes round every',
      costs: given({ p, T: station.period }, (known) => clockBeat(known, name)),
    },
  ];
}

/** What cycles and delays cost at a speed, and the slowest cycle that is left; below 0 where the delays alone are too long. */
export function lagging(
  {
    e,
    v,
    n,
    T,
    d,
  }: Readonly<Record<'e' | 'v', Quantity>> & { readonly n: Quantity<'1'>; readonly T: Time; readonly d: Time },
  about: string,
): Found {
  const kit = kitOf(v);
  const left = kit.timeLeft({ e, v, d }, about);
  return { costs: kit.lag({ v, n, T, d }, about), slowest: inCycles(left, n, about) };
}

/** What stands still has all the time that there is. */
export const inCycles = (left: Time, n: Quantity<'1'>, about: string): Time | 'any' =>
  n.value > 0 && left.value < Infinity ? cycleInTime({ t: left, n }, about) : left.value < 0 ? left : 'any';

const phaseMargin = assumed('timing.phase_margin', Math.PI / 3, 'rad', {
  source: 'common-practice',
  because: 'a position loop that hardly overshoots keeps 60°',
  as: '°',
});
const cyclesOfLoop = assumed('timing.cycles_of_loop', 2.5, '1', {
  source: 'judgement',
  because: 'one for the answer, one for the command, and half of the one in which it is held',
});
const nothingBeside = assumed('timing.dead_time_beside', 0, 's', {
  source: 'judgement',
  because: 'the loops in the drive are much quicker',
});
