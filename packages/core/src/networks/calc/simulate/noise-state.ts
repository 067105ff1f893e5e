// The noise while a simulation runs: chance hop by hop, pulses at a phase, and a channel that is good or bad, both of which are
// carried from cycle to cycle.
import { type BitState, fillWords, nextWord } from '../../../physics/random-bits.ts';
import { onceForEach } from '../../../working/once.ts';
import type { PulsePattern } from '../pulse-pattern.ts';
import type { FlatHops } from './hops.ts';
import type { PulseNoise, SimulationPlan, TwoStateNoise } from './plan.ts';

/** Words drawn at once, two hops each: few enough that most blocks spoil nothing where errors are rare. Our judgement. */
const blockOfWords = 64;

/** A number over 0 and up to 1, of 53 bits. */
export const nextShare = (bits: BitState): number => {
  const upper = nextWord(bits) >>> 5;
  return (upper * 2 ** 26 + (nextWord(bits) >>> 6) + 1) / 2 ** 53;
};

/** The first hop from `first` on that is spoilt in this cycle, or `end`; the hops are moved by so much. */
export type FirstSpoilt = (first: number, end: number, moved_ps: number) => number;

export interface NoiseState {
  readonly nextCycle: () => void;
  readonly firstSpoilt: FirstSpoilt;
  /** Whether it comes to the same when the hops of several tries are asked for at once, up to the first that is spoilt. */
  readonly isHopByHop: boolean;
  /** Whether the channel takes a try with hops from `first` on, at the time of the first of them. */
  readonly takesTry: (first: number, end: number, moved_ps: number) => boolean;
}

export function noiseState(
  { twoState, pulses, runs, cycle_ps }: SimulationPlan,
  hops: FlatHops,
  bits: BitState,
): NoiseState {
  const sources = pulses
    .filter(({ pattern }) => pattern.starts_ps.length > 0)
    .map((noise) => sourceOf(noise, hops, runs, cycle_ps, bits));
  const channel = twoState && channelOf(twoState, hops, runs, cycle_ps, bits);
  const kinds = [...(hops.byChance ? [chanceOf(hops, bits)] : []), ...sources.map((each) => each.firstMet)];
  return {
    nextCycle: () => {
      for (let at = 0; at < sources.length; at++) sources[at]!.nextCycle();
      channel?.nextCycle();
    },
    firstSpoilt: firstOf(kinds),
    isHopByHop: channel === undefined && kinds.length <= 1,
    takesTry: channel?.takesTry ?? (() => false),
  };
}

function firstOf(kinds: readonly FirstSpoilt[]): FirstSpoilt {
  if (kinds.length === 1) return kinds[0]!;
  return (first, end, moved_ps) => {
    let found = end;
    for (const kind of kinds) found = kind(first, found, moved_ps);
    return found;
  };
}

/**
 * Half a word is drawn for each hop, and two more words where it leaves it open. A block whose halves are all over every chance
 * spoils nothing.
 */
function chanceOf({ upper, lower, greatest }: FlatHops, bits: BitState): FirstSpoilt {
  const words = new Int32Array(blockOfWords);
  const halves = new Int16Array(words.buffer);
  const block = halves.length;
  let used = block;
  let isQuiet = false;
  return (first, end) => {
    let hop = first;
    while (hop < end) {
      if (used === block) {
        isQuiet = !fillWords(bits, words, greatest);
        used = 0;
      }
      const ahead = used - hop;
      const until = Math.min(end, block - ahead);
      if (isQuiet) hop = until;
      while (hop < until && halves[hop + ahead]! > upper[hop]!) hop++;
      used = hop + ahead;
      if (hop === until) continue;
      const isUnder = halves[used]! < upper[hop]!;
      used++;
      if (isUnder || nextShare(bits) <= lower[hop]!) return hop;
      hop++;
    }
    return end;
  };
}

/** Pulse and frame are tied to clocks of their own, so any phase is as likely as another. */
function sourceOf(
  { pattern, hits }: PulseNoise,
  { run, from_ps, open_ps }: FlatHops,
  runs: number,
  cycle_ps: number,
  bits: BitState,
) {
  const { pulse_ps, period_ps } = pattern;
  const startAfter = searchOf(pattern);
  const inPeriod = remainderBy(period_ps);
  const isHit = hitsOf(hits, runs);
  let phase_ps = Math.floor(nextShare(bits) * period_ps) % period_ps;
  return {
    nextCycle: () => {
      phase_ps = inPeriod(phase_ps + cycle_ps);
    },
    firstMet: (first: number, end: number, moved_ps: number): number => {
      const offset_ps = phase_ps + moved_ps - pulse_ps;
      for (let hop = first; hop < end; hop++) {
        if (isHit[run[hop]!] !== 1) continue;
        const reach_ps = open_ps[hop]! + pulse_ps;
        if (reach_ps > period_ps) return hop;
        const behind_ps = inPeriod(offset_ps + from_ps[hop]!);
        if (startAfter(behind_ps) < behind_ps + reach_ps) return hop;
      }
      return end;
    },
  };
}

/** The remainder of whole numbers, never under 0, many times quicker than the one that the language has. */
function remainderBy(divisor: number): (value: number) => number {
  const inverse = 1 / divisor;
  return (value) => {
    const rest = value - Math.floor(value * inverse) * divisor;
    return rest < 0 ? rest + divisor : rest < divisor ? rest : rest - divisor;
  };
}

/**
 * The first of the starts behind a phase, or the first one of the next period. The period is cut, and each piece searched; made
 * once for all chunks of a plan.
 */
const searchOf = onceForEach(({ starts_ps, period_ps }: PulsePattern): ((behind_ps: number) => number) => {
  const starts = starts_ps.map((start) => start % period_ps).toSorted((a, b) => a - b);
  const pieces = 2 * starts.length;
  const scale = pieces / period_ps;
  const all = Float64Array.from([...starts, starts[0]! + period_ps]);
  const firstIn = new Int32Array(pieces + 2).fill(starts.length);
  for (const [at, start] of [...starts.entries()].toReversed()) firstIn[Math.floor(start * scale)] = at;
  for (let piece = pieces; piece >= 0; piece--) firstIn[piece] = Math.min(firstIn[piece]!, firstIn[piece + 1]!);
  return (behind_ps) => {
    const piece = Math.floor(behind_ps * scale);
    let low = firstIn[piece]!;
    let high = firstIn[piece + 1]!;
    while (low < high) {
      const middle = (low + high) >>> 1;
      if (all[middle]! > behind_ps) high = middle;
      else low = middle + 1;
    }
    return all[low]!;
  };
});

/** Starts as the channel is on the whole; steps begin with the cycle, and the time until it changes is drawn at once. */
function channelOf(
  { toBad, toGood, step_ps, lossInGood, lossInBad, hits }: TwoStateNoise,
  { run, from_ps }: FlatHops,
  runs: number,
  cycle_ps: number,
  bits: BitState,
) {
  const dwell_ps = (chance: number): number => {
    if (chance === 0) return Number.POSITIVE_INFINITY;
    const share = nextShare(bits);
    return step_ps * (1 + (chance === 1 ? 0 : Math.floor(Math.log(share) / Math.log1p(-chance))));
  };
  const isHit = hitsOf(hits, runs);
  let isBad = toBad > 0 && nextShare(bits) * (toBad + toGood) <= toBad;
  let changes_ps = dwell_ps(isBad ? toGood : toBad);
  const takes = (at_ps: number): boolean => {
    while (changes_ps <= at_ps) {
      isBad = !isBad;
      changes_ps += dwell_ps(isBad ? toGood : toBad);
    }
    const loss = isBad ? lossInBad : lossInGood;
    return loss > 0 && nextShare(bits) <= loss;
  };
  return {
    nextCycle: () => {
      changes_ps -= cycle_ps;
    },
    takesTry: (first: number, end: number, moved_ps: number): boolean => {
      for (let hop = first; hop < end; hop++) if (isHit[run[hop]!] === 1) return takes(from_ps[first]! + moved_ps);
      return false;
    },
  };
}

function hitsOf(hits: readonly number[], runs: number): Uint8Array {
  const isHit = new Uint8Array(runs);
  for (const run of hits) isHit[run] = 1;
  return isHit;
}
