// What repeats within a cycle buy: repeats that each station has of its own, and repeats that all stations share. Every try
// of a station is lost with its own chance, independently of all others; under bursts see `bursts.ts` and `two-state.ts`.
import { formula, method } from '../../working/formula.ts';
import { sumOver, total } from '../../working/total.ts';
import { mustBeCount, mustBeProbability } from './probability.ts';

/** Right for repeats that no other station can use up, and for a frame of all stations that is repeated as a whole. */
export const lostWithOwnRepeats = formula({
  id: 'networks.repeats.own',
  title: 'share of lost updates with repeats of its own',
  text: 'p^(n + 1)',
  gives: '1',
  symbols: { p: '1', n: '1' },
  means: { p: 'chance that one try is lost', n: 'repeats in a cycle' },
  try: { p: [0.01, 1], n: [0, 4, 1] },
  source: 'definition',
  proof: 'every outcome of every try',
  of: (p: number, n: number) => p ** (n + 1),
});

/** For one station, with the ones polled before it: they may have used up the repeats. */
export const lostWithSharedRepeats = method({
  id: 'networks.repeats.shared',
  title: 'share of lost updates with repeats that all stations share',
  prose:
    'sum over the number r of repeats that are left for the station of the probability of r times p^(r + 1); each station that failed before it repeats until it succeeds or none is left',
  gives: '1',
  symbols: { o: '1[]', p: '1', n: '1' },
  means: {
    o: 'chance that one try is lost, of each station polled before it',
    p: 'chance that one try is lost, of the station itself',
    n: 'repeats that all stations share in a cycle',
  },
  source: 'definition',
  proof: 'every outcome of every try',
  of: (o: readonly number[], p: number, n: number) => sharedRepeats([...o, p], n).unserved.at(-1)!,
});

/** Who else is served, and with how long a frame, may differ from cycle to cycle. */
export const lostOverCycles = formula({
  id: 'networks.repeats.over_cycles',
  title: 'share lost in the mean over all cycles in which the station is served',
  text: 'sum(k .* q)/sum(k)',
  gives: '1',
  symbols: { k: '1[]', q: '1[]' },
  means: { k: 'cycles of the pattern that are alike', q: 'share lost in these' },
  try: { k: [1, 6, 1], q: [0.01, 0.5] },
  source: 'definition',
  proof: 'a pool of stations that are not served in every cycle',
  of: (k: readonly number[], q: readonly number[]) => sumOver(k, (each, at) => each * q[at]!) / total(k),
});

export interface SharedRepeats {
  /** Probability that a station stays unserved in a cycle, for each in the order of polling. */
  readonly unserved: readonly number[];
  /** Probability that 0, 1, … all of the repeats are used. */
  readonly used: readonly number[];
  /** Probability that 0, 1, … all stations stay unserved. */
  readonly left: readonly number[];
}

/**
 * Of all stations that are unserved, the one that failed first is repeated, again and again until it succeeds; so stations
 * polled early are better off. Exact, station by station over the repeats that are left. Throws a RangeError for a loss that
 * is no probability and for repeats that are no whole number.
 */
export function sharedRepeats(lost: readonly number[], repeats: number): SharedRepeats {
  mustBeCount(repeats, 0, 'the number of repeats');
  /** Probability that so many repeats are left, all stations so far being served. */
  let spare = Array.from({ length: repeats + 1 }, (_, r) => Number(r === repeats));
  /** Probability that no repeat is left and that so many stations are unserved, from 1 on. */
  let without: number[] = [];
  const unserved = lost.map((p) => {
    mustBeProbability(p, 'the loss of a try');
    const next = spare.map(() => 0);
    let fails = 0;
    for (const [r, share] of spare.entries()) {
      for (let tries = 0; tries <= r; tries++) next[r - tries]! += share * p ** tries * (1 - p);
      fails += share * p ** (r + 1);
    }
    const before = without.reduce((sum, share) => sum + share, 0);
    without = [...without, 0].map((share, at) => share * (1 - p) + (at === 0 ? fails : without[at - 1]! * p));
    spare = next;
    return fails + before * p;
  });
  const all = without.reduce((sum, share) => sum + share, 0);
  const used = spare.toReversed();
  return {
    unserved,
    used: used.map((share, count) => (count === repeats ? share + all : share)),
    left: [spare.reduce((sum, share) => sum + share, 0), ...without],
  };
}

/** Probability that 0, 1, … all stations fail at their first try. */
export function failuresInCycle(lost: readonly number[]): readonly number[] {
  let counts: readonly number[] = [1];
  for (const p of lost)
    counts = [...counts, 0].map((share, at) => share * (1 - p) + (at === 0 ? 0 : counts[at - 1]! * p));
  return counts;
}

/** The fewest shared repeats with which no station loses a larger share of its updates; undefined where `most` are too few. */
export function sharedRepeatsNeeded(lost: readonly number[], share: number, most: number): number | undefined {
  for (let repeats = 0; repeats <= most; repeats++)
    if (Math.max(0, ...sharedRepeats(lost, repeats).unserved) <= share) return repeats;
  return undefined;
}
