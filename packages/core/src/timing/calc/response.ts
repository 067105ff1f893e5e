// How long tasks of fixed priorities take at worst where the more urgent interrupts the less urgent (tasks of IEC 61131-3).
// The longest response is that of some job in the busy period that begins with all tasks released together, the less urgent
// ones having just begun to block (Joseph and Pandya 1986; with deadlines beyond the period Lehoczky 1990; with jitter
// Tindell, Burns and Wellings 1994). Tasks of one priority count as more urgent than each other: exact for none of them, and
// safe, since in the order of waiting no job waits for more.
/** All times in whole picoseconds; see `picoseconds.ts`. */
export interface Task {
  /** The smaller, the more urgent, as in IEC 61131-3, where 0 is the most urgent. */
  readonly priority: number;
  /** Of a task that events release: the least distance between two of them. Over 0. */
  readonly period_ps: number;
  /** The longest execution, undisturbed. Over 0. */
  readonly longest_ps: number;
  /** By how much a release may come late; a response is counted from the release without it. */
  readonly jitter_ps: number;
  /** How long a less urgent task can keep this one waiting, at worst. */
  readonly blocking_ps: number;
  /** From the release without jitter; may lie beyond the period. */
  readonly deadline_ps: number;
}

/** The longest response of a task, or why there is none. */
export type TaskResponse =
  | {
      readonly bounded: true;
      readonly response_ps: number;
      /** Which job of the busy period has it, counted from 0. */
      readonly job: number;
      /** When that job ends, counted from the begin of the busy period. */
      readonly finish_ps: number;
      /** How many jobs of the task the busy period has. */
      readonly jobs: number;
    }
  | {
      readonly bounded: false;
      /**
       * `overload`: the task and all more urgent ones ask for more than the whole time, or for all of it beside jitter and
       * blocking, so that the busy period never ends. `length`: the search was given up after `mostSteps`.
       */
      readonly because: 'overload' | 'length';
      /** When the first job ends, where it does. */
      readonly first_ps: number | undefined;
    };

/** Our judgement: some tenths of a second of computing. A million steps are a busy period of about as many releases. */
export const mostSteps = 1_000_000;

/** The longest response of the task at `index`. Throws a RangeError for tasks that cannot be. */
export function responseOf(tasks: readonly Task[], index: number): TaskResponse {
  tasks.forEach(mustBePossible);
  const own = taskAt(tasks, index);
  const others = moreUrgent(tasks, index);
  const search = { steps: 0 };
  if (isEndless([own, ...others])) {
    const first_ps = isEndless(others) ? undefined : fixedPoint(own, others, 0, 0, search);
    return { bounded: false, because: 'overload', first_ps };
  }
  let best = { response_ps: -1, job: 0, finish_ps: 0 };
  let first_ps: number | undefined;
  let from = 0;
  for (let job = 0; ; job++) {
    const finish_ps = fixedPoint(own, others, job, from, search);
    first_ps ??= finish_ps;
    if (finish_ps === undefined) return { bounded: false, because: 'length', first_ps };
    const response_ps = finish_ps - job * own.period_ps + own.jitter_ps;
    if (response_ps > best.response_ps) best = { response_ps, job, finish_ps };
    if (response_ps <= own.period_ps) return { bounded: true, ...best, jobs: job + 1 };
    from = finish_ps;
  }
}

/**
 * By how much a job begins late at most, counted from its release without jitter: the same busy period, up to the first
 * instant at which nothing more urgent is left. Undefined where there is no longest response.
 */
export function latestBegin_ps(tasks: readonly Task[], index: number): number | undefined {
  const response = responseOf(tasks, index);
  if (!response.bounded) return undefined;
  const own = taskAt(tasks, index);
  const others = moreUrgent(tasks, index);
  let latest = 0;
  for (let job = 0, begin = 0; job < response.jobs; job++) {
    const before = own.blocking_ps + job * own.longest_ps;
    for (let sum = Math.max(before, begin); ; sum = begin) {
      begin = before + releasedUpTo(others, sum);
      if (begin <= sum) {
        begin = sum;
        break;
      }
    }
    latest = Math.max(latest, begin - job * own.period_ps + own.jitter_ps);
  }
  return latest;
}

/**
 * How the end of a job is found: the sums that the iteration goes through, from the task alone to the end itself. The
 * busy period counts from 0. Stops behind the first sum that is over `until_ps`; has no end where there is none, then
 * `mostSteps` sums at most.
 */
export function iterates(tasks: readonly Task[], index: number, job = 0, until_ps = Infinity): readonly number[] {
  tasks.forEach(mustBePossible);
  const own = taskAt(tasks, index);
  const others = moreUrgent(tasks, index);
  const work = own.blocking_ps + (job + 1) * own.longest_ps;
  const sums = [work];
  for (let sum = work; sum <= until_ps && sums.length < mostSteps; sums.push(sum)) {
    const next = work + interference(others, sum);
    if (next === sum) break;
    sum = next;
  }
  return sums;
}

/** Who may keep a task waiting: all of the same and of a smaller number. */
export const moreUrgent = (tasks: readonly Task[], index: number): readonly Task[] =>
  tasks.filter((task, at) => at !== index && task.priority <= taskAt(tasks, index).priority);

export function mustBePossible(task: Task): void {
  const whole = (value: number): boolean => Number.isSafeInteger(value) && value >= 0;
  const { period_ps, longest_ps, jitter_ps, blocking_ps, deadline_ps } = task;
  if (!(whole(period_ps) && period_ps > 0)) throw new RangeError(`a period of ${period_ps} ps`);
  if (!(whole(longest_ps) && longest_ps > 0)) throw new RangeError(`an execution of ${longest_ps} ps`);
  if (!whole(jitter_ps)) throw new RangeError(`a jitter of ${jitter_ps} ps`);
  if (!whole(blocking_ps)) throw new RangeError(`a blocking of ${blocking_ps} ps`);
  if (!whole(deadline_ps)) throw new RangeError(`a deadline of ${deadline_ps} ps`);
  if (!Number.isFinite(task.priority)) throw new RangeError(`a priority of ${task.priority}`);
}

export function taskAt(tasks: readonly Task[], index: number): Task {
  const task = tasks[index];
  if (task === undefined) throw new RangeError(`there is no task ${index}`);
  return task;
}

/** The smallest time at which the jobs up to this one are done, sought upwards from `from`; undefined if given up. */
function fixedPoint(
  own: Task,
  others: readonly Task[],
  job: number,
  from: number,
  search: { steps: number },
): number | undefined {
  const work = own.blocking_ps + (job + 1) * own.longest_ps;
  for (let sum = Math.max(work, from); search.steps++ < mostSteps; ) {
    const next = work + interference(others, sum);
    if (next <= sum) return sum;
    if (next > Number.MAX_SAFE_INTEGER) return undefined;
    sum = next;
  }
  return undefined;
}

function interference(others: readonly Task[], until_ps: number): number {
  let sum = 0;
  for (const { period_ps, longest_ps, jitter_ps } of others)
    sum += Math.ceil((until_ps + jitter_ps) / period_ps) * longest_ps;
  return sum;
}

/** The same with what is released just then. */
function releasedUpTo(others: readonly Task[], until_ps: number): number {
  let sum = 0;
  for (const { period_ps, longest_ps, jitter_ps } of others)
    sum += (Math.floor((until_ps + jitter_ps) / period_ps) + 1) * longest_ps;
  return sum;
}

/** Whether the busy period of these tasks, the first of which may be blocked, never ends. Exact, by whole numbers. */
function isEndless(tasks: readonly Task[]): boolean {
  let load = 0;
  for (const { longest_ps, period_ps } of tasks) load += longest_ps / period_ps;
  // The sum in floating point is right to 1e-13 for up to a thousand tasks.
  if (Math.abs(load - 1) > 1e-12) return load > 1;
  const product = tasks.reduce((all, { period_ps }) => all * BigInt(period_ps), 1n);
  const asked = tasks.reduce(
    (sum, { longest_ps, period_ps }) => sum + (BigInt(longest_ps) * product) / BigInt(period_ps),
    0n,
  );
  const isDelayed = (tasks[0]?.blocking_ps ?? 0) > 0 || tasks.some(({ jitter_ps }) => jitter_ps > 0);
  return asked > product || (asked === product && isDelayed);
}
