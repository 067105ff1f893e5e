// A preemptive processor walked tick by tick, for tests: slow, short and by another way than the calculations.

/** All times in ticks. */
export interface TickTask {
  readonly priority: number;
  readonly period: number;
  readonly longest: number;
  readonly phase?: number;
  /** How late each job is released, and how long it takes; at once and longest unless told. */
  readonly lateBy?: (job: number) => number;
  readonly takes?: (job: number) => number;
  /** Its first ticks are not interrupted. */
  readonly holds?: number;
}

export interface TickJob {
  readonly task: number;
  readonly nominal: number;
  readonly released: number;
  begin: number;
  /** −1 until it is done. */
  end: number;
}

/** All jobs that are released before `until`, done as far as `until` allows. */
export function tickWalk(tasks: readonly TickTask[], until: number): readonly TickJob[] {
  const jobs = tasks.flatMap(({ period, phase = 0, lateBy = () => 0 }, task) =>
    Array.from({ length: Math.ceil((until - phase) / period) }, (_, job): TickJob => {
      const nominal = phase + job * period;
      return { task, nominal, released: nominal + lateBy(job), begin: -1, end: -1 };
    }),
  );
  const left = jobs.map(({ task, nominal }) => {
    const { phase = 0, period, longest, takes = () => longest } = tasks[task]!;
    return takes((nominal - phase) / period);
  });
  const done = jobs.map(() => 0);
  const before = (a: number, b: number): boolean => {
    const [one, other] = [jobs[a]!, jobs[b]!];
    const byPriority = tasks[one.task]!.priority - tasks[other.task]!.priority;
    return (byPriority || one.released - other.released || one.task - other.task || one.nominal - other.nominal) < 0;
  };
  let active: number[] = [];
  const waiting = jobs.map((_, at) => at).sort((a, b) => jobs[a]!.released - jobs[b]!.released);
  let running = -1;
  for (let now = 0; now < until; now++) {
    while (waiting.length > 0 && jobs[waiting[0]!]!.released <= now) active.push(waiting.shift()!);
    const isHeld = running >= 0 && done[running]! < (tasks[jobs[running]!.task]!.holds ?? 0);
    if (!isHeld) running = active.reduce((best, at) => (best < 0 || before(at, best) ? at : best), -1);
    if (running < 0) continue;
    const job = jobs[running]!;
    if (job.begin < 0) job.begin = now;
    done[running]! += 1;
    if (done[running]! < left[running]!) continue;
    job.end = now + 1;
    active = active.filter((at) => at !== running);
    running = -1;
  }
  return jobs;
}

/** The longest response of each task among the jobs that are done. */
export const longestOf = (tasks: readonly TickTask[], jobs: readonly TickJob[]): readonly number[] =>
  tasks.map((_, task) =>
    jobs.reduce((most, job) => (job.task === task && job.end >= 0 ? Math.max(most, job.end - job.nominal) : most), 0),
  );

/** Sets of two to five tasks on periods that repeat after 120 ticks, in an order that nothing but chance gives. */
export function randomTasks(random: () => number): readonly TickTask[] {
  const whole = (most: number): number => Math.floor(random() * most);
  const periods = [4, 5, 6, 8, 10, 12, 15, 20, 24, 30, 40];
  const order = Array.from({ length: 2 + whole(4) }, (_, at) => at);
  return order
    .map((at) => ({ at, by: random() }))
    .sort((a, b) => a.by - b.by)
    .map(({ at }) => {
      const period = periods[whole(periods.length)]!;
      return { priority: at, period, longest: 1 + whole(Math.max(1, (1.8 * period) / order.length)) };
    });
}

export const loadOf = (tasks: readonly TickTask[]): number =>
  tasks.reduce((sum, { longest, period }) => sum + longest * (120 / period), 0) / 120;
