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
  /** When it looks, on a clock that it shares with others; undefined for one of its own. */
  readonly phase_ps: number | undefined;
  /** The name of that clock; the one that all links with a phase share where nothing is said. */
  readonly clock?: string | undefined;
  /** By how much it may look late at most: a task that others keep waiting begins late. In time unless told. */
  readonly late_ps?: number;
  /**
   * From the look, or from the release of a task, to the output. For a task the longest response; for outputs that are held
   * back until the deadline (logical execution time) the deadline, at least and at most.
   */
  readonly least_ps: number;
  readonly most_ps: number;
}

/** All times in whole picoseconds. At its quickest a link answers `least_ps` behind its look, however late that is. */
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
 * as a limit, unless a free link stands between links that share a clock, or one may look late: the longest is a safe bound
 * then, and the least one that is not gone below. The same where links that share a clock have no common period of less than
 * `mostJobs` jobs.
 */
export function delayOf(links: readonly Link[]): Delay {
  const parts = partsOf(links).map((part): Delay => {
    if (!('run' in part)) return { least_ps: bestCase_ps([part]), most_ps: safeBound_ps([part]) };
    const slowest = lockedStages(part.run, 'most_ps');
    if (slowest === undefined) return { least_ps: bestCase_ps(part.run), most_ps: safeBound_ps(part.run) };
    return {
      least_ps: leastThrough(part.run, slowest.period_ps),
      most_ps: reactionOf(slowest.stages, slowest.period_ps).most_ps,
    };
  });
  return { least_ps: total(parts.map((part) => part.least_ps)), most_ps: total(parts.map((part) => part.most_ps)) };
}

/** A run of links from one that shares a clock to the last that does, without a look by another between; or a link alone. */
export type ChainPart = Link | { readonly run: readonly Link[] };

export function partsOf(links: readonly Link[]): readonly ChainPart[] {
  const parts: ChainPart[] = [];
  for (let at = 0; at < links.length; ) {
    const link = links[at]!;
    let end = at + 1;
    if (isLocked(link)) {
      const isWith = (each: Link): boolean => isLocked(each) && clockOf(each) === clockOf(link);
      const other = links.findIndex((each, index) => index > at && each.kind === 'sampled' && !isWith(each));
      const reach = links.slice(0, other < 0 ? links.length : other);
      end = reach.findLastIndex(isWith) + 1;
      parts.push({ run: links.slice(at, end) });
    } else parts.push(link);
    at = end;
  }
  return parts;
}

/**
 * The stages of a run that begins and ends with links of the clock; undefined where it repeats too late. At their quickest,
 * links look as late as they may: so each takes in what it can.
 */
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
    const late_ps = which === 'least_ps' ? (link.late_ps ?? 0) : 0;
    const first = ((((link.phase_ps ?? 0) + late_ps) % link.period_ps) + link.period_ps) % link.period_ps;
    const reads_ps = Float64Array.from({ length: count }, (_, job) => first + job * link.period_ps);
    stages.push({ reads_ps, writes_ps: reads_ps.map((read) => read - late_ps + link[which]) });
  }
  return { stages, period_ps };
}

/**
 * The least delay of a run over all causes of its common period, where each link looks just when that is best. A delay only
 * falls while its cause comes nearer to the last instant at which some look still takes it in, so those instants are enough.
 */
function leastThrough(run: readonly Link[], period_ps: number): number {
  let least = Infinity;
  for (const [place, link] of run.entries()) {
    if (link.kind === 'direct') continue;
    const before = run.slice(0, place);
    const first = (link.phase_ps ?? 0) + (link.late_ps ?? 0);
    for (let look = first; look < first + period_ps; look += link.period_ps) {
      const cause = latestCause(before, look);
      least = Math.min(least, soonestEffect(run, cause) - cause);
    }
  }
  return least;
}

const soonestEffect = (links: readonly Link[], cause: number): number =>
  links.reduce((now, link) => {
    if (link.kind === 'direct') return now + link.least_ps;
    const { period_ps, phase_ps = 0, late_ps = 0, least_ps } = link;
    const release = phase_ps + Math.ceil((now - late_ps - phase_ps) / period_ps) * period_ps;
    return Math.max(now, release) + least_ps;
  }, cause);

/** The last cause whose effect may be there at an instant. */
const latestCause = (links: readonly Link[], effect: number): number =>
  links.reduceRight((until, link) => {
    const at = until - link.least_ps;
    if (link.kind === 'direct') return at;
    const { period_ps, phase_ps = 0, late_ps = 0 } = link;
    return Math.min(at, phase_ps + Math.floor((at - phase_ps) / period_ps) * period_ps + late_ps);
  }, effect);

export const clockOf = (link: Link): string | undefined => (link.kind === 'sampled' ? link.clock : undefined);

const isLocked = (link: Link): boolean => link.kind === 'sampled' && link.phase_ps !== undefined;
