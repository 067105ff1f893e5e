// From a cause to its effect through links: the least and the longest delay, exact where links share a clock.
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
}

/** All times in whole picoseconds. */
export type Link = Direct | Sampled;

/** Each link answers at once and quickest. */
export const bestCase_ps = (links: readonly Link[]): number => total(links.map((link) => link.least_ps));

/** Davare: each link has just looked, and answers slowest. Holds for tasks that read late, and for every phase. */
export const safeBound_ps = (links: readonly Link[]): number =>
  total(links.map((link) => link.most_ps + (link.kind === 'sampled' ? link.period_ps : 0)));

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

const isLocked = (link: Link): boolean => link.kind === 'sampled' && link.phase_ps !== undefined;
