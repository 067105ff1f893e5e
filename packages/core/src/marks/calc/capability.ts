// Capability of a process within tolerances, what leaves them, and how many pieces prove it.
import { formula, method } from '../../working/formula.ts';
import { normalQuantile, normalTail } from './normal.ts';

const limits = { U: 'upper limit', L: 'lower limit', σ: 'standard deviation' } as const;
const limitTries = { U: [0.5, 1], L: [-1, -0.5], σ: [0.05, 0.4] } as const;

export const lowerLimit = formula({
  id: 'marks.tolerance.lower',
  title: 'lower limit of a tolerance to both sides',
  text: '-T',
  gives: 'm',
  symbols: { T: 'm' },
  means: { T: 'tolerance to either side' },
  try: { T: [1e-5, 1e-2] },
  source: 'definition',
  proof: 'what is needed of a tolerance is all of it at a Cpk of 1',
  of: (T: number) => -T,
});

/** A Cpk of 1 needs just this. */
export const neededTolerance = formula({
  id: 'marks.tolerance.needed',
  title: 'tolerance that a mark needs to either side',
  text: 'abs(b) + 3*u',
  gives: 'm',
  symbols: { b: 'm', u: 'm' },
  means: { b: 'what it is off by on average', u: 'standard deviation' },
  try: { b: [-1e-3, 1e-3], u: [1e-6, 1e-3] },
  source: 'miller-freund',
  at: 'chapter 15',
  proof: 'what is needed of a tolerance is all of it at a Cpk of 1',
  of: (b: number, u: number) => Math.abs(b) + 3 * u,
});

/** Where slopes tell nothing, three standard deviations tell nothing either; limits are for three of each contribution. */
export const neededOfCurved = formula({
  id: 'marks.tolerance.needed_of_curved',
  title: 'tolerance that a mark needs to either side, at its worst where its first order is meaningless',
  cases: [{ when: 's > q', text: 'abs(b) + a' }, { text: 'abs(b) + 3*u' }],
  gives: 'm',
  symbols: { b: 'm', a: 'm', u: 'm', s: '1', q: '1' },
  means: {
    b: 'what it is off by on average',
    a: 'error with every contribution at its worst',
    u: 'standard deviation',
    s: 'share of the variance that only the terms of second order tell',
    q: 'share from which on the first order is meaningless',
  },
  try: { b: [-1e-3, 1e-3], a: [1e-6, 1e-3], u: [1e-6, 1e-3], s: [0, 0.5, 0.125], q: [0.125, 0.375, 0.125] },
  source: 'judgement',
  proof: 'where the first order is meaningless, no more trials are outside what is needed than of three deviations',
  of: (b: number, a: number, u: number, share: number, from: number) => Math.abs(b) + (share > from ? a : 3 * u),
});

export const capability = formula({
  id: 'marks.capability.cp',
  title: 'capability Cp, with the mean in the middle',
  text: '(U - L)/(6*σ)',
  gives: '1',
  symbols: { U: 'same', L: 'same', σ: 'same' },
  means: limits,
  try: limitTries,
  source: 'miller-freund',
  at: 'chapter 15',
  proof: 'Miller and Freund, Probability and Statistics for Engineers, chapter 15: limits 10.98 and 11.01',
  of: (U: number, L: number, sigma: number) => (U - L) / (6 * sigma),
});

export const centredCapability = formula({
  id: 'marks.capability.cpk',
  title: 'capability Cpk, with the mean where it is',
  text: 'min(U - m, m - L)/(3*σ)',
  gives: '1',
  symbols: { U: 'same', L: 'same', m: 'same', σ: 'same' },
  means: { ...limits, m: 'mean' },
  try: { ...limitTries, m: [-0.4, 0.4] },
  source: 'miller-freund',
  at: 'chapter 15',
  proof: 'Miller and Freund, Probability and Statistics for Engineers, chapter 15: limits 10.98 and 11.01',
  of: (U: number, L: number, m: number, sigma: number) => Math.min(U - m, m - L) / (3 * sigma),
});

/** For what is normally distributed; not a number without a spread. */
export const outsideLimits = method({
  id: 'marks.capability.outside',
  title: 'share outside the limits',
  prose: 'the tails of the normal distribution above the upper and below the lower limit',
  gives: '1',
  as: 'ppm',
  symbols: { U: 'm', L: 'm', m: 'm', σ: 'm' },
  means: { ...limits, m: 'mean' },
  source: 'definition',
  proof: 'parts per million outside both limits for Cp of 1 to 2',
  of: (U: number, L: number, m: number, sigma: number) => normalTail((U - m) / sigma) + normalTail((m - L) / sigma),
});

export const confidenceQuantile = method({
  id: 'marks.capability.quantile',
  title: 'standard deviations that a share stays below',
  prose: 'the quantile of the normal distribution',
  gives: '1',
  symbols: { p: '1' },
  means: { p: 'share' },
  source: 'definition',
  proof: 'quantiles of the normal distribution as printed in tables',
  of: (p: number) => normalQuantile(p),
});

/** Good to about 1 % of the bound from 30 pieces on (our judgement). */
export const provenCapability = formula({
  id: 'marks.capability.proven',
  title: 'Cpk that so many pieces prove',
  text: 'C - z*sqrt(1/(9*n) + C^2/(2*(n - 1)))',
  gives: '1',
  symbols: { C: '1', z: '1', n: '1' },
  means: { C: 'Cpk of the pieces', z: 'standard deviations that the confidence stays below', n: 'pieces' },
  try: { C: [0.5, 3], z: [1, 3], n: [5, 200, 1] },
  source: 'bissell',
  proof: 'a Cpk of 1.67 from 50 pieces proves about 1.38',
  of: lowerBound,
});

/** Good to about 1 % of the bound from 30 pieces on (our judgement); below one half where the Cpk shown is not above it. */
export const provenConfidence = method({
  id: 'marks.capability.confidence',
  title: 'confidence with which so many pieces prove a Cpk',
  prose:
    'the share of a normal distribution below the standard deviations, by the approximation of Bissell, between both',
  gives: '1',
  as: '%',
  symbols: { C: '1', D: '1', n: '1' },
  means: { C: 'Cpk that the pieces are expected to show', D: 'Cpk to be proven', n: 'pieces' },
  source: 'bissell',
  proof: 'pieces that prove a Cpk with a confidence have that confidence',
  of: (C: number, D: number, n: number) => normalTail((D - C) / deviationOfShown(C, n)),
});

/** Not a number where the expected Cpk is not above the one to be proven. */
export const piecesToProve = method({
  id: 'marks.capability.pieces',
  title: 'pieces that prove a Cpk',
  prose: 'the least number of pieces whose lower bound, by the approximation of Bissell, is the Cpk to be proven',
  gives: '1',
  symbols: { C: '1', D: '1', z: '1' },
  means: {
    C: 'Cpk that the pieces are expected to show',
    D: 'Cpk to be proven',
    z: 'standard deviations that the confidence stays below',
  },
  source: 'bissell',
  proof: 'one piece less than asked for does not prove it',
  of(C: number, D: number, z: number) {
    if (!(C > D && z > 0)) return Number.NaN;
    // n·(n − 1)·w = (n − 1)/9 + n·C²/2 where the bound is met.
    const w = ((C - D) / z) ** 2;
    const sum = w + 1 / 9 + C ** 2 / 2;
    const met = Math.ceil((sum + Math.sqrt(sum ** 2 - (4 * w) / 9)) / (2 * w));
    return Math.max(2, lowerBound(C, z, met - 1) >= D ? met - 1 : met);
  },
});

function lowerBound(C: number, z: number, n: number): number {
  return C - z * deviationOfShown(C, n);
}

function deviationOfShown(C: number, n: number): number {
  return Math.sqrt(1 / (9 * n) + C ** 2 / (2 * (n - 1)));
}
