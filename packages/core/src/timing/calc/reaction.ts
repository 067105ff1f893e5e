// How long a cause takes to its effect, and how old data are, exactly, where it is known when each link reads and writes.
// Everything repeats after a hyperperiod, so looking at each job of one is enough. The longest reaction and the greatest age
// are the same (Günzel, Teper, Chen, von der Brüggen and Chen, ECRTS 2023): both span from a read to the first write that
// owes nothing to it any more.
import { method } from '../../working/formula.ts';
import { hyperperiod, picoseconds, seconds } from './picoseconds.ts';
import { walkJobs } from './walk.ts';

/** The jobs of one link in a hyperperiod, in whole picoseconds. */
export interface Stage {
  /** When each job takes its input: ascending, from 0 to below the hyperperiod. */
  readonly reads_ps: Float64Array;
  /** When each job's output is there for others: ascending, no job before its read; may lie beyond the hyperperiod. */
  readonly writes_ps: Float64Array;
}

export interface Reaction {
  /** From a cause just in time for a read to its effect, at best. */
  readonly least_ps: number;
  /** From a cause just too late for a read, at worst: the longest reaction, and the greatest age just before new data come. */
  readonly most_ps: number;
  /** The greatest age of data just as they come out. */
  readonly outputAge_ps: number;
}

/** Causes that come at any instant of a stretch with the same density have delays from `least_ps` to `most_ps`. */
export interface DelayStretch {
  readonly least_ps: number;
  readonly most_ps: number;
  /** Of all causes. */
  readonly share: number;
}

/** What stages do one after another. Throws a RangeError without a stage, and for a stage without jobs. */
export function reactionOf(stages: readonly Stage[], period_ps: number): Reaction {
  const [first, last] = endsOf(stages);
  const effects = effectsOf(stages, period_ps);
  const causes = causesOf(stages, period_ps);
  const reaction = { least_ps: Infinity, most_ps: 0, outputAge_ps: 0 };
  effects.forEach((effect, job) => {
    reaction.least_ps = Math.min(reaction.least_ps, effect - first.reads_ps[job]!);
    reaction.most_ps = Math.max(reaction.most_ps, effect - readBefore(first, job, period_ps));
  });
  causes.forEach((cause, job) => {
    reaction.outputAge_ps = Math.max(reaction.outputAge_ps, last.writes_ps[job]! - cause);
  });
  return reaction;
}

/** The greatest age of data just before new ones replace them, found backwards from each output. */
export function greatestAge_ps(stages: readonly Stage[], period_ps: number): number {
  const [, { writes_ps }] = endsOf(stages);
  return causesOf(stages, period_ps).reduce((most, cause, job) => {
    const replaced = job + 1 < writes_ps.length ? writes_ps[job + 1]! : writes_ps[0]! + period_ps;
    return Math.max(most, replaced - cause);
  }, 0);
}

/** The delays of causes that come at any instant of the hyperperiod. */
export function stretchesOf(stages: readonly Stage[], period_ps: number): readonly DelayStretch[] {
  const [first] = endsOf(stages);
  return Array.from(effectsOf(stages, period_ps), (effect, job) => {
    const [before, read] = [readBefore(first, job, period_ps), first.reads_ps[job]!];
    return { least_ps: effect - read, most_ps: effect - before, share: (read - before) / period_ps };
  });
}

/** A task that is released every period from 0 on; of one priority, the one that has waited longest runs. Whole picoseconds. */
export interface PeriodicTask {
  readonly priority: number;
  readonly period_ps: number;
  readonly longest_ps: number;
}

/** More jobs than these are not walked through: some seconds of computing, our judgement. */
export const mostJobs = 4_000_000;

export interface Schedule {
  readonly period_ps: number;
  /** For each task: it reads when it begins and writes when it ends. */
  readonly stages: readonly Stage[];
}

/**
 * The schedule of tasks that are all released at 0, each job with its longest execution. Undefined where they ask for more
 * than the whole time, and where a hyperperiod has more than `mostJobs`.
 */
export function scheduleOf(tasks: readonly PeriodicTask[]): Schedule | undefined {
  const period_ps = hyperperiod(tasks.map((task) => task.period_ps));
  if (period_ps === undefined) return undefined;
  const counts = tasks.map((task) => period_ps / task.period_ps);
  const work = tasks.reduce((sum, task, at) => sum + counts[at]! * task.longest_ps, 0);
  // Where a hyperperiod can do its own work, it leaves nothing over, and the next one is the same.
  if (work > period_ps || counts.reduce((sum, count) => sum + count, 0) > mostJobs) return undefined;
  const stages = counts.map((count) => ({ reads_ps: new Float64Array(count), writes_ps: new Float64Array(count) }));
  const jobs = tasks.map((task, at) => ({
    ...task,
    count: counts[at]!,
    releaseOf: (job: number) => job * task.period_ps,
  }));
  walkJobs(jobs, 0, (task, job, from_ps, to_ps, left_ps) => {
    const { reads_ps, writes_ps } = stages[task]!;
    if (to_ps - from_ps + left_ps === tasks[task]!.longest_ps) reads_ps[job] = from_ps;
    if (left_ps === 0) writes_ps[job] = to_ps;
  });
  return { period_ps, stages };
}

/** The schedule of tasks as plain lists, and the stages of a chain through some of them, in its order, counted from 1. */
export function walkedStages(
  C: readonly number[],
  T: readonly number[],
  p: readonly number[],
  n: readonly number[],
): Schedule | undefined {
  const tasks = C.map((longest, at) => ({
    priority: p[at] ?? Number.NaN,
    period_ps: picoseconds(T[at] ?? Number.NaN),
    longest_ps: picoseconds(longest),
  }));
  const schedule = scheduleOf(tasks);
  const stages = n.map((number) => schedule?.stages[number - 1]).filter((stage) => stage !== undefined);
  if (schedule === undefined || stages.length < n.length || n.length === 0) return undefined;
  return { period_ps: schedule.period_ps, stages };
}

export const walkedMeans = {
  C: 'longest execution of each task of the processor',
  T: 'its period',
  p: 'its priority; the smaller, the more urgent',
  n: 'the tasks of the chain in their order, counted from 1',
} as const;

const walked = {
  prose:
    'every job of a hyperperiod walked through, all tasks released together and each with its longest execution; each reads as it begins and writes as it ends',
  gives: 's',
  symbols: { C: 's[]', T: 's[]', p: '1[]', n: '1[]' },
  means: walkedMeans,
  source: 'guenzel',
  proof: 'forwards, backwards and tick by tick are one and the same',
} as const;

/** Not a number where the schedule cannot be walked through; see `scheduleOf`. */
export const longestReaction = method({
  ...walked,
  id: 'timing.chain.longest_reaction',
  title: 'longest way from a cause to its effect through tasks of one processor',
  at: 'longest reaction and greatest data age',
  of(C: readonly number[], T: readonly number[], p: readonly number[], n: readonly number[]) {
    const found = walkedStages(C, T, p, n);
    return found === undefined ? Number.NaN : seconds(reactionOf(found.stages, found.period_ps).most_ps);
  },
});

/** The same the other way: a cause just in time. */
export const shortestReaction = method({
  ...walked,
  id: 'timing.chain.shortest_reaction',
  title: 'shortest way from a cause to its effect through tasks of one processor',
  at: 'by the same walk',
  of(C: readonly number[], T: readonly number[], p: readonly number[], n: readonly number[]) {
    const found = walkedStages(C, T, p, n);
    return found === undefined ? Number.NaN : seconds(reactionOf(found.stages, found.period_ps).least_ps);
  },
});

/** When the effect is there of what each job of the first stage reads. */
function effectsOf(stages: readonly Stage[], period_ps: number): Float64Array {
  return stages.slice(0, -1).reduceRight((effects, stage, at) => {
    const { reads_ps } = stages[at + 1]!;
    const size = reads_ps.length;
    let [job, shift] = [0, 0];
    return stage.writes_ps.map((write) => {
      while (reads_ps[job]! + shift < write) if (++job === size) [job, shift] = [0, shift + period_ps];
      return effects[job]! + shift;
    });
  }, endsOf(stages)[1].writes_ps);
}

/** When the first stage read what each job of the last writes. */
function causesOf(stages: readonly Stage[], period_ps: number): Float64Array {
  return stages.slice(1).reduce((causes, { reads_ps }, at) => {
    const { writes_ps } = stages[at]!;
    const size = writes_ps.length;
    let [job, shift] = [size - 1, 0];
    // The last write up to the first read, then up to each read behind it.
    while (writes_ps[job]! + shift > reads_ps[0]!) if (--job < 0) [job, shift] = [size - 1, shift - period_ps];
    return reads_ps.map((read) => {
      for (;;) {
        const [next, nextShift] = job + 1 < size ? [job + 1, shift] : [0, shift + period_ps];
        if (writes_ps[next]! + nextShift > read) return causes[job]! + shift;
        [job, shift] = [next, nextShift];
      }
    });
  }, endsOf(stages)[0].reads_ps);
}

const readBefore = ({ reads_ps }: Stage, job: number, period_ps: number): number =>
  job > 0 ? reads_ps[job - 1]! : reads_ps[reads_ps.length - 1]! - period_ps;

function endsOf(stages: readonly Stage[]): readonly [Stage, Stage] {
  const [first, last] = [stages[0], stages.at(-1)];
  if (first === undefined || last === undefined) throw new RangeError('a chain without a stage');
  if (stages.some(({ reads_ps }) => reads_ps.length === 0)) throw new RangeError('a stage without jobs');
  return [first, last];
}
