// The critical instant of a task as bars: all that is more urgent is released with it, and who runs until its longest
// response is over.
import { moreUrgent, responseOf, type Task, taskAt } from './response.ts';
import { walkJobs } from './walk.ts';

export interface Bar {
  /** Which task runs. */
  readonly task: number;
  /** Which of its jobs, counted from 0. */
  readonly job: number;
  readonly from_ps: number;
  readonly to_ps: number;
}

export interface CriticalInstant {
  /** In the order of time; they leave no gap. */
  readonly bars: readonly Bar[];
  /** How long a less urgent task keeps all waiting, from 0 on. */
  readonly blocked_ps: number;
  /** From where the longest response counts, which is before 0 where the release comes late; it ends with the last bar. */
  readonly release_ps: number;
  readonly finish_ps: number;
  /** The releases of each task up to the end; none for tasks that are less urgent. */
  readonly releases_ps: readonly (readonly number[])[];
}

/** Undefined where the task has no longest response. Throws a RangeError for tasks that cannot be. */
export function criticalInstant(tasks: readonly Task[], index: number): CriticalInstant | undefined {
  const response = responseOf(tasks, index);
  if (!response.bounded) return undefined;
  const own = taskAt(tasks, index);
  const others = new Set(moreUrgent(tasks, index));
  const { finish_ps, job: worst } = response;
  const jobs = tasks.map((task, at) => ({
    // What has the same priority goes first here.
    priority: at === index ? Infinity : task.priority,
    longest_ps: task.longest_ps,
    count: at === index ? worst + 1 : others.has(task) ? Math.ceil((finish_ps + task.jitter_ps) / task.period_ps) : 0,
    releaseOf: (job: number) => Math.max(0, job * task.period_ps - task.jitter_ps),
  }));
  const bars: Bar[] = [];
  walkJobs(jobs, own.blocking_ps, (task, job, from_ps, to_ps) => bars.push({ task, job, from_ps, to_ps }));
  return {
    bars,
    blocked_ps: own.blocking_ps,
    release_ps: worst * own.period_ps - own.jitter_ps,
    finish_ps,
    releases_ps: jobs.map(({ count, releaseOf }) => Array.from({ length: count }, (_, job) => releaseOf(job))),
  };
}
