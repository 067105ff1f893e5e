// The noise while a simulation runs: pulses at a phase, and a channel that is good or bad, both carried from cycle to cycle.
import { type BitState, nextWord } from '../../../physics/random-bits.ts';
import type { FlatHops } from './hops.ts';
import type { PulseNoise, SimulationPlan, TwoStateNoise } from './plan.ts';

/** A number over 0 and up to 1, of 53 bits. */
export const nextShare = (bits: BitState): number => {
  const upper = nextWord(bits) >>> 5;
  return (upper * 2 ** 26 + (nextWord(bits) >>> 6) + 1) / 2 ** 53;
};

export interface NoiseState {
  readonly nextCycle: () => void;
  /** Whether a pulse meets a hop of this cycle, moved by so much. */
  readonly meetsPulse: (hop: number, moved_ps: number) => boolean;
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
    .map((noise) => sourceOf(noise, runs, cycle_ps, bits));
  const channel = twoState && channelOf(twoState, runs, cycle_ps, bits);
  return {
    nextCycle: () => {
      for (const source of sources) source.nextCycle();
      channel?.nextCycle();
    },
    meetsPulse: (hop, moved_ps) =>
      sources.some((each) => each.meets(hops.run[hop]!, hops.from_ps[hop]! + moved_ps, hops.lasts_ps[hop]!)),
    takesTry: (first, end, moved_ps) => {
      if (channel === undefined) return false;
      for (let hop = first; hop < end; hop++)
        if (channel.hits[hops.run[hop]!] === 1) return channel.takes(hops.from_ps[first]! + moved_ps);
      return false;
    },
  };
}

/** Pulse and frame are tied to clocks of their own, so any phase is as likely as another. */
function sourceOf({ pattern, hits }: PulseNoise, runs: number, cycle_ps: number, bits: BitState) {
  const { pulse_ps, period_ps } = pattern;
  const starts = Float64Array.from(pattern.starts_ps, (start) => start % period_ps).sort();
  const isHit = hitsOf(hits, runs);
  let phase_ps = Math.floor(nextShare(bits) * period_ps) % period_ps;
  return {
    nextCycle: () => {
      phase_ps = (phase_ps + cycle_ps) % period_ps;
    },
    meets: (run: number, from_ps: number, lasts_ps: number): boolean => {
      if (isHit[run] !== 1) return false;
      const reach = lasts_ps + pulse_ps;
      if (reach > period_ps) return true;
      const behind = (((phase_ps + from_ps - pulse_ps) % period_ps) + period_ps) % period_ps;
      let [low, high] = [0, starts.length];
      while (low < high) {
        const middle = (low + high) >>> 1;
        if (starts[middle]! > behind) high = middle;
        else low = middle + 1;
      }
      const next = low < starts.length ? starts[low]! : starts[0]! + period_ps;
      return next < behind + reach;
    },
  };
}

/** Starts as the channel is on the whole; steps begin with the cycle, and the time until it changes is drawn at once. */
function channelOf(
  { toBad, toGood, step_ps, lossInGood, lossInBad, hits }: TwoStateNoise,
  runs: number,
  cycle_ps: number,
  bits: BitState,
) {
  const dwell_ps = (chance: number): number => {
    if (chance === 0) return Number.POSITIVE_INFINITY;
    const share = nextShare(bits);
    return step_ps * (1 + (chance === 1 ? 0 : Math.floor(Math.log(share) / Math.log1p(-chance))));
  };
  let isBad = toBad > 0 && nextShare(bits) * (toBad + toGood) <= toBad;
  let changes_ps = dwell_ps(isBad ? toGood : toBad);
  return {
    hits: hitsOf(hits, runs),
    nextCycle: () => {
      changes_ps -= cycle_ps;
    },
    takes: (at_ps: number): boolean => {
      while (changes_ps <= at_ps) {
        isBad = !isBad;
        changes_ps += dwell_ps(isBad ? toGood : toBad);
      }
      const loss = isBad ? lossInBad : lossInGood;
      return loss > 0 && nextShare(bits) <= loss;
    },
  };
}

function hitsOf(hits: readonly number[], runs: number): Uint8Array {
  const isHit = new Uint8Array(runs);
  for (const run of hits) isHit[run] = 1;
  return isHit;
}
