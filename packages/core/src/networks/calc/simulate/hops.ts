// The hops of a plan in typed arrays, one behind another in the order in which they are played; repeats stand behind all others.
import { onceForEach } from '../../../working/once.ts';
import type { Hop, SimulationPlan } from './plan.ts';

/** The places of the hops of a first try and of a repeat. */
export interface FlatWay {
  readonly first: number;
  readonly end: number;
  readonly againFirst: number;
  readonly againEnd: number;
}

export interface FlatExchange extends FlatWay {
  readonly stations: readonly number[];
  readonly behind: number;
  readonly otherWay: FlatWay | undefined;
  /** When its last hop is over, counted as the hops are; where a copy goes the other way, the later one's. */
  readonly over_ps: number;
  readonly againOver_ps: number;
}

export interface FlatCycle {
  readonly first: number;
  readonly end: number;
  readonly branchEnd: number;
  /** Whether no first try ends behind the end of the cycle, or has copies: each is lost with any of its hops, then. */
  readonly isPlain: boolean;
  readonly exchanges: readonly FlatExchange[];
  readonly repeatsFrom_ps: readonly number[];
}

export interface FlatHops {
  readonly run: Int32Array;
  readonly from_ps: Float64Array;
  readonly lasts_ps: Float64Array;
  readonly open_ps: Float64Array;
  readonly after: Int32Array;
  /** Its place among the exchanges of its cycle; -1 of a branch hop. */
  readonly exchange: Int32Array;
  /** Its place among the hops of its try, those of copies behind the others; of a branch hop, among these. */
  readonly place: Int32Array;
  /**
   * The chance to be spoilt: its upper 16 bits, less 2^15 as halves of words are signed, and the share of the rest that counts
   * where these are equal; 1 at a chance of 1.
   */
  readonly upper: Int32Array;
  readonly lower: Float64Array;
  /** Of `upper`. */
  readonly greatest: number;
  /** Whether chance can spoil any of them. */
  readonly byChance: boolean;
  /** −ln(1 − chance), summed up to the hop and with it, within the pattern. */
  readonly hazard: Float64Array;
  readonly cycles: readonly FlatCycle[];
}

/** All hops of a pattern, without repeats. */
export const hopsOf = ({ cycles }: SimulationPlan): number =>
  cycles.reduce(
    (sum, { branches, exchanges }) =>
      sum +
      branches.length +
      exchanges.reduce((all, { hops, otherWay }) => all + hops.length + (otherWay?.hops.length ?? 0), 0),
    0,
  );

/** Made once for all chunks of a plan. */
export const flatHopsOf = onceForEach(flatten);

function flatten(plan: SimulationPlan): FlatHops {
  const all: Hop[] = [];
  const after: number[] = [];
  const take = (hops: readonly Hop[]): Place => {
    const first = all.length;
    for (const hop of hops) {
      all.push(hop);
      after.push(-1);
    }
    return { first, end: all.length };
  };
  const firsts = plan.cycles.map(({ branches, exchanges }) => {
    const { first, end: branchEnd } = take(branches);
    for (const [at, hop] of branches.entries()) after[first + at] = hop.after < 0 ? -1 : first + hop.after;
    const places = exchanges.map(({ hops, otherWay }) => ({ way: take(hops), copies: take(otherWay?.hops ?? []) }));
    return { first, branchEnd, end: all.length, places };
  });
  const cycles = plan.cycles.map(({ exchanges, repeatsFrom_ps }, at): FlatCycle => {
    const { first, branchEnd, end, places } = firsts[at]!;
    return {
      first,
      branchEnd,
      end,
      isPlain: exchanges.every(({ hops, otherWay }) => otherWay === undefined && overOf(hops) <= plan.cycle_ps),
      repeatsFrom_ps,
      exchanges: exchanges.map(({ stations, behind, hops, again, otherWay }, index) => {
        const { way, copies } = places[index]!;
        return {
          stations,
          behind: behind < 0 ? -1 : first + behind,
          ...withRepeat(way, take(again)),
          otherWay: otherWay && withRepeat(copies, take(otherWay.again)),
          over_ps: overOf([...hops, ...(otherWay?.hops ?? [])]),
          againOver_ps: overOf([...again, ...(otherWay?.again ?? [])]),
        };
      }),
    };
  });
  const exchange = new Int32Array(all.length).fill(-1);
  const place = new Int32Array(all.length);
  const number = (from: number, end: number, before = 0): number => {
    for (let hop = from; hop < end; hop++) place[hop] = before + hop - from;
    return before + end - from;
  };
  for (const { first, branchEnd, exchanges } of cycles) {
    number(first, branchEnd);
    for (const [at, { otherWay, ...way }] of exchanges.entries()) {
      for (const each of otherWay === undefined ? [way] : [way, otherWay])
        exchange.fill(at, each.first, each.end).fill(at, each.againFirst, each.againEnd);
      const [hops, again] = [number(way.first, way.end), number(way.againFirst, way.againEnd)];
      if (otherWay === undefined) continue;
      number(otherWay.first, otherWay.end, hops);
      number(otherWay.againFirst, otherWay.againEnd, again);
    }
  }
  let hazard = 0;
  const upperOf = ({ spoils }: Hop): number => Math.min(Math.floor(spoils * 2 ** 16), 2 ** 16 - 1);
  const upper = Int32Array.from(all, (hop) => upperOf(hop) - 2 ** 15);
  return {
    run: Int32Array.from(all, ({ run }) => run),
    from_ps: Float64Array.from(all, ({ from_ps }) => from_ps),
    lasts_ps: Float64Array.from(all, ({ lasts_ps }) => lasts_ps),
    open_ps: Float64Array.from(all, ({ open_ps }) => open_ps),
    after: Int32Array.from(after),
    exchange,
    place,
    upper,
    greatest: upper.reduce((most, each) => Math.max(most, each), -(2 ** 15)),
    lower: Float64Array.from(all, (hop) => hop.spoils * 2 ** 16 - upperOf(hop)),
    byChance: all.some(({ spoils }) => spoils > 0),
    hazard: Float64Array.from(all.slice(0, firsts.at(-1)?.end ?? 0), ({ spoils }) => (hazard -= Math.log1p(-spoils))),
    cycles,
  };
}

interface Place {
  readonly first: number;
  readonly end: number;
}

const withRepeat = (place: Place, repeat: Place): FlatWay => ({
  ...place,
  againFirst: repeat.first,
  againEnd: repeat.end,
});

/** When the last bit of the last of them is at the end of its run. */
export const overOf = (hops: readonly Hop[]): number =>
  hops.reduce((over, { from_ps, open_ps }) => Math.max(over, from_ps + open_ps), 0);
