// What the product of two contributions makes of a length, or the square of one: of second order, so that slopes do not tell
// it. Both are off by chance about nothing; a product stands over a length that makes it a length again.
import { formula } from '../../working/formula.ts';

const factors = {
  u: 'standard uncertainty of the one, before its sensitivity',
  w: 'that of the other',
  r: 'their correlation',
  L: 'length that the product is over',
} as const;
const tries = { u: [1e-5, 1e-3], w: [1e-5, 1e-3], r: [-1, 1], L: [1e-3, 1] } as const;
const drawn = 'products and squares drawn many times have the mean, the deviation and the limit of the closed forms';

/** Of independent ones whatever their distributions, of correlated ones that are normally distributed. */
export const productSpread = formula({
  id: 'marks.product.spread',
  title: 'standard deviation of the product of two contributions',
  text: 'u*w*sqrt(1 + r^2)/L',
  gives: 'm',
  symbols: { u: 'm', w: 'm', r: '1', L: 'm' },
  means: factors,
  try: tries,
  source: 'jcgm-100',
  at: '5.1.2, note',
  proof: drawn,
  of: (u: number, w: number, r: number, L: number) => (u * w * Math.sqrt(1 + r ** 2)) / L,
});

/** The mean of the product; nothing of independent ones. */
export const productOffset = formula({
  id: 'marks.product.offset',
  title: 'what the product of two contributions is on average',
  text: 'r*u*w/L',
  gives: 'm',
  symbols: { u: 'm', w: 'm', r: '1', L: 'm' },
  means: factors,
  try: tries,
  source: 'definition',
  proof: drawn,
  of: (u: number, w: number, r: number, L: number) => (r * u * w) / L,
});

export const productLimit = formula({
  id: 'marks.product.limit',
  title: 'most that the product of two contributions is',
  text: 'a*b/abs(L)',
  gives: 'm',
  symbols: { a: 'm', b: 'm', L: 'm' },
  means: { a: 'limit of the one, before its sensitivity', b: 'that of the other', L: factors.L },
  try: { a: [1e-5, 1e-3], b: [1e-5, 1e-3], L: [-1, -1e-3] },
  source: 'definition',
  proof: drawn,
  of: (a: number, b: number, L: number) => (a * b) / Math.abs(L),
});

const itself = {
  u: 'standard uncertainty of the contribution, before its sensitivity',
  L: 'length that the square is over',
} as const;

/** The kurtosis is 3 of a normal distribution, 9/5 of a rectangular, 12/5 of a triangular, 3/2 of an arcsine one. */
export const squareSpread = formula({
  id: 'marks.square.spread',
  title: 'standard deviation of the square of a contribution',
  text: 'u^2*sqrt(κ - 1)/L',
  gives: 'm',
  symbols: { u: 'm', κ: '1', L: 'm' },
  means: { ...itself, κ: 'mean of the fourth power over the square of the variance' },
  try: { u: [1e-5, 1e-3], κ: [1.2, 4], L: [1e-3, 1] },
  source: 'definition',
  proof: drawn,
  of: (u: number, kurtosis: number, L: number) => (u ** 2 * Math.sqrt(kurtosis - 1)) / L,
});

export const squareOffset = formula({
  id: 'marks.square.offset',
  title: 'what the square of a contribution is on average',
  text: 'u^2/L',
  gives: 'm',
  symbols: { u: 'm', L: 'm' },
  means: itself,
  try: { u: [1e-5, 1e-3], L: [1e-3, 1] },
  source: 'definition',
  proof: drawn,
  of: (u: number, L: number) => u ** 2 / L,
});

/** The limit is no less than the root of 2 standard deviations, so that zero is the nearer end. */
export const squareLimit = formula({
  id: 'marks.square.limit',
  title: 'most that the square of a contribution is off from its average',
  text: '(a^2 - u^2)/abs(L)',
  gives: 'm',
  symbols: { a: 'm', u: 'm', L: 'm' },
  means: { a: 'limit of the contribution, before its sensitivity', ...itself },
  try: { a: [2e-3, 4e-3], u: [1e-5, 1e-3], L: [-1, -1e-3] },
  source: 'definition',
  proof: drawn,
  of: (a: number, u: number, L: number) => (a ** 2 - u ** 2) / Math.abs(L),
});

/** Of products a·b and c·d of contributions that are normally distributed (Isserlis, 1918); a square is a product with r = 1. */
export const productCorrelation = formula({
  id: 'marks.product.correlation',
  title: 'correlation of two products',
  text: '(p*s + q*t)/sqrt((1 + f^2)*(1 + g^2))',
  gives: '1',
  symbols: { p: '1', s: '1', q: '1', t: '1', f: '1', g: '1' },
  means: {
    p: 'correlation of both first factors',
    s: 'correlation of both second factors',
    q: 'correlation of the first factor of the one and the second of the other',
    t: 'correlation of the second factor of the one and the first of the other',
    f: 'correlation of the factors of the one',
    g: 'correlation of the factors of the other',
  },
  try: { p: [-1, 1], s: [-1, 1], q: [-1, 1], t: [-1, 1], f: [-1, 1], g: [-1, 1] },
  source: 'definition',
  proof: 'correlated products drawn many times have the correlation of the closed form',
  of: (p: number, s: number, q: number, t: number, f: number, g: number) =>
    (p * s + q * t) / Math.sqrt((1 + f ** 2) * (1 + g ** 2)),
});

export const allSecondShare = formula({
  id: 'marks.budget.product_share',
  title: 'share of the variance that only the terms of second order tell',
  text: 'abs(s^2 - f^2)/max(f^2, s^2)',
  gives: '1',
  as: '%',
  symbols: { f: 'm', s: 'm' },
  means: {
    f: 'combined standard uncertainty by terms of first order',
    s: 'combined standard uncertainty with terms of second order',
  },
  try: { f: [1e-6, 1e-3], s: [1e-6, 1e-3] },
  source: 'definition',
  proof: 'U-5 as a file',
  of: (f: number, s: number) => Math.abs(s ** 2 - f ** 2) / Math.max(f ** 2, s ** 2),
});
