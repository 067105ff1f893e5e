// What one phase of a case demands: the torque at its highest instant with its working, and what is integrated over it.
import type { Values } from '../working/formula.ts';
import type { Inputs, Quantity } from '../working/quantity.ts';
import type { PlainLine } from './calc/drive-line.ts';
import { highestIn } from './calc/highest-in-piece.ts';
import { hardestMovingOff, type MovingOff } from './calc/moving-off.ts';
import { lasts_s, type PhaseDemand, phaseDemand } from './calc/phase-torque.ts';
import { chain, type State, stateAt, stateOf } from './calc/segment.ts';
import type { Line, PlainForm } from './line.ts';
import { kits } from './motion-kit.ts';
import { type Even, motionOf, type Phase, type PhasedMotion } from './phase.ts';
import {
  effectiveTorque,
  energyGiven,
  energyReturned,
  highestToolSpeed,
  highestToolTurningSpeed,
  phaseMeanSpeed,
  phasePower,
  startingAcceleration,
  startingAngle,
  startingPosition,
  startingTurningAcceleration,
  toolAcceleration,
  toolAngle,
  toolPosition,
  toolSpeed,
  toolTurningAcceleration,
  toolTurningSpeed,
} from './phase-methods.ts';
import { wayOf } from './steps.ts';
import { type Instant, torqueAt } from './torque-at.ts';

export interface PhaseResult {
  readonly phase: Phase;
  /** At its highest, over 0 where it drives the motion on. */
  readonly torque: Quantity<'N·m'>;
  /** The constant torque itself, or the root of its mean square. */
  readonly effective: Quantity<'N·m'>;
  /** Torque to move off, where friction at rest is said. */
  readonly starting: Quantity<'N·m'> | undefined;
  readonly toolSpeed: Quantity | undefined;
  readonly meanSpeed: Quantity<'rad/s'>;
  readonly power: Quantity<'W'>;
  readonly given: Quantity<'J'>;
  readonly returned: Quantity<'J'>;
  readonly standing: boolean;
}

/** How the master changes its speed, from standstill to full speed or back, in a time. */
export interface Ramp {
  /** In usual operation, or in a stop that is told by name. */
  readonly kind: 'ramp' | 'stop';
  readonly name: string;
  readonly title: string;
  readonly falling: boolean;
  readonly t: Quantity<'s'>;
}

export interface CaseAsked {
  readonly motion: PhasedMotion;
  readonly line: Line;
  /** What the motion goes quicker or slower with, where it does. */
  readonly ramp: Ramp | undefined;
}

export interface PhaseAsked extends CaseAsked {
  readonly form: PlainForm;
  readonly plain: PlainLine;
  readonly phase: Phase;
  /** The phases before it in the cycle, the way that they end at and the time that they take. */
  readonly before: readonly Phase[];
  readonly from: number;
  readonly start_s: number;
  readonly about: string;
}

/** What the acceleration has added for each part of the speed. */
export const risingOf = (ramp: Ramp | undefined, time_s = ramp?.t.value): number =>
  ramp === undefined ? 0 : (ramp.falling ? -1 : 1) / time_s!;

export function phaseOf(asked: PhaseAsked): PhaseResult {
  const { line, phase, plain, from, start_s, about, ramp } = asked;
  const found = phaseDemand(plain, { motion: motionOf(phase), from, start_s, rising_per_s: risingOf(ramp) });
  const analysis = analysed(asked);
  const own = isPlaced(line) ? undefined : phase.even;
  const standing = phase.even !== undefined && phase.even.before === undefined && phase.even.acceleration === undefined;
  // What the ramp of the master adds grows with the speed, so that the acceleration is not the same from end to end.
  const even = ramp === undefined || standing ? own : undefined;
  const torque = torqueAt(
    line,
    even === undefined ? instantOf(asked, analysis, found, standing) : evenInstant(even, found, phase, standing),
    about,
  );
  const { inputs, means, of } = analysis;
  const searched = (take: (demand: PhaseDemand) => number) => ({
    inputs,
    means,
    of: (...values: Values) => take(of(values)),
    value: take(found),
  });
  return {
    phase,
    torque,
    effective: found.constant
      ? torque
      : effectiveTorque(
          searched(({ squared, lasts_s: t }) => Math.sqrt(squared / t)),
          about,
        ),
    starting: standing
      ? undefined
      : own === undefined || (ramp !== undefined && own.before !== undefined)
        ? movingOff(asked, analysis)
        : startingTorque(line, own, about),
    toolSpeed: standing ? undefined : toolSpeedOf(asked),
    meanSpeed: phaseMeanSpeed(
      searched(({ turned_rad, lasts_s: t }) => turned_rad / t),
      about,
    ),
    power: phasePower(
      searched(({ peakPower_W }) => peakPower_W),
      about,
    ),
    given: energyGiven(
      searched(({ given_J }) => given_J),
      about,
    ),
    returned: energyReturned(
      searched(({ returned_J }) => returned_J),
      about,
    ),
    standing,
  };
}

const isPlaced = ({ stages }: Line): boolean => stages.some(({ placed }) => placed.length > 0);

// ── the instant of the highest torque ────────────────────────────────────────────────────────────────────────────────

/** At constant acceleration the torque is highest at one of the ends. */
function evenInstant(even: Even, found: PhaseDemand, phase: Phase, standing: boolean): Instant {
  const late = found.peakAt_s > phase.duration.value / 2;
  return {
    speed: late ? even.after : even.before,
    acceleration: even.acceleration,
    backwards: even.backwards,
    state: standing ? 'standing' : 'moving',
    position: undefined,
    time_s: found.peakAt_s,
  };
}

/** Moving off against friction at rest, where a train says it. */
function startingTorque(line: Line, even: Even, about: string): Quantity<'N·m'> | undefined {
  const sticks = line.stages.some(({ frictions }) => frictions.some(({ breakaway }) => breakaway !== undefined));
  if (!sticks || even.before !== undefined) return undefined;
  const { acceleration, backwards } = even;
  return torqueAt(
    line,
    { speed: undefined, acceleration, backwards, state: 'starting', position: undefined, time_s: 0 },
    `${about}.starting`,
  );
}

/** The same where the acceleration changes all along, a load depends on where the tool is, or the master moves off. */
function movingOff(
  { motion, line, phase, plain, from, start_s, about, ramp }: PhaseAsked,
  { inputs, means, off }: Analysed,
): Quantity<'N·m'> | undefined {
  const own = motionOf(phase);
  const found = hardestMovingOff(plain, { motion: own, from, start_s, rising_per_s: risingOf(ramp) });
  if (found === undefined) return undefined;
  const { segment, going, quickening } = found;
  const [faster, place] =
    motion.unit === 'm'
      ? ([startingAcceleration, startingPosition] as const)
      : ([startingTurningAcceleration, startingAngle] as const);
  const call = (take: (moving: MovingOff) => number) => ({
    inputs,
    means,
    of: (...values: Values) => take(off(values)),
    value: take(found),
  });
  const even = phase.even?.before === undefined ? phase.even?.acceleration : undefined;
  const least = 1e-9 * highestIn(segment, 'acceleration');
  const acceleration =
    even ??
    (Math.abs(quickening) <= least
      ? undefined
      : faster(
          call((moving) => moving.going * moving.quickening),
          about,
        ));
  const position = isPlaced(line)
    ? place(
        { inputs, means, of: (...values: Values) => off(values).position, value: from + stateOf(segment, 0).position },
        about,
      )
    : undefined;
  const time_s = start_s + segment.start_s - own[0]!.start_s;
  const instant = { speed: undefined, acceleration, backwards: going === -1, position, time_s };
  return torqueAt(line, { ...instant, state: 'starting' }, `${about}.starting`);
}

function instantOf(
  { motion, line, phase, from, start_s, about, ramp }: PhaseAsked,
  { inputs, means, instant }: Analysed,
  found: PhaseDemand,
  standing: boolean,
): Instant {
  const along = motion.unit === 'm';
  const backwards = found.peakGoing === -1;
  const sign = backwards ? -1 : 1;
  const here = stateAt(motionOf(phase), found.peakAt_s);
  // All that decides which instant that is goes into the working.
  const call = (take: (state: State) => number) => ({
    inputs,
    means,
    of: (...values: Values) => take(instant(values).state),
    value: take(here),
  });
  const speed = standing
    ? undefined
    : (along ? toolSpeed : toolTurningSpeed)(
        call(({ velocity }) => Math.abs(velocity)),
        about,
      );
  const own = standing
    ? undefined
    : (along ? toolAcceleration : toolTurningAcceleration)(
        call(({ acceleration }) => sign * acceleration),
        about,
      );
  const kit = kits[motion.unit];
  const acceleration =
    own === undefined || speed === undefined || ramp === undefined
      ? own
      : (ramp.falling ? kit.falling : kit.rising)({ a: own, u: speed, t: ramp.t }, about);
  const position = isPlaced(line)
    ? (along ? toolPosition : toolAngle)(
        { inputs, means, of: (...values: Values) => instant(values).position, value: from + here.position },
        about,
      )
    : undefined;
  return {
    speed,
    acceleration,
    backwards,
    state: standing ? 'standing' : 'moving',
    position,
    time_s: start_s + found.peakAt_s,
  };
}

/** The highest speed of the tool: at constant acceleration the greater one of both ends. */
function toolSpeedOf({ motion, phase, about }: PhaseAsked): Quantity | undefined {
  const { even } = phase;
  if (even !== undefined) {
    const { before, after } = even;
    if (before === undefined || after === undefined) return before ?? after;
    return before.value >= after.value ? before : after;
  }
  return (motion.unit === 'm' ? highestToolSpeed : highestToolTurningSpeed)(
    {
      inputs: phase.inputs,
      means: phase.means,
      of: (...values: readonly number[]) =>
        phaseDemand(bare, { motion: chain(phase.build(...values)), from: 0, start_s: 0, rising_per_s: 0 })
          .peakSpeed_rad_per_s,
    },
    about,
  );
}

/** A train of nothing: the speed of its motor is that of the tool. */
const bare: PlainLine = { stages: [], lossOnInertia: false };

// ── what is integrated over a phase or searched in it ────────────────────────────────────────────────────────────────

/** A phase with all that stands before it in the cycle, and the values of both told apart. */
function withBefore(phase: Phase, before: readonly Phase[]) {
  const inputs: Record<string, Inputs[string]> = { ...phase.inputs };
  const means: Record<string, string> = { ...phase.means };
  for (const [index, each] of before.entries()) {
    for (const [symbol, input] of Object.entries(each.inputs)) {
      inputs[`${symbol}_before_${index + 1}`] = input;
      means[`${symbol}_before_${index + 1}`] = `${each.means[symbol] ?? ''}, ${each.title}`;
    }
  }
  const split = (values: readonly number[]) => {
    let at = Object.keys(phase.inputs).length;
    const own = values.slice(0, at);
    let [from, start_s] = [0, 0];
    for (const each of before) {
      const count = Object.keys(each.inputs).length;
      const pieces = each.build(...values.slice(at, at + count));
      from += wayOf(pieces);
      start_s += lasts_s(chain(pieces));
      at += count;
    }
    return { own, from, start_s };
  };
  return { inputs, means, split };
}

interface Analysed {
  readonly inputs: Inputs;
  readonly means: Readonly<Record<string, string>>;
  readonly of: (values: Values) => PhaseDemand;
  /** At the highest torque: the state within the phase, and the position from where the cycle begins. */
  readonly instant: (values: Values) => { readonly state: State; readonly position: number };
  /** Where it moves off against the highest torque, and the position there. */
  readonly off: (values: Values) => MovingOff & { readonly position: number };
}

/** All that the analysis of a phase rests on, and the analysis itself from those values. */
function analysed({ phase, before, form, line, ramp }: PhaseAsked): Analysed {
  const placed = withBefore(phase, isPlaced(line) ? before : []);
  const count = Object.keys(placed.inputs).length;
  const trains = Object.keys(form.inputs).length;
  const all = (values: Values) => {
    const { own, from, start_s } = placed.split(values.slice(0, count) as number[]);
    const rising_per_s = risingOf(ramp, values.at(-1) as number);
    const motion = chain(phase.build(...own));
    const plain = form.build(values.slice(count, count + trains));
    return { motion, plain, from, start_s, rising_per_s };
  };
  const demandOf = ({ plain, ...stretch }: ReturnType<typeof all>) => phaseDemand(plain, stretch);
  return {
    inputs: { ...placed.inputs, ...form.inputs, ...(ramp && { R: ramp.t }) },
    means: { ...placed.means, ...form.means, R: 'time of the master between standstill and full speed' },
    of: (values) => demandOf(all(values)),
    instant: (values) => {
      const found = all(values);
      const state = stateAt(found.motion, demandOf(found).peakAt_s);
      return { state, position: found.from + state.position };
    },
    off: (values) => {
      const { plain, ...stretch } = all(values);
      const moving = hardestMovingOff(plain, stretch)!;
      return { ...moving, position: stretch.from + stateOf(moving.segment, 0).position };
    },
  };
}
