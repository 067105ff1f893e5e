// Timing for the bench: medians of batches, a subject and its baseline in turn, so that both see the same machine.

/** Seconds of one call each, and the ratio of the two; the medians of many batches. */
export interface Compared {
  readonly subject_s: number;
  readonly baseline_s: number;
  readonly ratio: number;
}

export interface CompareOptions {
  /** How many batches of each are timed. */
  readonly batches: number;
  /** How long one batch shall take at least; calls that are shorter are repeated within it. */
  readonly batch_s: number;
}

/** Times both, batch by batch in turn, after as many batches that do not count. What they return keeps them alive. */
export function compare(
  subject: () => unknown,
  baseline: () => unknown,
  { batches, batch_s }: CompareOptions,
): Compared {
  const runs = [subject, baseline].map((call) => ({ call, times: 1, seconds: [] as number[] }));
  for (let batch = -batches; batch < batches; batch++) {
    for (const run of runs) {
      const taken_s = secondsOf(run.call, run.times);
      if (batch < 0) run.times = Math.max(1, Math.round((run.times * batch_s) / Math.max(taken_s, 1e-7)));
      else run.seconds.push(taken_s / run.times);
    }
  }
  const [subject_s = 0, baseline_s = 0] = runs.map(({ seconds }) => median(seconds));
  return { subject_s, baseline_s, ratio: subject_s / baseline_s };
}

let kept: unknown;

function secondsOf(call: () => unknown, times: number): number {
  const start = performance.now();
  for (let time = 0; time < times; time++) kept = call();
  return (performance.now() - start) / 1000;
}

/** What the last timed call gave; asking for it keeps the calls from being left out by the compiler. */
export const lastKept = (): unknown => kept;

/** The middle of the values; the mean of the two middle ones when their number is even. */
export function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const middle = sorted.length / 2;
  return (sorted[Math.ceil(middle) - 1]! + sorted[Math.floor(middle)]!) / 2;
}

/** Three digits, more than a measured time is worth (our judgement). */
export const three = (value: number): string => String(Number(value.toPrecision(3)));
