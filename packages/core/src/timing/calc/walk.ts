// Walks through a schedule of fixed priorities, interruption by interruption: who runs from when to when.

/** Jobs of one task. All times in whole picoseconds. */
export interface Jobs {
  /** The smaller, the more urgent. Of jobs of one priority the one that has waited longest runs first, to its end. */
  readonly priority: number;
  readonly longest_ps: number;
  /** How many are to be done. */
  readonly count: number;
  /** When each is released, counted from 0; never before the one ahead of it. */
  readonly releaseOf: (job: number) => number;
}

/** A stretch of one job without interruption; `left_ps` is what it still has to do at its end. */
export type Ran = (task: number, job: number, from_ps: number, to_ps: number, left_ps: number) => void;

/** Does all jobs, from `from_ps` on, each with its longest execution. Stretches come in the order of time. */
export function walkJobs(tasks: readonly Jobs[], from_ps: number, ran: Ran): void {
  const order = tasks.map((_, at) => at).sort((a, b) => tasks[a]!.priority - tasks[b]!.priority || a - b);
  const sorted = order.map((at) => tasks[at]!);
  const size = sorted.length;
  const priority = Float64Array.from(sorted, (task) => task.priority);
  const left = Float64Array.from(sorted, (task) => task.longest_ps);
  const job = new Float64Array(size);
  /** When the first job that is not done is released. */
  const release = Float64Array.from(sorted, (task) => (task.count > 0 ? task.releaseOf(0) : Infinity));

  for (let now = from_ps; ; ) {
    let next = -1;
    let earliest = Infinity;
    for (let at = 0; at < size; at++) {
      const released = release[at]!;
      if (next >= 0 && priority[at]! > priority[next]!) break;
      if (released > now) earliest = Math.min(earliest, released);
      else if (next < 0 || released < release[next]!) next = at;
    }
    if (next < 0) {
      if (earliest === Infinity) return;
      now = earliest;
      continue;
    }
    // Only what is more urgent interrupts.
    let until = now + left[next]!;
    for (let at = 0; at < next && priority[at]! < priority[next]!; at++) until = Math.min(until, release[at]!);
    left[next]! -= until - now;
    ran(order[next]!, job[next]!, now, until, left[next]!);
    now = until;
    if (left[next]! > 0) continue;
    left[next] = sorted[next]!.longest_ps;
    job[next]! += 1;
    release[next] = job[next]! < sorted[next]!.count ? sorted[next]!.releaseOf(job[next]!) : Infinity;
  }
}
