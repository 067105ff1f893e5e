// What a length is off by that one eye and a measuring roll take from two edges.
import { formula, method } from '../../working/formula.ts';
import { sin } from './same-bits.ts';

const bias = {
  gives: 'm',
  symbols: { v: 'm/s', d: 's', h: 'm' },
  means: {
    v: 'speed of the product',
    d: 'how much later the eye goes off than on',
    h: 'hysteresis: how much farther the edge is when it goes off than when it goes on',
  },
  try: { v: [0.01, 15], d: [-1e-3, 1e-3], h: [-1e-3, 1e-3] },
  source: 'definition',
  proof: 'an eye that is slower off than on sees products too long',
} as const;

/** Positive where the product is seen too long. */
export const edgeBias = formula({
  ...bias,
  id: 'marks.length.bias',
  title: 'error of a length by the difference of the delays of an eye',
  text: 'v*d + h',
  of: (v: number, d: number, h: number) => v * d + h,
});

/** From the falling to the rising edge: a gap is seen too short by what a product is seen too long. */
export const gapBias = formula({
  ...bias,
  id: 'marks.length.gap_bias',
  title: 'error of a gap by the difference of the delays of an eye',
  text: '-(v*d + h)',
  of: (v: number, d: number, h: number) => -(v * d + h),
});

/** Both edges are off by chance, each for itself. */
export const twoEdges = formula({
  id: 'marks.length.two_edges',
  title: 'standard deviation of a length of which each edge has its own',
  text: 'sqrt(2)*u',
  gives: 'm',
  symbols: { u: 'm' },
  means: { u: 'standard deviation of one edge' },
  try: { u: [1e-6, 1e-3] },
  source: 'jcgm-100',
  at: 'eq. 10',
  proof: 'two polled edges at 1 m/s and 4 ms are off by up to 4 mm',
  of: (u: number) => Math.SQRT2 * u,
});

export const bothEdges = formula({
  id: 'marks.length.both_edges',
  title: 'limit of a length of which each edge has its own',
  text: '2*a',
  gives: 'm',
  symbols: { a: 'm' },
  means: { a: 'limit of one edge' },
  try: { a: [1e-6, 1e-3] },
  source: 'definition',
  proof: 'two polled edges at 1 m/s and 4 ms are off by up to 4 mm',
  of: (a: number) => 2 * a,
});

/** Either edge is late by up to one period, so the length is off by up to this much both ways, triangular. */
export const polledLength = formula({
  id: 'marks.length.polled',
  title: 'largest error of a length between two polled edges',
  text: 'v*T',
  gives: 'm',
  symbols: { v: 'm/s', T: 's' },
  means: { v: 'speed of the product', T: 'period of the polling' },
  try: { v: [0.01, 15], T: [1e-5, 0.05] },
  source: 'definition',
  proof: 'two polled edges at 1 m/s and 4 ms are off by up to 4 mm',
  of: (v: number, T: number) => v * T,
});

/** Of lengths of all sizes; one and the same length has `fixedLengthSpread`. */
export const steppedLength = formula({
  id: 'marks.length.stepped',
  title: 'standard deviation of a length between two edges in steps',
  text: 'q/sqrt(6)',
  gives: 'm',
  symbols: { q: 'm' },
  means: { q: 'step of position: a count, or the way in a period' },
  try: { q: [1e-6, 1e-2] },
  source: 'jcgm-100',
  at: '4.3.9',
  proof: 'two polled edges at 1 m/s and 4 ms are off by up to 4 mm',
  of: (q: number) => q / Math.sqrt(6),
});

/** Of a length of n + f steps that lies anywhere on them: 0 where it is a whole number of steps. */
export const fixedLengthSpread = formula({
  id: 'marks.length.fixed',
  title: 'standard deviation of one fixed length in steps',
  text: 'q*sqrt(f*(1 - f))',
  gives: 'm',
  symbols: { q: 'm', f: '1' },
  means: { q: 'step of position', f: 'what is left of the length in steps after the whole ones' },
  try: { q: [1e-6, 1e-2], f: [0.02, 0.98] },
  source: 'definition',
  proof: 'one fixed length is seen in whole steps, one more or one less',
  of: (q: number, f: number) => q * Math.sqrt(f * (1 - f)),
});

/** The scale of a measuring roll, slip and draw are shares of the length. */
export const lengthShare = formula({
  id: 'marks.length.share',
  title: 'error of a length that is a share of it',
  text: 'l*s',
  gives: 'm',
  symbols: { l: 'm', s: '1' },
  means: { l: 'length', s: 'error of the scale or slip, as a share' },
  try: { l: [0.01, 5], s: [1e-6, 0.02] },
  source: 'definition',
  proof: 'a roll that is 0.1 % too thick measures 1 m as 0.999 m',
  of: (l: number, s: number) => l * s,
});

/** A roll that is thicker than it should be turns less for the same length. */
export const diameterError = formula({
  id: 'marks.length.diameter',
  title: 'error of a length by the tolerance of a measuring roll',
  text: 'l*x/D',
  gives: 'm',
  symbols: { l: 'm', x: 'm', D: 'm' },
  means: { l: 'length', x: 'tolerance of the diameter', D: 'diameter' },
  try: { l: [0.01, 5], x: [1e-6, 1e-4], D: [0.03, 0.5] },
  source: 'definition',
  proof: 'a roll that is 0.1 % too thick measures 1 m as 0.999 m',
  of: (l: number, x: number, D: number) => (l * x) / D,
});

/** Its roll turns once for each of its circumferences; where a turn starts is chance, so the error is arcsine. */
export const eccentricLength = method({
  id: 'marks.length.eccentric',
  title: 'largest error of a length by a roll that is out of centre',
  prose: 'twice the way off centre, times the sine of half the angle that the roll turns, without its sign',
  gives: 'm',
  symbols: { e: 'm', l: 'm', D: 'm' },
  means: { e: 'way of the centre of the roll from its axle', l: 'length', D: 'diameter of the roll' },
  source: 'definition',
  proof: 'a roll out of centre, turned step by step',
  of: (e: number, l: number, D: number) => Math.abs(2 * e * sin(l / D)),
});

/** How data sheets state expansion: so much for one kelvin. */
export const thermalLength = formula({
  id: 'marks.length.thermal',
  title: 'change of a length with the temperature',
  text: 'l*x*d/k',
  gives: 'm',
  symbols: { l: 'm', x: '1', d: 'K', k: 'K' },
  means: {
    l: 'length',
    x: 'expansion, as a share of the length',
    d: 'difference from the temperature of reference',
    k: 'difference that the expansion is stated for, 1 K as a rule',
  },
  try: { l: [0.01, 5], x: [1e-6, 1e-4], d: [-30, 40], k: [1, 10] },
  source: 'definition',
  proof: '2 m of steel at 12 ppm in a kelvin grow by 0.24 mm in 10 K',
  of: (l: number, x: number, d: number, k: number) => (l * x * d) / k,
});
