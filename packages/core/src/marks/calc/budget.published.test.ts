// Budgets of uncertainty against the examples of the guide.
import { describe, expect, it } from 'vitest';
import { type Contribution, combined, correlatedSpread, standardOf } from './budget.ts';
import { plain } from './plain.support.ts';
import { secondOrder } from './second-order.ts';
import { studentQuantile } from './student.ts';

describe('JCGM 100:2008, H.1: an end gauge of 50 mm', () => {
  const [length_nm, temperature_K, expansion_per_K] = [50_000_623, -0.1, 11.5e-6];
  const difference = combined(
    [
      { name: 'repeats', spread: { shape: 'normal', deviation: 5.8 }, sensitivity: 1, degrees: 24 },
      { name: 'random', spread: { shape: 'normal', deviation: 3.9 }, sensitivity: 1, degrees: 5 },
      { name: 'systematic', spread: { shape: 'normal', deviation: 6.7 }, sensitivity: 1, degrees: 8 },
    ],
    { coverage: 0.99 },
  )!;
  const rectangular = (halfWidth: number) => standardOf({ shape: 'rectangular', halfWidth });
  const inputs = [
    { value: length_nm, standard: 25 },
    { value: 215, standard: difference.standard },
    { value: 0, standard: rectangular(1e-6) },
    { value: temperature_K, standard: 0.41 },
    { value: expansion_per_K, standard: 1.2e-6 },
    { value: 0, standard: rectangular(0.05) },
  ];
  const gauge = ([l, d, δα, θ, α, δθ]: readonly number[]) => l! + d! - l! * (δα! * θ! + α! * δθ!);
  const orders = secondOrder(gauge, inputs);
  const degrees = [18, difference.degrees!, 50, Infinity, Infinity, 2];
  const budget = combined(
    inputs.map(
      ({ standard }, at): Contribution => ({
        name: `${at}`,
        spread: { shape: 'normal', deviation: standard },
        sensitivity: orders.sensitivities[at]!,
        degrees: degrees[at]!,
      }),
    ),
    { coverage: 0.99 },
  )!;

  it('the difference has 9.7 nm and 25.45 degrees of freedom, 25.6 from the rounded 9.7', () => {
    expect(difference.standard).toBeCloseTo(9.7, 1);
    expect(difference.degrees).toBeCloseTo(25.45, 2);
    expect(9.7 ** 4 / (5.8 ** 4 / 24 + 3.9 ** 4 / 5 + 6.7 ** 4 / 8)).toBeCloseTo(25.6, 1);
  });

  it('the gauge has 50 000 838 nm, contributions 25, 9.7, 2.887 and 16.599 and a combined 31.66 nm', () => {
    expect(orders.value).toBeCloseTo(50_000_838, 0);
    const contributions = inputs.map(({ standard }, at) => Math.abs(orders.sensitivities[at]!) * standard);
    [25, 9.7, 2.887, 0, 0, 16.599].forEach((value, at) => {
      expect(contributions[at]).toBeCloseTo(value, [6, 1, 3, 6, 6, 3][at]!);
    });
    expect(budget.standard).toBeCloseTo(31.66, 2);
  });

  it('16.75 effective degrees of freedom; taken as 16, the expanded uncertainty is 2.92 times 32 nm: 93 nm', () => {
    expect(budget.degrees).toBeCloseTo(16.75, 2);
    const factor = studentQuantile(0.995, Math.floor(budget.degrees!));
    expect(factor).toBeCloseTo(2.92, 2);
    expect(factor * Math.round(budget.standard)).toBeCloseTo(93, 0);
    expect(budget.factor).toBeLessThan(factor);
    expect(budget.expanded).toBeCloseTo(budget.factor! * budget.standard, 12);
  });

  it('terms of second order take it to 33.8 nm, which is more than first order may be off by', () => {
    expect(orders.first).toBeCloseTo(31.66, 2);
    expect(orders.second).toBeCloseTo(33.8, 1);
    expect(orders.refused).toBe('meaningless');
  });
});

describe('JCGM 100:2008, H.2: resistance and reactance measured together', () => {
  const V = [5.007, 4.994, 5.005, 4.99, 4.999];
  const I = [19.663, 19.639, 19.64, 19.685, 19.678].map((milliamperes) => milliamperes / 1000);
  const φ = [1.0456, 1.0438, 1.0468, 1.0428, 1.0433];
  const mean = (x: readonly number[]) => x.reduce((sum, each) => sum + each, 0) / x.length;
  const product = (x: readonly number[], y: readonly number[]) =>
    mean(x.map((each, at) => (each - mean(x)) * (y[at]! - mean(y))));
  const r = (x: readonly number[], y: readonly number[]) =>
    x === y ? 1 : product(x, y) / Math.sqrt(product(x, x) * product(y, y));
  const samples = [V, I, φ];
  const spreads = samples.map((values) => ({ shape: 'sample', values, of: 'mean' }) as const);
  const correlation = samples.map((x) => samples.map((y) => r(x, y)));

  it.each([
    ['R', ([v, i, p]: readonly number[]) => (v! / i!) * Math.cos(p!), 127.732, 0.071],
    ['X', ([v, i, p]: readonly number[]) => (v! / i!) * Math.sin(p!), 219.847, 0.295],
    ['Z', ([v, i]: readonly number[]) => v! / i!, 254.26, 0.236],
  ])('%s', (name, model, value, standard) => {
    const inputs = samples.map((sample, at) => ({ value: mean(sample), standard: standardOf(spreads[at]!) }));
    const orders = secondOrder(model, inputs);
    expect(orders.value).toBeCloseTo(value, 3);
    expect(orders.refused).toBeUndefined();
    const contributions = spreads.map((spread, at) => ({ name, spread, sensitivity: orders.sensitivities[at]! }));
    const budget = combined(contributions, { coverage: 0.95, correlation })!;
    expect(Math.abs(budget.standard - standard)).toBeLessThan(0.001);
    expect([budget.degrees, budget.factor, budget.expanded]).toEqual([undefined, undefined, undefined]);
    expect(budget.shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
    const signed = contributions.map((each) => each.sensitivity * standardOf(each.spread));
    expect(plain(correlatedSpread)(signed, correlation.flat())).toBeCloseTo(budget.standard, 12);
  });
});

describe('JCGM 101:2008, 9.3: calibration of a mass', () => {
  const mass = ([R, δR, air, W, ref]: readonly number[]) =>
    (R! + δR!) * (1 + (air! - 1.2) * (1 / W! - 1 / ref!)) - 100_000;
  const rectangular = (low: number, high: number) => ({
    value: (low + high) / 2,
    standard: standardOf({ shape: 'rectangular', halfWidth: (high - low) / 2 }),
  });

  it('1.2340 mg, 0.0539 mg by first order, 0.0750 mg by second, which makes the first meaningless', () => {
    const orders = secondOrder(mass, [
      { value: 100_000, standard: 0.05 },
      { value: 1.234, standard: 0.02 },
      rectangular(1.1, 1.3),
      rectangular(7000, 9000),
      rectangular(7950, 8050),
    ]);
    expect(orders.value).toBeCloseTo(1.234, 4);
    expect(orders.first).toBeCloseTo(0.0539, 4);
    expect(orders.second).toBeCloseTo(0.075, 4);
    expect(orders.refused).toBe('meaningless');
  });
});

describe('JCGM 101:2008, 9.4: the sum of two squares', () => {
  const squares = ([x, y]: readonly number[]) => x! ** 2 + y! ** 2;

  it('at zero the first order is nothing, the second 50e-6', () => {
    const orders = secondOrder(squares, [
      { value: 0, standard: 0.005 },
      { value: 0, standard: 0.005 },
    ]);
    expect(orders.first).toBe(0);
    expect(orders.second).toBeCloseTo(50e-6, 12);
    expect(orders.refused).toBe('meaningless');
  });

  it('at 0.010 the first order is 100e-6', () => {
    const orders = secondOrder(squares, [
      { value: 0.01, standard: 0.005 },
      { value: 0, standard: 0.005 },
    ]);
    expect(orders.first).toBeCloseTo(100e-6, 12);
    expect(orders.refused).toBe('meaningless');
  });
});
