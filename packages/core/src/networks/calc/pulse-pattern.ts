// Pulses that come in a pattern, such as fast transients in bursts: which share of the updates they cost and how many in a
// row, exact for every phase between pattern and cycle. All times in whole picoseconds.
//
// The updates that fail are a set of phases: those at which every try has a frame with a pulse on it. That j in a row fail
// holds where the set meets itself moved by one period, two, … j − 1. Clocks of a network and of a switched coil are not
// tied to each other: all phases come up, and the length of a set is the share of updates.
import { formula, method } from '../../working/formula.ts';
import { type Arcs, arcFrom, lengthOf, movedBy, shared, unionOf } from './arcs.ts';
import { mustBeCount } from './probability.ts';

export interface PulsePattern {
  /** Begins of all pulses within one period of the pattern. */
  readonly starts_ps: readonly number[];
  /** How long each pulse lasts; a dropout of some milliseconds is one pulse of that length. */
  readonly pulse_ps: number;
  readonly period_ps: number;
}

/** A frame of a try, from its first bit of preamble to its last bit. */
export interface FrameOpen {
  /** From the begin of the period of the updates. */
  readonly from_ps: number;
  readonly lasts_ps: number;
}

export interface PatternLosses {
  /** Share of the updates that are lost. */
  readonly share: number;
  /** Share of the updates that are the first of 1, of 2, … lost one behind the other; as many as `longest`, up to a limit. */
  readonly inARow: readonly number[];
  /** The most updates that are lost in a row. Infinity without an end, or beyond `longestWalk`. */
  readonly longest: number;
}

/** Our judgement: a drive that has lost ten thousand updates in a row has tripped. */
export const longestWalk = 10_000;

/**
 * Pulses of the test generator of IEC 61000-4-4: 5 ns rise, 50 ns wide at half height, 75 in a burst, a burst each 300 ms. It
 * stands for switched coils and bouncing contacts; a welder, a contactor or a drive's switching have patterns of their own.
 * Source: 'iec-61000-4-4'.
 */
export const fastTransients = {
  pulse_s: 50e-9,
  pulses: 75,
  period_s: 0.3,
  /** At 5 kHz, the older setting, and at 100 kHz, nearer to what relays do. */
  pulseEvery_s: [200e-6, 10e-6],
} as const;

export const burstOfPulses = formula({
  id: 'networks.pattern.burst',
  title: 'burst of so many pulses',
  text: 'n*e',
  gives: 's',
  symbols: { n: '1', e: 's' },
  means: { n: 'pulses in a burst', e: 'from one pulse to the next' },
  try: { n: [1, 75, 1], e: [1e-5, 2e-4] },
  source: 'iec-61000-4-4',
  proof: 'N1',
  of: (n: number, e: number) => n * e,
});

/** During a burst only; over all time see `lostToPattern`. */
export const frameMeetsPulse = formula({
  id: 'networks.pattern.meets',
  title: 'chance that a frame meets a pulse during a burst',
  text: 'min(1, (L + w)/e)',
  gives: '1',
  symbols: { L: 's', w: 's', e: 's' },
  means: { L: 'time in which the frame is open to noise', w: 'pulse', e: 'from one pulse to the next' },
  try: { L: [1e-6, 1.2e-4], w: [1e-8, 1e-5], e: [1e-5, 2e-4] },
  source: 'definition',
  proof: 'a pulse every 200 µs',
  of: (L: number, w: number, e: number) => Math.min(1, (L + w) / e),
});

const symbols = { w: 's', e: 's', B: 's', P: 's', T: 's', o: 's[]', L: 's[]', a: '1[]' } as const;
const means = {
  w: 'pulse',
  e: 'from one pulse to the next',
  B: 'burst',
  P: 'period of the bursts',
  T: 'period of the updates',
  o: 'begin of each frame in that period',
  L: 'time in which each frame is open to noise',
  a: 'which of the ways in which an update may come through each frame belongs to',
} as const;

export const lostToPattern = method({
  id: 'networks.pattern.share',
  title: 'share of the updates that the pattern costs',
  prose:
    'share of all phases between pattern and cycle at which every try of the update has a frame with a pulse on it',
  gives: '1',
  symbols,
  means,
  source: 'definition',
  proof: 'pulses walked picosecond by picosecond',
  of: (...values: PatternValues) => lossesOf(values).share,
});

export const inARowToPattern = method({
  id: 'networks.pattern.in_a_row',
  title: 'updates in a row that the pattern costs at its worst phase',
  prose:
    'the most updates in a row of which every try has a frame with a pulse on it, at the worst phase between pattern and cycle',
  gives: '1',
  symbols,
  means,
  source: 'definition',
  proof: 'pulses walked picosecond by picosecond',
  of: (...values: PatternValues) => lossesOf(values).longest,
});

const recorded = {
  symbols: { w: 's', x: 's[]', P: 's', T: 's', o: 's[]', L: 's[]', a: '1[]' },
  means: {
    w: means.w,
    x: 'begin of each pulse of the recording',
    P: 'length of the recording',
    T: means.T,
    o: means.o,
    L: means.L,
    a: means.a,
  },
} as const;

export const lostToRecording = method({
  id: 'networks.recording.share',
  title: 'share of the updates that the recorded pulses cost',
  prose:
    'share of all phases between recording and cycle at which every try of the update has a frame with a pulse on it',
  gives: '1',
  ...recorded,
  source: 'definition',
  proof: 'pulses walked picosecond by picosecond',
  of: (...values: RecordedValues) => lossesOfRecording(values).share,
});

export const inARowToRecording = method({
  id: 'networks.recording.in_a_row',
  title: 'updates in a row that the recorded pulses cost at their worst phase',
  prose:
    'the most updates in a row of which every try has a frame with a pulse on it, the recording told again and again',
  gives: '1',
  ...recorded,
  source: 'definition',
  proof: 'pulses walked picosecond by picosecond',
  of: (...values: RecordedValues) => lossesOfRecording(values).longest,
});

type RecordedValues = [
  w: number,
  x: readonly number[],
  P: number,
  T: number,
  o: readonly number[],
  L: readonly number[],
  a: readonly number[],
];

type PatternValues = [
  w: number,
  e: number,
  B: number,
  P: number,
  T: number,
  o: readonly number[],
  L: readonly number[],
  a: readonly number[],
];

/** No time is shorter than a picosecond here or longer than thirty years. */
const ps = (seconds: number): number => Math.min(1e21, Math.max(1, Math.round(seconds * 1e12)));
const begin = (seconds: number): number => Math.round(seconds * 1e12);

const triesOf = (o: readonly number[], L: readonly number[], a: readonly number[]): readonly (readonly FrameOpen[])[] =>
  [...new Set(a)].map((each) =>
    a.flatMap((of, at) => (of === each ? [{ from_ps: begin(o[at]!), lasts_ps: ps(L[at]!) }] : [])),
  );

const lossesOf = ([w, e, B, P, T, o, L, a]: PatternValues): PatternLosses =>
  patternLosses(pulsesInBursts(ps(w), ps(e), ps(B), ps(P)), triesOf(o, L, a), ps(T));

const lossesOfRecording = ([w, x, P, T, o, L, a]: RecordedValues): PatternLosses =>
  patternLosses({ starts_ps: x.map(begin), pulse_ps: ps(w), period_ps: ps(P) }, triesOf(o, L, a), ps(T));

/** Pulses from the begin of each burst on, as long as it lasts. Throws a RangeError for a time of 0 or less. */
export function pulsesInBursts(pulse_ps: number, every_ps: number, burst_ps: number, period_ps: number): PulsePattern {
  for (const time of [pulse_ps, every_ps, burst_ps, period_ps]) mustBeCount(time, 1, 'a time of the pattern, in ps,');
  const pulses = Math.ceil(Math.min(burst_ps, period_ps) / every_ps);
  return { starts_ps: Array.from({ length: pulses }, (_, at) => at * every_ps), pulse_ps, period_ps };
}

/**
 * What a pattern does to updates of one try or more, each try of one frame or more; an update is lost when every try has a
 * frame with a pulse on it. Throws a RangeError for a period that is no whole number of picoseconds over 0.
 */
export function patternLosses(
  pattern: PulsePattern,
  tries: readonly (readonly FrameOpen[])[],
  update_ps: number,
): PatternLosses {
  const round = pattern.period_ps;
  mustBeCount(round, 1, 'the period of the pattern, in ps,');
  mustBeCount(update_ps, 1, 'the period of the updates, in ps,');
  const lost = tries.map((frames) => spoilt(pattern, frames)).reduce(shared, [[0, round]]);
  const inARow: number[] = [];
  const distinct = round / greatestCommonDivisor(round, update_ps);
  for (let row = lost; row.length > 0; row = shared(row, movedBy(lost, -inARow.length * update_ps, round))) {
    if (inARow.length === Math.min(distinct, longestWalk)) return { share: inARow[0]!, inARow, longest: Infinity };
    inARow.push(lengthOf(row) / round);
  }
  return { share: inARow[0] ?? 0, inARow, longest: inARow.length };
}

/** Share of the updates with which a run of `inARow` losses or more begins: so many trips for each update. */
export const tripsEachUpdate = ({ inARow }: PatternLosses, tripAfter: number): number =>
  (inARow[tripAfter - 1] ?? 0) - (inARow[tripAfter] ?? 0);

/** The phases of the pattern at which an update begins that has a pulse on one of these frames. */
const spoilt = ({ starts_ps, pulse_ps, period_ps }: PulsePattern, frames: readonly FrameOpen[]): Arcs =>
  unionOf(
    frames.flatMap(({ from_ps, lasts_ps }) =>
      starts_ps.map((start) => arcFrom(start - lasts_ps - from_ps, lasts_ps + pulse_ps, period_ps)),
    ),
  );

const greatestCommonDivisor = (a: number, b: number): number => (b === 0 ? a : greatestCommonDivisor(b, a % b));
