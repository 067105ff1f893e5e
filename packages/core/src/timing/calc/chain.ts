// From a cause to its effect through links: best case, bounds on the worst, and the exact worst where links share a clock.
import { formula } from '../../working/formula.ts';
import { total } from '../../working/total.ts';
import { hyperperiod } from './picoseconds.ts';
import { mostJobs, reactionOf, type Stage } from './reaction.ts';

/** Passes on what comes at once: a filter, a wire, a valve, or a task that the data themselves release. */
export interface Direct {
  readonly kind: 'direct';
  readonly least_ps: number;
  readonly most_ps: number;
}

/** Looks at its input once in a period: a task, a bus, an input that is polled. */
export interface Sampled {
  readonly kind: 'sampled';
  readonly period_ps: number;
  /** When it looks, on the clock that all links with a phase share; undefined for a clock of its own. */
  readonly phase_ps: number | undefined;
  /**
   * From the look, or from the release of a task, to the output. For a task the longest response; for outputs that are held
   * back until the deadline (logical execution time) the deadline, at least and at most.
   */
  readonly least_ps: number;
  readonly most_ps: number;
  /** Where it runs, for tasks; the bound of Dürr makes use of it. */
  readonly runs: { readonly on: string; readonly priority: number; readonly jitter_ps: number } | undefined;
}

/** All times in whole picoseconds. */
export type Link = Direct | Sampled;

/** Each link answers at once and quickest. */
export const bestCase_ps = (links: readonly Link[]): number => total(links.map((link) => link.least_ps));

/** Davare: each link has just looked, and answers slowest. Holds for tasks that read late, and for every phase. */
export const safeBound_ps = (links: readonly Link[]): number =>
  total(links.map((link) => link.most_ps + (link.kind === 'sampled' ? link.period_ps : 0)));

/** Dürr: at a hand-over to a less urgent task of the same processor, only one of the two waits counts. */
export function reactionBound_ps(links: readonly Link[]): number {
  const [first, last] = samplersOf(links);
  if (first === undefined || last === undefined) return safeBound_ps(links);
  return first.period_ps + total(handOvers(links).map(reactionOver_ps)) + last.most_ps + passing_ps(links);
}

/** Dürr: the age of data as they come out; they grow older until the next output, up to the longest reaction. */
export function outputAgeBound_ps(links: readonly Link[]): number {
  const [, last] = samplersOf(links);
  return total(handOvers(links).map(ageOver_ps)) + (last?.most_ps ?? 0) + passing_ps(links);
}

export interface Delay {
  readonly least_ps: number;
  readonly most_ps: number;
}

/**
 * The least and the longest delay over all phases that are free and all instants of the cause. Both are reached, the longest
 * as a limit, unless a free link stands between links that share a clock: the longest is a safe bound then, and the least
 * one that is not gone below. The same where links that share a clock have no common period of less than `mostJobs` jobs.
 */
export function delayOf(links: readonly Link[]): Delay {
  const parts = partsOf(links).map((part): Delay => {
    if (!('run' in part)) return { least_ps: bestCase_ps([part]), most_ps: safeBound_ps([part]) };
    const [quickest, slowest] = [lockedStages(part.run, 'least_ps'), lockedStages(part.run, 'most_ps')];
    if (quickest === undefined || slowest === undefined)
      return { least_ps: bestCase_ps(part.run), most_ps: safeBound_ps(part.run) };
    return {
      least_ps: reactionOf(quickest.stages, quickest.period_ps).least_ps,
      most_ps: reactionOf(slowest.stages, slowest.period_ps).most_ps,
    };
  });
  return { least_ps: total(parts.map((part) => part.least_ps)), most_ps: total(parts.map((part) => part.most_ps)) };
}

/** A run of links from one that shares the clock to the last that does without a free one between; or a link alone. */
export type ChainPart = Link | { readonly run: readonly Link[] };

export function partsOf(links: readonly Link[]): readonly ChainPart[] {
  const parts: ChainPart[] = [];
  for (let at = 0; at < links.length; ) {
    const link = links[at]!;
    let end = at + 1;
    if (isLocked(link)) {
      const free = links.findIndex((each, index) => index > at && each.kind === 'sampled' && !isLocked(each));
      const reach = links.slice(0, free < 0 ? links.length : free);
      end = reach.findLastIndex(isLocked) + 1;
      parts.push({ run: links.slice(at, end) });
    } else parts.push(link);
    at = end;
  }
  return parts;
}

/** The stages of a run that begins and ends with links of the clock; undefined where it repeats too late. */
export function lockedStages(
  run: readonly Link[],
  which: 'least_ps' | 'most_ps',
): { readonly stages: readonly Stage[]; readonly period_ps: number } | undefined {
  const period_ps = hyperperiod(run.flatMap((link) => (link.kind === 'sampled' ? [link.period_ps] : [])));
  if (period_ps === undefined) return undefined;
  const stages: Stage[] = [];
  let jobs = 0;
  for (const link of run) {
    if (link.kind === 'direct') {
      const { reads_ps, writes_ps } = stages.pop()!;
      stages.push({ reads_ps, writes_ps: writes_ps.map((write) => write + link[which]) });
      continue;
    }
    const count = period_ps / link.period_ps;
    jobs += count;
    if (jobs > mostJobs) return undefined;
    const first = (((link.phase_ps ?? 0) % link.period_ps) + link.period_ps) % link.period_ps;
    const reads_ps = Float64Array.from({ length: count }, (_, job) => first + job * link.period_ps);
    stages.push({ reads_ps, writes_ps: reads_ps.map((read) => read + link[which]) });
  }
  return { stages, period_ps };
}

export const bestCase = formula({
  id: 'timing.chain.best',
  title: 'shortest way from a cause to its effect',
  text: 'sum(d)',
  gives: 's',
  symbols: { d: 's[]' },
  means: { d: 'each link at its quickest, looking just as the data come' },
  try: { d: [0, 1e-2] },
  source: 'definition',
  proof: 'a scanned controller, by the formula of a controller manual',
  of: (d: readonly number[]) => total(d),
});

export const safeBound = formula({
  id: 'timing.chain.bound',
  title: 'safe bound on the way from a cause to its effect',
  text: 'sum(T) + sum(R) + sum(d)',
  gives: 's',
  symbols: { T: 's[]', R: 's[]', d: 's[]' },
  means: {
    T: 'period of each link that looks once in a period',
    R: 'its longest response',
    d: 'each link that passes on at once, at its slowest',
  },
  try: { T: [1e-4, 1e-2], R: [1e-4, 1e-2], d: [0, 1e-2] },
  source: 'davare',
  proof: 'CE1',
  of: (T: readonly number[], R: readonly number[], d: readonly number[]) => total(T) + total(R) + total(d),
});

/** What is more urgent, or elsewhere, may have looked just before the data come, and may look only once they are there. */
export const handOver = formula({
  id: 'timing.chain.hand_over',
  title: 'hand-over to a link that is more urgent or elsewhere',
  text: 'R + T',
  gives: 's',
  symbols: { R: 's', T: 's' },
  means: { R: 'longest response of the link that hands over', T: 'period of the one that takes' },
  try: { R: [1e-4, 1e-2], T: [1e-4, 1e-2] },
  source: 'duerr',
  at: 'theorem 5.4',
  proof: 'CE2',
  of: (R: number, T: number) => R + T,
});

/** A less urgent task of the same processor cannot begin between the release and the end of the one that hands over. */
export const handOverBelow = formula({
  id: 'timing.chain.hand_over_below',
  title: 'hand-over to a task that is less urgent on the same processor',
  text: 'max(R, T + J)',
  gives: 's',
  symbols: { R: 's', T: 's', J: 's' },
  means: {
    R: 'longest response of the task that hands over',
    T: 'period of the one that takes',
    J: 'jitter of the release of the one that hands over',
  },
  try: { R: [1e-4, 1e-2], T: [1e-4, 1e-2], J: [0, 5e-3] },
  source: 'duerr',
  at: 'theorem 5.4; jitter added by us',
  proof: 'CE1',
  of: (R: number, T: number, J: number) => Math.max(R, T + J),
});

export const reactionBound = formula({
  id: 'timing.chain.reaction_bound',
  title: 'bound on the longest reaction',
  text: 'T + sum(h) + R + sum(d)',
  gives: 's',
  symbols: { T: 's', h: 's[]', R: 's', d: 's[]' },
  means: {
    T: 'period of the first link that looks once in a period',
    h: 'each hand-over from one such link to the next',
    R: 'longest response of the last',
    d: 'each link that passes on at once, at its slowest',
  },
  try: { T: [1e-4, 1e-2], h: [1e-4, 1e-2], R: [1e-4, 1e-2], d: [0, 1e-2] },
  source: 'duerr',
  at: 'theorem 5.4',
  proof: 'CE1',
  of: (T: number, h: readonly number[], R: number, d: readonly number[]) => T + total(h) + R + total(d),
});

const isLocked = (link: Link): boolean => link.kind === 'sampled' && link.phase_ps !== undefined;

const passing_ps = (links: readonly Link[]): number =>
  total(links.flatMap((link) => (link.kind === 'direct' ? [link.most_ps] : [])));

function samplersOf(links: readonly Link[]): readonly [Sampled | undefined, Sampled | undefined] {
  const samplers = links.filter((link): link is Sampled => link.kind === 'sampled');
  return [samplers[0], samplers.at(-1)];
}

interface HandOver {
  readonly from: Sampled;
  readonly to: Sampled;
  /** To a less urgent task of the same processor, with nothing between. */
  readonly isBelow: boolean;
}

function handOvers(links: readonly Link[]): readonly HandOver[] {
  const places = links.flatMap((link, at) => (link.kind === 'sampled' ? [{ link, at }] : []));
  return places.slice(1).map(({ link: to, at }, index) => {
    const from = places[index]!;
    const [one, other] = [from.link.runs, to.runs];
    const isOnOne = one !== undefined && one.on === other?.on && one.priority < other.priority;
    return { from: from.link, to, isBelow: isOnOne && from.at + 1 === at };
  });
}

const reactionOver_ps = ({ from, to, isBelow }: HandOver): number =>
  isBelow ? Math.max(from.most_ps, to.period_ps + (from.runs?.jitter_ps ?? 0)) : from.most_ps + to.period_ps;

const ageOver_ps = ({ from, isBelow }: HandOver): number =>
  from.period_ps + (isBelow ? (from.runs?.jitter_ps ?? 0) : from.most_ps);
