// Times of tasks and chains as whole picoseconds, so that 'two periods later' is the same instant by whatever way it is
// reached: with seconds in floating point a release at 3·0.1 s would come after one at 0.3 s, and a response of exactly two
// periods would count a third release. A given time moves by half a picosecond at most; sums are exact up to 2^53 ps,
// two and a half hours, and so are quotients that are rounded up or down.

/** The nearest whole picosecond of a time in seconds. */
export const picoseconds = (time_s: number): number => Math.round(time_s * 1e12);

/** Back to seconds: the double nearest to the decimal number. */
export const seconds = (time_ps: number): number => time_ps / 1e12;

/** After how long everything repeats; undefined where that is more than 2^53 ps, or a period is no whole number over 0. */
export function hyperperiod(periods_ps: readonly number[]): number | undefined {
  let whole = 1;
  for (const period of periods_ps) {
    if (!(Number.isSafeInteger(period) && period > 0)) return undefined;
    whole *= period / greatestDivisor(whole, period);
    if (!Number.isSafeInteger(whole)) return undefined;
  }
  return whole;
}

function greatestDivisor(a: number, b: number): number {
  while (b > 0) [a, b] = [b, a % b];
  return a;
}
