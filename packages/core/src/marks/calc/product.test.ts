// Products of contributions: closed forms against values drawn by another generator.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { normalQuantile } from './normal.ts';
import { plain } from './plain.support.ts';
import {
  allSecondShare,
  productCorrelation,
  productLimit,
  productOffset,
  productSpread,
  squareLimit,
  squareOffset,
  squareSpread,
} from './product.ts';

const size = 400_000;
const momentsOf = (values: Float64Array) => {
  const mean = values.reduce((sum, each) => sum + each, 0) / values.length;
  const deviation = Math.sqrt(values.reduce((sum, each) => sum + (each - mean) ** 2, 0) / values.length);
  const farthest = values.reduce((most, each) => Math.max(most, Math.abs(each - mean)), 0);
  return { mean, deviation, farthest };
};
const random = seeded(94);
const normal = () => normalQuantile(random() || 0.5);
/** Values of standard deviation 1, their limit and their kurtosis. */
const shapes = [
  ['normal', normal, undefined, 3],
  ['rectangular', () => Math.sqrt(3) * (2 * random() - 1), Math.sqrt(3), 9 / 5],
  ['triangular', () => Math.sqrt(6) * (random() - random()), Math.sqrt(6), 12 / 5],
  ['arcsine', () => Math.SQRT2 * Math.sin(2 * Math.PI * random()), Math.SQRT2, 3 / 2],
] as const;

describe('products and squares drawn many times have the mean, the deviation and the limit of the closed forms', () => {
  it.each(shapes)('squares of %s values', (_, draw, limit, kurtosis) => {
    const [u, L] = [3e-3, -0.2];
    const { mean, deviation, farthest } = momentsOf(Float64Array.from({ length: size }, () => (u * draw()) ** 2 / L));
    expect(mean / plain(squareOffset)(u, L)).toBeCloseTo(1, 1.7);
    expect(deviation / Math.abs(plain(squareSpread)(u, kurtosis, L))).toBeCloseTo(1, 1.7);
    if (limit === undefined) return;
    const most = plain(squareLimit)(limit * u, u, L);
    expect(farthest / most).toBeGreaterThan(0.98);
    expect(farthest / most).toBeLessThan(1.01);
  });

  it.each(shapes)('products of independent %s and rectangular values', (_, draw, limit) => {
    const [u, w, L] = [3e-3, 2e-3, 0.2];
    const drawn = Float64Array.from({ length: size }, () => (u * draw() * w * Math.sqrt(3) * (2 * random() - 1)) / L);
    const { mean, deviation, farthest } = momentsOf(drawn);
    expect(Math.abs(mean)).toBeLessThan((5 * deviation) / Math.sqrt(size));
    expect(deviation / plain(productSpread)(u, w, 0, L)).toBeCloseTo(1, 1.7);
    if (limit === undefined) return;
    const most = plain(productLimit)(limit * u, Math.sqrt(3) * w, L);
    expect(farthest / most).toBeGreaterThan(0.97);
    expect(farthest / most).toBeLessThanOrEqual(1.001);
  });

  it.each([0.9, -0.5])('products of normal values that are correlated by %f', (r) => {
    const [u, w, L] = [3e-3, 2e-3, 0.2];
    const drawn = Float64Array.from({ length: size }, () => {
      const x = normal();
      return (u * x * w * (r * x + Math.sqrt(1 - r * r) * normal())) / L;
    });
    const { mean, deviation } = momentsOf(drawn);
    expect(mean / plain(productOffset)(u, w, r, L)).toBeCloseTo(1, 1.7);
    expect(deviation / plain(productSpread)(u, w, r, L)).toBeCloseTo(1, 1.7);
  });
});

it('correlated products drawn many times have the correlation of the closed form', () => {
  // x, y and z of three normal values: x with y by 0.6, x with z by -0.3, y with z by what both leave.
  const [xy, xz, yz] = [0.6, -0.3, 0.4];
  const under = (yz - xy * xz) / Math.sqrt(1 - xy ** 2);
  const pairs = Array.from({ length: size }, () => {
    const [a, b, c] = [normal(), normal(), normal()];
    const y = xy * a + Math.sqrt(1 - xy ** 2) * b;
    const z = xz * a + under * b + Math.sqrt(1 - xz ** 2 - under ** 2) * c;
    return [a * y, y * z, z * z, a] as const;
  });
  const of = (at: 0 | 1 | 2 | 3) => momentsOf(Float64Array.from(pairs, (each) => each[at]));
  const found = (one: 0 | 1 | 2 | 3, other: 0 | 1 | 2 | 3) => {
    const [x, y] = [of(one), of(other)];
    const common = pairs.reduce((sum, each) => sum + (each[one] - x.mean) * (each[other] - y.mean), 0) / size;
    return common / x.deviation / y.deviation;
  };
  const closed = plain(productCorrelation);
  expect(Math.abs(found(0, 1) - closed(xy, yz, xz, 1, xy, yz))).toBeLessThan(0.01);
  expect(Math.abs(found(0, 2) - closed(xz, yz, xz, yz, xy, 1))).toBeLessThan(0.01);
  expect(closed(xy, 1, 1, xy, xy, xy)).toBeGreaterThan(0);
  // A normal value and a product of such are not correlated, though not independent.
  expect(Math.abs(found(3, 0))).toBeLessThan(0.01);
});

it('the share of the second order is all of it where there is no first', () => {
  expect(plain(allSecondShare)(0, 3e-6)).toBe(1);
  expect(plain(allSecondShare)(3e-6, 3e-6)).toBe(0);
  expect(plain(allSecondShare)(3e-6, 5e-6)).toBeCloseTo(16 / 25, 12);
});
