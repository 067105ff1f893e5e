// A crank against a published example, and how far its series is from the exact speed.
import { expect, it } from 'vitest';
import { q } from '../../working/testing.support.ts';
import { crankKernels, crankTransmission, crankVelocitySeries } from './crank.ts';

const [r, l, ω] = [0.3, 1, (200 * Math.PI) / 30];
const crank = { r: q(r, 'm'), l: q(l, 'm') };
const degrees = (φ: number) => (φ * 180) / Math.PI;
const series = (φ: number) => crankVelocitySeries({ ...crank, φ: q(φ, 'rad'), ω: q(ω, 'rad/s') }, 'test').value;
const exact = (φ: number) => ω * crankTransmission({ ...crank, φ: q(φ, 'rad') }, 'test').value;

/** The angle of the highest value between the dead points, at hundredths of a degree. */
const fastest = (speed: (φ: number) => number) =>
  Array.from({ length: 18_001 }, (_, at) => (at * Math.PI) / 18_000).reduce((best, φ) =>
    speed(φ) > speed(best) ? φ : best,
  );

it('S8 (read): Khurmi and Gupta, Theory of Machines, ex. 15.3: 0.3 m, 1 m, 200 rpm: fastest at 75°, with 6.54 m/s', () => {
  const at = fastest(series);
  expect(degrees(at)).toBeCloseTo(75, 0);
  expect(series(at)).toBeCloseTo(6.54, 2);
});

it('S8 derived, exact: fastest at 74.5°, with 6.56 m/s, where the series is 0.3 % too slow', () => {
  const at = fastest(exact);
  expect(degrees(at)).toBeCloseTo(74.5, 1);
  expect(Math.abs(crankKernels.curvature_m(r, l, at))).toBeLessThan(1e-4);
  expect(exact(at)).toBeCloseTo(6.56, 2);
  expect(1 - series(at) / exact(at)).toBeCloseTo(0.003, 3);
});
