// What a web makes a length that runs askew: of second order, so that a budget of first order alone may not see it.
// The angle is normally distributed about a mean.
import { formula, method } from '../../working/formula.ts';
import { secondOrder } from './second-order.ts';

const askew = {
  symbols: { L: 'm', φ: 'rad', σ: 'rad' },
  means: { L: 'length that runs askew', φ: 'mean angle', σ: 'standard deviation of the angle' },
} as const;

/** The mean of L·(1 − cos φ): the mean of a cosine of what is normally distributed is exact. */
export const skewOffset = formula({
  ...askew,
  id: 'marks.skew.offset',
  title: 'what a web askew is longer than it seems, on average',
  text: 'L*(1 - cos(φ)*exp(-σ^2/2))',
  gives: 'm',
  try: { L: [0.1, 10], φ: [-0.5, 0.5], σ: [0.01, 0.4] },
  source: 'definition',
  proof: 'an angle drawn many times has the mean and the deviation of the closed form',
  of: (L: number, φ: number, σ: number) => L * (1 - Math.cos(φ) * Math.exp(-(σ ** 2) / 2)),
});

/** The same written without differences of nearly equal numbers. */
export const skewSpread = method({
  ...askew,
  id: 'marks.skew.spread',
  title: 'standard deviation of the length of a web askew',
  prose: 'the root of the variance of the length times the cosine of the angle, in closed form',
  gives: 'm',
  source: 'definition',
  proof: 'an angle drawn many times has the mean and the deviation of the closed form',
  of(L: number, φ: number, σ: number) {
    // Var cos φ = ½·(1 − e)·(1 − e·cos 2φ) with e = exp(−σ²), both factors without cancellation.
    const less = -Math.expm1(-(σ ** 2));
    return Math.abs(L) * Math.sqrt((less * (less * Math.cos(2 * φ) + 2 * Math.sin(φ) ** 2)) / 2);
  },
});

/** The angle at three standard deviations to the side that is farther, or at nothing. */
export const skewLimit = method({
  ...askew,
  id: 'marks.skew.limit',
  title: 'most that the length of a web askew is off from its average',
  prose:
    'the length times the cosine of the mean angle and three standard deviations, or of none, less that on average',
  gives: 'm',
  source: 'judgement',
  proof: 'angles within three standard deviations keep to the limit, and come to it',
  of(L: number, φ: number, σ: number) {
    const [near, far] = [Math.max(0, Math.abs(φ) - 3 * σ), Math.min(Math.PI, Math.abs(φ) + 3 * σ)];
    const mean = 1 - Math.cos(φ) * Math.exp(-(σ ** 2) / 2);
    return Math.abs(L) * Math.max(1 - Math.cos(far) - mean, mean - (1 - Math.cos(near)));
  },
});

const orders = {
  gives: 'm',
  symbols: { u: 'm', ...askew.symbols },
  means: { u: 'combined standard uncertainty of all that is linear', ...askew.means },
  source: 'jcgm-100',
  at: '5.1.2, note',
} as const;

const ordersOf = (u: number, L: number, φ: number, σ: number) =>
  secondOrder(
    ([x = 0, angle = 0]) => x + L * (1 - Math.cos(angle)),
    [
      { value: 0, standard: u },
      { value: φ, standard: σ },
    ],
  );

export const firstOrderSpread = method({
  ...orders,
  id: 'marks.budget.first_order',
  title: 'combined standard uncertainty by the terms of first order',
  prose: 'derivatives by central differences, squared and summed',
  proof: 'a web askew about nothing has no first order, and its second order is its deviation',
  of: (u: number, L: number, φ: number, σ: number) => ordersOf(u, L, φ, σ).first,
});

export const secondOrderSpread = method({
  ...orders,
  id: 'marks.budget.second_order',
  title: 'combined standard uncertainty with the terms of second order',
  prose: 'derivatives by central differences, up to the third',
  proof: 'a web askew about nothing has no first order, and its second order is its deviation',
  of: (u: number, L: number, φ: number, σ: number) => ordersOf(u, L, φ, σ).second,
});

/** From a tenth on, and where the first order is nothing, the first order is meaningless (our judgement). */
export const secondOrderShare = method({
  ...orders,
  id: 'marks.budget.second_share',
  title: 'share of the variance that only the terms of second order tell',
  prose: 'the difference of both variances over the greater of them',
  gives: '1',
  as: '%',
  proof: 'a web askew about nothing has no first order, and its second order is its deviation',
  of: (u: number, L: number, φ: number, σ: number) => {
    const { first, share } = ordersOf(u, L, φ, σ);
    return first > 0 ? share : 1;
  },
});
