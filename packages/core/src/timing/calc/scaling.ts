// By which factor all executions may grow until the first task misses its deadline: exact, from the finite set of instants
// at which a job can just be done (testing points; Bini and Buttazzo 2004). Blocking, jitter, periods and deadlines stay.
import { hyperperiod } from './picoseconds.ts';
import { moreUrgent, mustBePossible, type Task, taskAt } from './response.ts';

export interface Scaling {
  /** Over 1 where there is room. */
  readonly factor: number;
  /** The task that misses first. */
  readonly index: number;
}

/** Our judgement: about a second of computing. */
const mostPoints = 20_000_000;

/**
 * Undefined without tasks, and where a deadline far beyond its period asks for more than some millions of testing points.
 * A task whose deadline is shorter than its blocking and jitter has the factor 0 or less. Throws a RangeError for tasks that
 * cannot be.
 */
export function largestScaling(tasks: readonly Task[]): Scaling | undefined {
  tasks.forEach(mustBePossible);
  let least: Scaling | undefined;
  const search = { points: 0 };
  for (const index of tasks.keys()) {
    const factor = scalingOf(tasks, index, search);
    if (factor === undefined) return undefined;
    if (least === undefined || factor < least.factor) least = { factor, index };
  }
  return least;
}

function scalingOf(tasks: readonly Task[], index: number, search: { points: number }): number | undefined {
  const own = taskAt(tasks, index);
  const others = moreUrgent(tasks, index);
  const { period_ps: T, jitter_ps: J, deadline_ps: D } = own;
  // At 1/U the processor is full; beyond it no busy period ends. Up to it a job is no later than the one a hyperperiod ahead.
  let factor = 1 / [own, ...others].reduce((sum, task) => sum + task.longest_ps / task.period_ps, 0);
  const jobs = D <= T ? 1 : (hyperperiod([own, ...others].map((task) => task.period_ps)) ?? Infinity) / T;
  for (let job = 0; job < jobs; job++) {
    factor = Math.min(factor, growth(own, others, job, job * T + D - J, search));
    // The busy period ends with this job, and with it all that could miss.
    const isLast = D <= T || growth(own, others, job, (job + 1) * T - J, search) >= factor;
    if (search.points >= mostPoints) return undefined;
    if (isLast) break;
  }
  return factor;
}

/** How far executions may grow with this job, and all before it, done at some instant up to `until_ps`. */
function growth(own: Task, others: readonly Task[], job: number, until_ps: number, search: { points: number }): number {
  let best = -Infinity;
  const tryAt = (at_ps: number): void => {
    let work = (job + 1) * own.longest_ps;
    for (const { period_ps, longest_ps, jitter_ps } of others)
      work += Math.ceil((at_ps + jitter_ps) / period_ps) * longest_ps;
    best = Math.max(best, (at_ps - own.blocking_ps) / work);
    search.points++;
  };
  tryAt(until_ps);
  for (const { period_ps, jitter_ps } of others) {
    const first = Math.floor(jitter_ps / period_ps) + 1;
    for (let at = first * period_ps - jitter_ps; at < until_ps && search.points < mostPoints; at += period_ps)
      tryAt(at);
  }
  return best;
}
