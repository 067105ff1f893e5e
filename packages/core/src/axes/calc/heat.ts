// How warm the winding of a motor gets in a cycle: two bodies, winding in frame and frame in the surroundings.
//   C_w·dT_w/dt = P − (T_w − T_f)/R_wf        C_f·dT_f/dt = (T_w − T_f)/R_wf − T_f/R_fa
// T_w and T_f are rises over the surroundings; continuous torque warms the winding by P·(R_wf + R_fa) in the end. The
// losses P go with the square of the torque: that warm copper resists more, and losses by speed, are left out.
import { formula, method } from '../../working/formula.ts';
import { mustBeOverZero } from './over-zero.ts';

export interface Heating {
  /** Of the winding over the surroundings, in the steady state at continuous torque. */
  readonly rise_K: number;
  /**
   * What of it lies between winding and frame: R_wf/(R_wf + R_fa). With 1 the frame stays cold, the winding is one body.
   * 0 stands for one body with the time constant of the frame; a small share is not near to it, but a winding that, for
   * its time constant, has to hold much heat.
   */
  readonly windingShare: number;
  /** C_w·R_wf: time constant of the winding in a frame that keeps its temperature. */
  readonly winding_s: number;
  /** C_f·R_fa: time constant of the frame without the winding. */
  readonly frame_s: number;
}

/** A stretch of the cycle in which the loss is taken as constant: its torque stays, or the winding hardly follows. */
export interface HeatPhase {
  readonly lasts_s: number;
  /** Effective torque for the continuous torque. */
  readonly torque: number;
}

export interface SettledRise {
  /** The highest rise of the winding in a cycle, and when it is reached: at the end of a phase. */
  readonly highest_K: number;
  readonly highestAt_s: number;
  /** At the beginning of a cycle and at its end. */
  readonly start_K: number;
}

/**
 * Rise of the winding some time after a cold start, in a cycle that repeats itself. Throws a RangeError, as the others
 * do, for a measure that cannot be and for a cycle without a phase.
 */
export function riseFromCold(heating: Heating, phases: readonly HeatPhase[], time_s: number): number {
  if (!(time_s >= 0 && time_s < Infinity)) throw new RangeError(`a time of ${time_s} s`);
  const duty = dutyOf(heating, phases);
  const cycles = Math.floor(time_s / duty.cycle_s);
  let left_s = time_s - cycles * duty.cycle_s;
  let levels = levelsAfter(duty, cycles);
  for (const { lasts_s, loss } of duty.phases) {
    const spent_s = Math.min(lasts_s, left_s);
    levels = moved(duty, levels, loss, spent_s);
    left_s -= spent_s;
  }
  return riseOf(duty, levels);
}

/** What a cycle comes to that is repeated for any length of time. */
export function settledRise(heating: Heating, phases: readonly HeatPhase[]): SettledRise {
  return settledIn(dutyOf(heating, phases));
}

/**
 * The same highest rise for many losses, squares of torque for the continuous one, of phases that last as long: what hangs
 * on the times alone is computed once.
 */
export function settledRiser(heating: Heating, durations_s: readonly number[]): (losses: Float64Array) => number {
  const count = durations_s.length;
  const lags = lagsOf(heating);
  const cycle_s = durations_s.reduce((sum, each) => sum + each, 0);
  const ways = lags.map((lag) => ({
    share: heating.rise_K * lag.share,
    phases: Float64Array.from(durations_s, (each) => gone(each, lag)),
    cycle: gone(cycle_s, lag),
  }));
  const rises = new Float64Array(count);
  return (losses) => {
    rises.fill(0);
    for (const { share, phases, cycle } of ways) {
      let level = 0;
      for (let at = 0; at < count; at++) level += (losses[at]! - level) * phases[at]!;
      level /= cycle;
      for (let at = 0; at < count; at++) {
        level += (losses[at]! - level) * phases[at]!;
        rises[at]! += share * level;
      }
    }
    let most = 0;
    for (let at = 0; at < count; at++) most = Math.max(most, rises[at]!);
    return most;
  };
}

/** When the winding, from cold, first has a share, over 0 and below 1, of the highest rise of the settled cycle. */
export function heatingTime(heating: Heating, phases: readonly HeatPhase[], share: number): number {
  if (!(share > 0 && share < 1)) throw new RangeError(`a share of ${share}`);
  const duty = dutyOf(heating, phases);
  const due_K = share * settledIn(duty).highest_K;
  const reaches = (cycles: number) => highestFrom(duty, levelsAfter(duty, cycles)).highest_K >= due_K;
  // From cold each cycle is warmer than the one before it.
  let [below, cycles] = [-1, 0];
  while (!reaches(cycles)) [below, cycles] = [cycles, 2 * cycles + 1];
  while (cycles - below > 1) {
    const middle = Math.floor((below + cycles) / 2);
    if (reaches(middle)) cycles = middle;
    else below = middle;
  }
  return cycles * duty.cycle_s + firstAt(duty, levelsAfter(duty, cycles), due_K);
}

/**
 * Seen from the winding, both bodies are two lags of first order beside each other: each has a share of the rise and a
 * time constant, and a level that goes towards the loss, which is 1 at continuous torque.
 */
interface Lag {
  readonly share: number;
  readonly time_s: number;
}

/** The levels of the lags, in their order. */
type Levels = readonly number[];

interface Duty {
  readonly rise_K: number;
  readonly lags: readonly Lag[];
  readonly phases: readonly { readonly lasts_s: number; readonly loss: number }[];
  readonly cycle_s: number;
  /** At the beginning of a cycle once it is settled. */
  readonly settled: Levels;
}

function dutyOf(heating: Heating, phases: readonly HeatPhase[]): Duty {
  const losses = phases.map(({ lasts_s, torque }) => {
    mustBeOverZero({ 'the duration of a phase': lasts_s });
    if (!Number.isFinite(torque)) throw new RangeError(`a torque of ${torque} for the continuous one`);
    return { lasts_s, loss: torque ** 2 };
  });
  if (losses.length === 0) throw new RangeError('a cycle without a phase');
  const lags = lagsOf(heating);
  const cycle_s = losses.reduce((sum, { lasts_s }) => sum + lasts_s, 0);
  const cold = { rise_K: heating.rise_K, lags, phases: losses, cycle_s, settled: lags.map(() => 0) };
  const once = losses.reduce<Levels>((levels, { lasts_s, loss }) => moved(cold, levels, loss, lasts_s), cold.settled);
  return { ...cold, settled: once.map((level, at) => level / gone(cycle_s, lags[at]!)) };
}

/** The eigenvalues of both equations, and the residues of the rise of the winding at them, which are over 0. */
function lagsOf({ rise_K, windingShare: s, winding_s, frame_s }: Heating): readonly Lag[] {
  mustBeOverZero({
    'the rise': rise_K,
    'the time constant of the winding': winding_s,
    'the time constant of the frame': frame_s,
  });
  if (!(s >= 0 && s <= 1)) throw new RangeError(`a share of ${s} between winding and frame`);
  if (s === 0) return [{ share: 1, time_s: frame_s }];
  if (s === 1) return [{ share: 1, time_s: winding_s }];
  const half = (1 / winding_s + 1 / (s * frame_s)) / 2;
  const apart = Math.hypot((1 / winding_s - 1 / (s * frame_s)) / 2, Math.sqrt((1 - s) / (s * winding_s * frame_s)));
  const fast = half + apart;
  const slow = 1 / (winding_s * frame_s * fast);
  const slowShare = (fast * (1 - s * slow * frame_s)) / (2 * apart);
  return [
    { share: slowShare, time_s: 1 / slow },
    { share: 1 - slowShare, time_s: 1 / fast },
  ];
}

/** How much of the way to its end a lag has gone. */
const gone = (time_s: number, lag: Lag): number => -Math.expm1(-time_s / lag.time_s);

const moved = ({ lags }: Pick<Duty, 'lags'>, levels: Levels, loss: number, time_s: number): Levels =>
  levels.map((level, at) => level + (loss - level) * gone(time_s, lags[at]!));

/** A whole number of cycles after a cold start. */
const levelsAfter = ({ lags, settled, cycle_s }: Duty, cycles: number): Levels =>
  settled.map((level, at) => level * gone(cycles * cycle_s, lags[at]!));

const riseOf = ({ rise_K, lags }: Duty, levels: Levels): number =>
  rise_K * lags.reduce((sum, { share }, at) => sum + share * levels[at]!, 0);

const settledIn = (duty: Duty): SettledRise => ({
  ...highestFrom(duty, duty.settled),
  start_K: riseOf(duty, duty.settled),
});

/**
 * Only ends of phases are looked at. A top inside of one, where the loss stays, needs a frame that cools, and so one that
 * has been warmed by a winding warmer than now: tops inside are never the highest of all that came before.
 */
function highestFrom(duty: Duty, start: Levels): { readonly highest_K: number; readonly highestAt_s: number } {
  let [highest_K, highestAt_s, from_s, levels] = [0, 0, 0, start];
  for (const { lasts_s, loss } of duty.phases) {
    levels = moved(duty, levels, loss, lasts_s);
    from_s += lasts_s;
    const end_K = riseOf(duty, levels);
    if (end_K > highest_K) [highest_K, highestAt_s] = [end_K, from_s];
  }
  return { highest_K, highestAt_s };
}

/** When, in a cycle that begins below a rise and reaches it, it is first reached. */
function firstAt(duty: Duty, start: Levels, due_K: number): number {
  let [from_s, levels] = [0, start];
  for (const { lasts_s, loss } of duty.phases) {
    const rise = (time_s: number) => riseOf(duty, moved(duty, levels, loss, time_s));
    if (rise(lasts_s) >= due_K) {
      let [low, high] = [0, lasts_s];
      for (let step = 0; step < 60; step++) {
        const middle = (low + high) / 2;
        if (rise(middle) < due_K) low = middle;
        else high = middle;
      }
      return from_s + high;
    }
    levels = moved(duty, levels, loss, lasts_s);
    from_s += lasts_s;
  }
  throw new RangeError(`a rise of ${due_K} K is not reached`);
}

const cycle = {
  symbols: { T: 'N·m[]', t: 's[]', C: 'N·m', θ: 'K', s: '1', w: 's', f: 's' },
  means: {
    T: 'effective torque of each phase',
    t: 'duration of each phase',
    C: 'continuous torque',
    θ: 'rise of the winding at continuous torque, in the steady state',
    s: 'share of that rise between winding and frame',
    w: 'time constant of the winding',
    f: 'time constant of the frame',
  },
  source: 'definition',
} as const;

type CycleInputs = [
  T: readonly number[],
  t: readonly number[],
  C: number,
  rise_K: number,
  windingShare: number,
  winding_s: number,
  frame_s: number,
];

const duty = ([T, t, C, rise_K, windingShare, winding_s, frame_s]: CycleInputs) =>
  [
    { rise_K, windingShare, winding_s, frame_s },
    t.map((lasts_s, at): HeatPhase => ({ lasts_s, torque: T[at]! / C })),
  ] as const;

export const highestSettledRise = method({
  ...cycle,
  id: 'axes.heat.settled_rise',
  title: 'highest rise of the winding in a cycle that is repeated for any length of time',
  prose: 'winding and frame as two bodies, in closed form over each phase, ending a cycle as they have begun it',
  gives: 'K',
  proof: 'the settled cycle is what many cycles from cold come to',
  of: (...inputs: CycleInputs) => settledRise(...duty(inputs)).highest_K,
});

export const timeToWarmUp = method({
  ...cycle,
  id: 'axes.heat.time_to_warm_up',
  title: 'time from a cold start until the winding has a share of its highest rise',
  prose: 'winding and frame as two bodies, in closed form over each phase, cycle by cycle from cold',
  gives: 's',
  symbols: { ...cycle.symbols, q: '1' },
  means: { ...cycle.means, q: 'share of the highest rise of the settled cycle' },
  proof: 'a step from cold is a curve of first order',
  of: (...[T, t, C, rise_K, windingShare, winding_s, frame_s, share]: [...CycleInputs, share: number]) =>
    heatingTime(...duty([T, t, C, rise_K, windingShare, winding_s, frame_s]), share),
});

/** Of one body, whose torque stays. */
export const riseAfter = formula({
  id: 'axes.heat.rise_after',
  title: 'rise of a winding some time after a cold start at constant torque',
  text: 'θ*T^2/C^2*(1 - exp(-t/τ))',
  gives: 'K',
  symbols: { θ: 'K', T: 'N·m', C: 'N·m', t: 's', τ: 's' },
  means: {
    θ: cycle.means.θ,
    T: 'effective torque',
    C: cycle.means.C,
    t: 'time since the cold start',
    τ: 'time constant',
  },
  try: { θ: [40, 140], T: [0.1, 20], C: [0.5, 10], t: [1, 3000], τ: [100, 3000] },
  source: 'dubey',
  at: 'chapter 4',
  proof: 'a step from cold is a curve of first order',
  of: (rise_K: number, T: number, C: number, t: number, tau: number) => -rise_K * (T / C) ** 2 * Math.expm1(-t / tau),
});

export const windingTemperature = formula({
  id: 'axes.heat.winding_temperature',
  title: 'temperature of the winding',
  text: 'A + θ',
  gives: 'K abs',
  symbols: { A: 'K abs', θ: 'K' },
  means: { A: 'temperature of the surroundings', θ: 'rise of the winding' },
  try: { A: [250, 330], θ: [0, 140] },
  source: 'definition',
  proof: 'a step from cold is a curve of first order',
  of: (A: number, rise_K: number) => A + rise_K,
});
