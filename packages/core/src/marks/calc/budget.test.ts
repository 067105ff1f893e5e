// Budgets by hand and against densities.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { gaussLegendre } from '../../axes/calc/integral.ts';
import { q } from '../../working/testing.support.ts';
import {
  arcsineSpread,
  type Contribution,
  combined,
  combinedSpread,
  correlatedShare,
  type Distribution,
  effectiveDegrees,
  meanDeviation,
  rectangularSpread,
  sampleDegrees,
  sampleDeviation,
  sampleMean,
  sampleReach,
  standardOf,
  triangularSpread,
  varianceShare,
  worstCase,
  worstSum,
} from './budget.ts';
import { limitOfNormal, offsetLeft, partOfResult, sizeOfPart, sumOfOffsets } from './contribution.ts';
import { triangleOf } from './correlation.ts';
import { plain } from './plain.support.ts';
import { secondOrder } from './second-order.ts';

const about = 'test';
const one = (spread: Distribution, more: Partial<Contribution> = {}): Contribution => ({
  name: 'one',
  spread,
  sensitivity: 1,
  ...more,
});
const normal = (deviation: number, more: Partial<Contribution> = {}) => one({ shape: 'normal', deviation }, more);
const coverage = 0.95;

it('standard deviations of the shapes are those of their densities', () => {
  const { nodes, weights } = gaussLegendre(30);
  // The sine is integrated over its angle, the others over their width.
  const mean = (of: (node: number) => number) => nodes.reduce((sum, node, at) => sum + weights[at]! * of(node), 0);
  expect(rectangularSpread({ a: q(1, 'm') }, about).value).toBeCloseTo(Math.sqrt(mean((x) => x ** 2 / 2)), 12);
  expect(triangularSpread({ a: q(1, 'm') }, about).value).toBeCloseTo(
    Math.sqrt(mean((x) => ((x + 1) / 2) ** 2 * (1 - (x + 1) / 2))),
    12,
  );
  expect(arcsineSpread({ a: q(1, 'm') }, about).value).toBeCloseTo(
    Math.sqrt(mean((x) => Math.sin(Math.PI * x) ** 2 / 2)),
    12,
  );
  for (const [shape, spread] of [
    ['rectangular', rectangularSpread],
    ['triangular', triangularSpread],
    ['arcsine', arcsineSpread],
  ] as const)
    expect(standardOf({ shape, halfWidth: 0.3 })).toBeCloseTo(plain(spread)(0.3), 15);
});

it('a sample has the mean and the deviation of its parts', () => {
  const values = [1, 2, 4, 9];
  expect(plain(sampleMean)(values)).toBe(4);
  expect(plain(sampleDeviation)(values) ** 2).toBeCloseTo(38 / 3, 12);
  expect(plain(meanDeviation)(values)).toBeCloseTo(standardOf({ shape: 'sample', values, of: 'mean' }), 15);
  expect(plain(sampleReach)(values)).toBe(5);
  expect(plain(sampleDegrees)(values)).toBe(3);
  expect(plain(sumOfOffsets)([4, -1.5, 0])).toBe(2.5);
  expect(
    standardOf({ shape: 'sample', values, of: 'one' }) / standardOf({ shape: 'sample', values, of: 'mean' }),
  ).toBeCloseTo(2, 12);
  const budget = combined([one({ shape: 'sample', values, of: 'mean' }, { sensitivity: 3 })], { coverage })!;
  expect(budget.offset).toBe(12);
  expect(budget.degrees).toBeCloseTo(3, 12);
  expect(budget.factor).toBeCloseTo(3.182, 3);
});

it('a part with a sensitivity of 2, half of it compensated, counts once', () => {
  expect(plain(partOfResult)(2, 0.5, 3e-5)).toBeCloseTo(3e-5, 18);
  expect(plain(partOfResult)(-1, 0, 3e-5)).toBe(-3e-5);
  expect(plain(sizeOfPart)(plain(partOfResult)(-1, 0, 3e-5))).toBe(3e-5);
  expect(plain(partOfResult)(1, 1, 3e-5)).toBe(0);
  expect(plain(offsetLeft)(0.5, 3e-5)).toBe(plain(partOfResult)(1, 0.5, 3e-5));
});

it('a sample of one value tells no spread', () => {
  expect(standardOf({ shape: 'sample', values: [1], of: 'one' })).toBeNaN();
});

describe('a budget', () => {
  it('adds offsets with their signs and spreads by their squares', () => {
    const budget = combined([normal(3, { offset: 1 }), normal(4, { sensitivity: -1, offset: 3 })], { coverage })!;
    expect(budget).toMatchObject({ offset: -2, standard: 5, degrees: Infinity });
    expect(budget.factor).toBeCloseTo(1.96, 3);
    expect(budget.expanded).toBeCloseTo(9.8, 2);
    expect(plain(combinedSpread)([3, 4])).toBe(5);
  });

  it('shares of the variance make one, for any correlation that can be', () => {
    const random = seeded(16);
    for (let trial = 0; trial < 200; trial++) {
      const size = 2 + Math.floor(random() * 5);
      // Unit vectors have a correlation that can be.
      const vectors = Array.from({ length: size }, () => {
        const raw = Array.from({ length: size }, () => random() - 0.5);
        return raw.map((each) => each / Math.hypot(...raw));
      });
      const correlation = vectors.map((a, row) =>
        vectors.map((b, at) => (row === at ? 1 : a.reduce((sum, each, k) => sum + each * b[k]!, 0))),
      );
      const parts = vectors.map(() => normal(random(), { sensitivity: random() - 0.5 }));
      const budget = combined(parts, { coverage, correlation })!;
      // The length of the sum of the vectors is the same in another way.
      const sum = vectors[0]!.map((_, k) =>
        parts.reduce((all, part, at) => all + part.sensitivity * standardOf(part.spread) * vectors[at]![k]!, 0),
      );
      expect(budget.standard).toBeCloseTo(Math.hypot(...sum), 9);
      expect(budget.shares.reduce((all, share) => all + share, 0)).toBeCloseTo(1, 9);
      expect(budget.degrees).toBe(Infinity);
      const u = parts.map((part) => part.sensitivity * standardOf(part.spread));
      const shares = u.map((c, row) => plain(correlatedShare)(c, correlation[row]!, u, budget.standard));
      for (const [at, share] of shares.entries()) expect(share).toBeCloseTo(budget.shares[at]!, 9);
    }
    expect(plain(varianceShare)(3, 5) + plain(varianceShare)(4, 5)).toBeCloseTo(1, 15);
  });

  it('has its effective degrees of freedom between the least and the sum of all', () => {
    const random = seeded(7);
    for (let trial = 0; trial < 200; trial++) {
      const parts = Array.from({ length: 4 }, () => normal(random(), { degrees: 1 + Math.floor(20 * random()) }));
      const degrees = combined(parts, { coverage })!.degrees!;
      const own = parts.map((part) => part.degrees!);
      expect(degrees).toBeGreaterThanOrEqual(Math.min(...own) * (1 - 1e-12));
      expect(degrees).toBeLessThanOrEqual(own.reduce((sum, each) => sum + each) * (1 + 1e-12));
      const u = parts.map((part) => standardOf(part.spread));
      expect(plain(effectiveDegrees)(Math.hypot(...u), u, own)).toBeCloseTo(degrees, 9);
    }
  });

  it('does not know them where what is correlated has finite ones', () => {
    const correlation = [
      [1, 0.5, 0],
      [0.5, 1, 0],
      [0, 0, 1],
    ];
    const tied = combined([normal(1), normal(1, { degrees: 9 }), normal(1)], { coverage, correlation })!;
    expect(tied).toMatchObject({ degrees: undefined, expanded: undefined });
    const free = combined([normal(1), normal(1), normal(1, { degrees: 9 })], { coverage, correlation })!;
    expect(free.degrees).toBeCloseTo(4 ** 2 / (1 / 9), 9);
  });

  it.each([
    [
      'not symmetric',
      [
        [1, 0.5],
        [0.4, 1],
      ],
    ],
    [
      'beyond one',
      [
        [1, 1.2],
        [1.2, 1],
      ],
    ],
    [
      'not one with itself',
      [
        [0.9, 0],
        [0, 1],
      ],
    ],
    ['of another size', [[1]]],
    ['not square', [[1, 0], [0]]],
    [
      'not a number',
      [
        [1, Number.NaN],
        [Number.NaN, 1],
      ],
    ],
  ])('refuses a correlation that is %s', (_, correlation) => {
    expect(combined([normal(1), normal(1)], { coverage, correlation })).toBeUndefined();
  });

  it('refuses three that are each the contrary of the others', () => {
    const correlation = [0, 1, 2].map((row) => [0, 1, 2].map((at) => (row === at ? 1 : -0.6)));
    expect(combined([normal(1), normal(1), normal(1)], { coverage, correlation })).toBeUndefined();
  });

  it('of complete correlation adds up or cancels', () => {
    const full = (r: number) => [
      [1, r],
      [r, 1],
    ];
    expect(combined([normal(3), normal(4)], { coverage, correlation: full(1) })!.standard).toBeCloseTo(7, 12);
    expect(combined([normal(3), normal(3)], { coverage, correlation: full(-1) })!).toMatchObject({
      standard: 0,
      shares: [0, 0],
    });
    expect(triangleOf(full(-1))).toEqual([
      [1, 0],
      [-1, 0],
    ]);
  });
});

it('the worst case counts limits in full and deviations as often as asked', () => {
  const parts = [
    one({ shape: 'rectangular', halfWidth: 2 }, { sensitivity: -3 }),
    normal(1),
    one({ shape: 'sample', values: [0, 0, 3], of: 'one' }),
  ];
  expect(worstCase(parts, { deviations: 3 })).toBeCloseTo(6 + 3 + 2, 12);
  expect(plain(worstSum)([6, plain(limitOfNormal)(3, 1), 2])).toBe(11);
});

describe('terms of second order', () => {
  const inputs = [
    { value: 2, standard: 0.1 },
    { value: 3, standard: 0.2 },
  ];

  it('are those of derivatives by hand for x²·y and x³', () => {
    // f_x = 12, f_y = 4, f_xx = 6, f_xy = 4, f_xxy = 2.
    const mixed = secondOrder(([x, y]) => x! ** 2 * y!, inputs);
    expect(mixed.sensitivities[0]).toBeCloseTo(12, 9);
    expect(mixed.sensitivities[1]).toBeCloseTo(4, 9);
    const more = 0.5 * (6 * 0.01) ** 2 + 2 * 0.5 * (4 * 0.02) ** 2 + 4 * 2 * 0.04 * 0.01;
    expect(mixed.second ** 2 - mixed.first ** 2).toBeCloseTo(more, 9);
    expect(mixed.refused).toBeUndefined();
    const cube = secondOrder(([x]) => x! ** 3, inputs.slice(0, 1));
    expect(cube.second ** 2 - cube.first ** 2).toBeCloseTo(0.5 * (12 * 0.01) ** 2 + 12 * 6 * 0.01 ** 2, 9);
  });

  it('are none for a line, whose first order is believed', () => {
    const line = secondOrder(([x, y]) => 5 * x! - 2 * y!, inputs);
    expect(line.share).toBeLessThan(1e-9);
    expect(line.refused).toBeUndefined();
  });

  it('refuse just where they have more than a tenth of the variance', () => {
    // x + a·x² at 0 has first u and more 2·a²·u⁴: a tenth of all where a²·u² = 1/18.
    const at = (a: number) => secondOrder(([x]) => x! + a * x! ** 2, [{ value: 0, standard: 1 }]);
    const edge = Math.sqrt(1 / 18);
    expect(at(edge * 0.999)).toMatchObject({ refused: undefined });
    expect(at(edge * 1.001)).toMatchObject({ refused: 'meaningless' });
    expect(at(edge).share).toBeCloseTo(0.1, 9);
  });

  it('refuse a model that has no value there', () => {
    expect(secondOrder(([x]) => Math.sqrt(x!), [{ value: 0, standard: 1 }]).refused).toBe('meaningless');
  });
});
