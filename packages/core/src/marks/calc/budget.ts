// A budget of uncertainty as JCGM 100 adds one up: contributions with their distributions, sensitivities and correlations.
// Numbers are in the unit of the contribution, times its sensitivity in the unit of the result.
import { formula, method } from '../../working/formula.ts';
import { total } from '../../working/total.ts';
import { type Matrix, triangleOf } from './correlation.ts';
import { studentQuantile } from './student.ts';

export type Distribution =
  | { readonly shape: 'normal'; readonly deviation: number }
  | { readonly shape: 'rectangular' | 'triangular' | 'arcsine'; readonly halfWidth: number }
  /** Measured values, for the spread of one more of them or of their mean. */
  | { readonly shape: 'sample'; readonly values: readonly number[]; readonly of: 'one' | 'mean' };

export interface Contribution {
  readonly name: string;
  readonly spread: Distribution;
  /** How much the result changes with it. */
  readonly sensitivity: number;
  /** What is known to be off with it on average; a sample brings its mean instead, all others have none unless it is here. */
  readonly offset?: number;
  /** Degrees of freedom of its standard uncertainty; a sample has one less than values, all others ∞ unless it is here. */
  readonly degrees?: number;
}

export interface Budget {
  /** The sum of the offsets. */
  readonly offset: number;
  /** The combined standard uncertainty. */
  readonly standard: number;
  /** Effective degrees of freedom; undefined where contributions are correlated whose own are finite. */
  readonly degrees: number | undefined;
  /** The coverage factor and the expanded uncertainty; undefined with the degrees of freedom. */
  readonly factor: number | undefined;
  readonly expanded: number | undefined;
  /** The share of the variance that each contribution has, half of what it has in common with others; together 1. */
  readonly shares: readonly number[];
}

/**
 * The budget, its expanded uncertainty for a share of all results (0.95); undefined for a correlation that cannot be.
 * JCGM 100:2008, eqs. 10, 13 and G.2b; the effective degrees of freedom are not rounded down to whole ones.
 */
export function combined(
  contributions: readonly Contribution[],
  { coverage, correlation }: { readonly coverage: number; readonly correlation?: Matrix },
): Budget | undefined {
  if (correlation && (correlation.length !== contributions.length || !triangleOf(correlation))) return undefined;
  const parts = contributions.map((each) => each.sensitivity * standardOf(each.spread));
  const commonOf = (of: number): number =>
    correlation ? total(parts.map((part, at) => part * correlation[of]![at]!)) : parts[of]!;
  const variances = parts.map((part, at) => part * commonOf(at));
  const variance = Math.max(0, total(variances));
  const finite = contributions.map((each) => degreesOf(each) < Infinity);
  const tied = correlation?.some((row, at) => row.some((r, other) => r !== 0 && other !== at && finite[at]));
  const degrees = tied
    ? undefined
    : variance ** 2 / total(parts.map((part, at) => part ** 4 / degreesOf(contributions[at]!)));
  const factor = degrees === undefined ? undefined : studentQuantile((1 + coverage) / 2, degrees);
  const standard = Math.sqrt(variance);
  return {
    offset: total(contributions.map((each) => each.sensitivity * offsetOf(each))),
    standard,
    degrees,
    factor,
    expanded: factor === undefined ? undefined : factor * standard,
    shares: variances.map((each) => (variance > 0 ? each / variance : 0)),
  };
}

/** The sum of all contributions at their worst, the offsets left out; what has no limit counts with so many deviations. */
export const worstCase = (
  contributions: readonly Contribution[],
  { deviations }: { readonly deviations: number },
): number => total(contributions.map((each) => Math.abs(each.sensitivity) * limitOf(each.spread, deviations)));

/** The standard uncertainty of a distribution; not a number for a sample of one value. */
export function standardOf(spread: Distribution): number {
  if (spread.shape === 'normal') return spread.deviation;
  if (spread.shape !== 'sample') return spread.halfWidth / Math.sqrt(squares[spread.shape]);
  const deviation = deviationOf(spread.values);
  return spread.of === 'one' ? deviation : deviation / Math.sqrt(spread.values.length);
}

export const degreesOf = ({ spread, degrees = Infinity }: Contribution): number =>
  spread.shape === 'sample' ? spread.values.length - 1 : degrees;

export const offsetOf = ({ spread, offset = 0 }: Contribution): number =>
  spread.shape === 'sample' ? meanOf(spread.values) : offset;

/** The square of the half width over the variance. JCGM 100:2008, 4.3.7 and 4.3.9; arcsine: H.1.3.4. */
const squares = { rectangular: 3, triangular: 6, arcsine: 2 } as const;

function limitOf(spread: Distribution, deviations: number): number {
  if (spread.shape === 'normal') return deviations * spread.deviation;
  if (spread.shape !== 'sample') return spread.halfWidth;
  if (spread.of === 'mean') return deviations * standardOf(spread);
  return reachOfSample(spread.values);
}

function reachOfSample(values: readonly number[]): number {
  const mean = meanOf(values);
  return values.reduce((most, value) => Math.max(most, Math.abs(value - mean)), 0);
}

function meanOf(values: readonly number[]): number {
  return total(values) / values.length;
}

function deviationOf(values: readonly number[]): number {
  const mean = meanOf(values);
  // A product, since a power of the engine may round in another way, and trials are drawn by it.
  return Math.sqrt(total(values.map((each) => (each - mean) * (each - mean))) / (values.length - 1));
}

const halfWidth = {
  gives: 'm',
  symbols: { a: 'm' },
  means: { a: 'half of the width' },
  try: { a: [1e-6, 1e-2] },
  source: 'jcgm-100',
  proof: 'standard deviations of the shapes are those of their densities',
} as const;

export const rectangularSpread = formula({
  ...halfWidth,
  id: 'marks.spread.rectangular',
  title: 'standard deviation of what is anywhere within limits',
  text: 'a/sqrt(3)',
  at: '4.3.7',
  of: (a: number) => a / Math.sqrt(3),
});

export const triangularSpread = formula({
  ...halfWidth,
  id: 'marks.spread.triangular',
  title: 'standard deviation of what is near the middle of its limits',
  text: 'a/sqrt(6)',
  at: '4.3.9',
  of: (a: number) => a / Math.sqrt(6),
});

export const arcsineSpread = formula({
  ...halfWidth,
  id: 'marks.spread.arcsine',
  title: 'standard deviation of what swings as a sine',
  text: 'a/sqrt(2)',
  at: 'H.1.3.4',
  of: (a: number) => a / Math.sqrt(2),
});

const measured = {
  gives: 'm',
  symbols: { x: 'm[]' },
  means: { x: 'measured values' },
  source: 'jcgm-100',
  proof: 'a sample has the mean and the deviation of its parts',
} as const;

export const sampleMean = method({
  ...measured,
  id: 'marks.sample.mean',
  title: 'mean of measured values',
  prose: 'the sum of the values over their number',
  at: 'eq. 3',
  of: meanOf,
});

/** Not a number for one value. */
export const sampleDeviation = method({
  ...measured,
  id: 'marks.sample.deviation',
  title: 'standard deviation of measured values',
  prose: 'the root of the sum of the squares of all deviations from the mean over one less than their number',
  at: 'eq. 4',
  of: deviationOf,
});

/** Of the mean of so many values, where it is the mean that is used. */
export const meanDeviation = method({
  ...measured,
  id: 'marks.sample.mean_deviation',
  title: 'standard deviation of the mean of measured values',
  prose: 'the standard deviation of one value over the root of their number',
  at: 'eq. 5',
  of: (x: readonly number[]) => deviationOf(x) / Math.sqrt(x.length),
});

export const sampleReach = method({
  ...measured,
  id: 'marks.sample.reach',
  title: 'farthest measured value from the mean',
  prose: 'the largest of all deviations from the mean, without its sign',
  source: 'definition',
  of: reachOfSample,
});

export const sampleDegrees = method({
  ...measured,
  id: 'marks.sample.degrees',
  title: 'degrees of freedom of measured values',
  prose: 'one less than the number of the values',
  gives: '1',
  at: '4.2.6',
  of: (x: readonly number[]) => x.length - 1,
});

export const combinedSpread = formula({
  id: 'marks.budget.combined',
  title: 'combined standard uncertainty of independent contributions',
  text: 'sqrt(sum(u.^2))',
  gives: 'm',
  symbols: { u: 'm[]' },
  means: { u: 'standard uncertainty that each contribution gives the result' },
  try: { u: [1e-6, 1e-3] },
  source: 'jcgm-100',
  at: 'eq. 10',
  proof: 'JCGM 100:2008, H.1: an end gauge of 50 mm',
  of: (u: readonly number[]) => Math.sqrt(total(u.map((each) => each ** 2))),
});

export const correlatedSpread = method({
  id: 'marks.budget.correlated',
  title: 'combined standard uncertainty of correlated contributions',
  prose: 'the root of the sum of all products of two contributions and their correlation',
  gives: 'm',
  symbols: { u: 'm[]', r: '1[]' },
  means: { u: 'signed contribution of each to the result', r: 'correlations, row after row' },
  source: 'jcgm-100',
  at: 'eq. 16',
  proof: 'JCGM 100:2008, H.2: resistance and reactance measured together',
  of(u: readonly number[], r: readonly number[]) {
    if (r.length !== u.length ** 2) return Number.NaN;
    return Math.sqrt(
      Math.max(0, total(u.flatMap((one, row) => u.map((other, at) => one * other * r[row * u.length + at]!)))),
    );
  },
});

/** Contributions whose own degrees of freedom are infinite do not count. */
export const effectiveDegrees = formula({
  id: 'marks.budget.degrees',
  title: 'effective degrees of freedom of independent contributions',
  text: 'U^4/sum(u.^4 ./ n)',
  gives: '1',
  symbols: { U: 'm', u: 'm[]', n: '1[]' },
  means: {
    U: 'combined standard uncertainty',
    u: 'standard uncertainty that each contribution with finite degrees of freedom gives the result',
    n: 'its degrees of freedom',
  },
  try: { U: [1e-6, 1e-3], u: [1e-6, 1e-3], n: [1, 50, 1] },
  source: 'jcgm-100',
  at: 'eq. G.2b, after Welch and Satterthwaite',
  proof: 'JCGM 100:2008, H.1: an end gauge of 50 mm',
  of: (U: number, u: readonly number[], n: readonly number[]) =>
    U ** 4 / total(u.map((each, at) => each ** 4 / n[at]!)),
});

export const coverageFactor = method({
  id: 'marks.budget.factor',
  title: 'coverage factor',
  prose: "the quantile of Student's t distribution, of the normal one for infinitely many degrees of freedom",
  gives: '1',
  symbols: { p: '1', n: '1' },
  means: { p: 'share of all results that are to be covered', n: 'effective degrees of freedom' },
  source: 'jcgm-100',
  at: 'G.3',
  proof: 'NIST Technical Note 1297, table B.1: values of t for 1 to 100 degrees of freedom',
  of: (p: number, n: number) => studentQuantile((1 + p) / 2, n),
});

/** For infinitely many degrees of freedom. */
export const normalFactor = method({
  id: 'marks.budget.normal_factor',
  title: 'coverage factor of a normal distribution',
  prose: 'the quantile of the normal distribution that leaves as much above it as below its negative',
  gives: '1',
  symbols: { p: '1' },
  means: { p: 'share of all results that are to be covered' },
  source: 'jcgm-100',
  at: 'G.1.3',
  proof: 'quantiles of the normal distribution as printed in tables',
  of: (p: number) => studentQuantile((1 + p) / 2, Infinity),
});

export const expandedSpread = formula({
  id: 'marks.budget.expanded',
  title: 'expanded uncertainty',
  text: 'k*u',
  gives: 'm',
  symbols: { k: '1', u: 'm' },
  means: { k: 'coverage factor', u: 'combined standard uncertainty' },
  try: { k: [1, 4], u: [1e-6, 1e-3] },
  source: 'jcgm-100',
  at: 'eq. 18',
  proof: 'JCGM 100:2008, H.1: an end gauge of 50 mm',
  of: (k: number, u: number) => k * u,
});

export const varianceShare = formula({
  id: 'marks.budget.share',
  title: 'share of the variance that a contribution has',
  text: 'u^2/U^2',
  gives: '1',
  as: '%',
  symbols: { u: 'm', U: 'm' },
  means: { u: 'standard uncertainty that the contribution gives the result', U: 'combined standard uncertainty' },
  try: { u: [1e-6, 1e-3], U: [1e-6, 1e-3] },
  source: 'definition',
  proof: 'shares of the variance make one',
  of: (u: number, U: number) => u ** 2 / U ** 2,
});

/** Half of what a contribution has in common with others counts with it. */
export const correlatedShare = formula({
  id: 'marks.budget.correlated_share',
  title: 'share of the variance that a correlated contribution has',
  text: 'c*sum(r .* u)/U^2',
  gives: '1',
  as: '%',
  symbols: { c: 'm', r: '1[]', u: 'm[]', U: 'm' },
  means: {
    c: 'what the contribution gives the result',
    r: 'its correlation with each contribution, itself with 1',
    u: 'what each contribution gives the result',
    U: 'combined standard uncertainty',
  },
  try: { c: [1e-6, 1e-3], r: [-1, 1], u: [1e-6, 1e-3], U: [1e-6, 1e-3] },
  source: 'jcgm-100',
  at: 'eq. 16',
  proof: 'shares of the variance make one',
  of: (c: number, r: readonly number[], u: readonly number[], U: number) =>
    (c * total(r.map((each, at) => each * u[at]!))) / U ** 2,
});

export const worstSum = formula({
  id: 'marks.budget.worst',
  title: 'error with every contribution at its worst',
  text: 'sum(a)',
  gives: 'm',
  symbols: { a: 'm[]' },
  means: { a: 'limit of each contribution' },
  try: { a: [1e-6, 1e-3] },
  source: 'definition',
  proof: 'the worst case bounds every trial',
  of: (a: readonly number[]) => total(a),
});
