// Rotary knives against a published example. 'Derived' says that a row is arithmetic.
import { expect, it } from 'vitest';
import { q } from '../../working/testing.support.ts';
import { registrationError, synchronousLength } from './cutter.ts';
import { wayTime } from './follow.ts';
import { wheelSpeed } from './transform.ts';

const about = 'test';
const inch = 0.0254;

it('W6 (derived): 5 m/s for 10 µs are 0.05 mm, 300 m/min for 250 µs are 1.25 mm', () => {
  const way_mm = (v: number, t: number) => 1000 * registrationError({ v: q(v, 'm/s'), t: q(t, 's') }, about).value;
  expect(way_mm(5, 10e-6)).toBeCloseTo(0.05, 12);
  expect(way_mm(300 / 60, 250e-6)).toBeCloseTo(1.25, 12);
});

it('W7 (read): a trade article on rotary knives, 2022: 3 in, one blade, 20 in/s, cuts of 4.71 in', () => {
  const D = q(3 * inch, 'm');
  const v = q(20 * inch, 'm/s');
  expect(synchronousLength({ D, n: q(1, '1') }, about).value / inch).toBeCloseTo(9.42, 2);
  expect((wheelSpeed({ v, D }, about).value * 30) / Math.PI).toBeCloseTo(127.3, 1);
  expect(wayTime({ l: q(4.71 * inch, 'm'), v }, about).value).toBeCloseTo(0.2355, 4);
});
