// Electronic gearing that loses no count: ratios of whole numbers, and followers that carry what is left over.
import { formula } from '../../working/formula.ts';

/** Counts of the follower for each count of the master, in lowest terms, with a denominator over 0. */
export interface Gearing {
  readonly numerator: bigint;
  readonly denominator: bigint;
}

export type Whole = bigint | number;

/** Throws a RangeError for a denominator of 0, and for numbers that are not whole or too large to be exact. */
export function gearing(numerator: Whole, denominator: Whole): Gearing {
  const [over, under] = [exact(numerator), exact(denominator)];
  if (under === 0n) throw new RangeError('a gearing has no denominator of 0');
  const divisor = greatestCommonDivisor(over, under) * (under < 0n ? -1n : 1n);
  return { numerator: over / divisor, denominator: under / divisor };
}

/** Turns of the driven wheel for one of the driver, by their teeth; nothing where the numbers of teeth are not exact. */
export function ratioOf(driver: number, driven: number): Gearing | undefined {
  return isExact(driver) && isExact(driven) && driven !== 0 ? gearing(driver, driven) : undefined;
}

/** One behind the other; no stage at all is 1 to 1. */
export const inSeries = (stages: readonly Gearing[]): Gearing =>
  stages.reduce(
    (whole, stage) => gearing(whole.numerator * stage.numerator, whole.denominator * stage.denominator),
    gearing(1, 1),
  );

export interface Followed {
  readonly counts: bigint;
  /** What no whole count was left for, in parts of the denominator: from 0 to below it. The next step takes it. */
  readonly remainder: bigint;
}

/**
 * What the follower moves when the master moves, either way, and what is left for the next step. All steps together come
 * to the exact ratio rounded down, however the way was divided.
 */
export function followCounts(ratio: Gearing, masterCounts: Whole, remainder = 0n): Followed {
  const { numerator, denominator } = ratio;
  const due = exact(masterCounts) * numerator + remainder;
  const left = ((due % denominator) + denominator) % denominator;
  return { counts: (due - left) / denominator, remainder: left };
}

/** Doubles hold it to within 5e-16·n·N/D counts. */
export const driftAfter = formula({
  id: 'axes.gearing.drift',
  title: 'counts that a follower is off whose ratio is rounded',
  text: 'n*abs(round(N/D*10^d)/10^d - N/D)',
  gives: '1',
  symbols: { n: '1', N: '1', D: '1', d: '1' },
  means: { n: 'counts of the master', N: 'numerator', D: 'denominator', d: 'decimals of the rounded ratio' },
  try: { n: [1e3, 1e6, 1], N: [1, 2000, 1], D: [3, 997, 1], d: [1, 4, 1] },
  source: 'definition',
  proof: 'a rounded ratio drifts from the exact one',
  of: (n: number, N: number, D: number, d: number) => n * Math.abs(Math.round((N / D) * 10 ** d) / 10 ** d - N / D),
});

const isExact = (value: Whole): boolean => typeof value === 'bigint' || Number.isSafeInteger(value);

function exact(value: Whole): bigint {
  if (!isExact(value)) throw new RangeError(`${value} is no exact whole number`);
  return BigInt(value);
}

/** Over 0, unless both are 0. */
function greatestCommonDivisor(one: bigint, other: bigint): bigint {
  let [a, b] = [one < 0n ? -one : one, other < 0n ? -other : other];
  while (b !== 0n) [a, b] = [b, a % b];
  return a;
}
