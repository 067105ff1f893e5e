// What a contribution gives a result: a time as a way of the web, its sensitivity, what of it is taken out, its limit.
import { formula } from '../../working/formula.ts';
import { total } from '../../working/total.ts';

export const wayOfTime = formula({
  id: 'marks.budget.way',
  title: 'way of the web in a time',
  text: 'v*t',
  gives: 'm',
  symbols: { v: 'm/s', t: 's' },
  means: { v: 'speed of the web', t: 'time' },
  try: { v: [0.01, 15], t: [-1e-2, 1e-2] },
  source: 'definition',
  proof: 'a captured mark at 5 m/s has 16 µm and Cpk 2.06',
  of: (v: number, t: number) => v * t,
});

/** Of its standard uncertainty or of its offset, with the sign of its sensitivity. */
export const partOfResult = formula({
  id: 'marks.budget.part',
  title: 'what a contribution gives the result',
  text: 'c*(1 - k)*u',
  gives: 'm',
  symbols: { c: '1', k: '1', u: 'm' },
  means: {
    c: 'sensitivity: change of the result for each of the contribution',
    k: 'share of it that is compensated',
    u: 'the contribution itself',
  },
  try: { c: [-2, 2], k: [0, 0.9], u: [1e-6, 1e-3] },
  source: 'jcgm-100',
  at: '5.1.3',
  proof: 'a part with a sensitivity of 2, half of it compensated, counts once',
  of: (c: number, k: number, u: number) => c * (1 - k) * u,
});

/** Without the sign of its sensitivity: at its worst it goes the way of the others. */
export const limitOfResult = formula({
  id: 'marks.budget.limit_part',
  title: 'most that a contribution gives the result',
  text: 'abs(c)*(1 - k)*a',
  gives: 'm',
  symbols: { c: '1', k: '1', a: 'm' },
  means: {
    c: 'sensitivity: change of the result for each of the contribution',
    k: 'share of it that is compensated',
    a: 'limit of the contribution itself',
  },
  try: { c: [-2, 2], k: [0, 0.9], a: [1e-6, 1e-3] },
  source: 'definition',
  proof: 'the worst case bounds every trial',
  of: (c: number, k: number, a: number) => Math.abs(c) * (1 - k) * a,
});

/** What is shown of it: the sign of a sensitivity counts where contributions are correlated only. */
export const sizeOfPart = formula({
  id: 'marks.budget.size',
  title: 'standard deviation that a contribution gives the result',
  text: 'abs(u)',
  gives: 'm',
  symbols: { u: 'm' },
  means: { u: 'what the contribution gives the result, with the sign of its sensitivity' },
  try: { u: [-1e-3, 1e-3] },
  source: 'definition',
  proof: 'a part with a sensitivity of 2, half of it compensated, counts once',
  of: (u: number) => Math.abs(u),
});

export const offsetLeft = formula({
  id: 'marks.budget.left',
  title: 'offset that is not compensated',
  text: '(1 - k)*b',
  gives: 'm',
  symbols: { k: '1', b: 'm' },
  means: { k: 'share of it that is compensated', b: 'the offset itself' },
  try: { k: [0, 0.9], b: [-1e-3, 1e-3] },
  source: 'definition',
  proof: 'a part with a sensitivity of 2, half of it compensated, counts once',
  of: (k: number, b: number) => (1 - k) * b,
});

export const limitOfNormal = formula({
  id: 'marks.budget.limit',
  title: 'limit that is taken for what is normally distributed',
  text: 'n*u',
  gives: 'm',
  symbols: { n: '1', u: 'm' },
  means: { n: 'standard deviations that are taken for a limit', u: 'standard uncertainty' },
  try: { n: [2, 4], u: [1e-6, 1e-3] },
  source: 'judgement',
  proof: 'the worst case bounds every trial',
  of: (n: number, u: number) => n * u,
});

export const sumOfOffsets = formula({
  id: 'marks.budget.offset',
  title: 'what the result is off by on average',
  text: 'sum(b)',
  gives: 'm',
  symbols: { b: 'm[]' },
  means: { b: 'offset that each contribution gives the result' },
  try: { b: [-1e-3, 1e-3] },
  source: 'definition',
  proof: 'a sample has the mean and the deviation of its parts',
  of: (b: readonly number[]) => total(b),
});

/** From one end to the other it is the span; arcsine, since a train lies at its ends more often than between them. */
export const halfLostMotion = formula({
  id: 'marks.train.half',
  title: 'limit of what the tool moves by against its motor, to either side of the middle',
  text: 'w/2',
  gives: 'm',
  symbols: { w: 'm' },
  means: { w: 'wind-up and play from one end to the other' },
  try: { w: [1e-6, 1e-3] },
  source: 'judgement',
  proof: 'a knife whose torque turns round cuts anywhere between both ends of its lost motion',
  of: (w: number) => w / 2,
});
