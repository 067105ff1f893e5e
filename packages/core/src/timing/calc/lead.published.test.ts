// Position errors of times and clocks against published figures; arithmetic on a source's inputs is called derived.
import { expect, it } from 'vitest';
import { q } from '../../working/testing.support.ts';
import { angleGone, clockDrift, wayGone } from './lead.ts';

it('J1: Olson 2010, sensor synchronisation: 90°/s for 10 ms move a point at 10 m by 15.7 cm', () => {
  const angle = angleGone({ v: q(Math.PI / 2, 'rad/s'), t: q(10e-3, 's') }, 'test').value;
  expect(10 * angle).toBeCloseTo(0.1571, 4);
});

it('J2 (derived): 10 m/s for 1 µs are 10 µm', () =>
  expect(wayGone({ v: q(10, 'm/s'), t: q(1e-6, 's') }, 'test').value).toBeCloseTo(10e-6, 12));

it('J3 (derived): 200 ppm over 500 µs are 100 ns, inputs of the clock drift showcase of INET', () =>
  expect(clockDrift({ p: q(200e-6, '1'), t: q(500e-6, 's') }, 'test').value).toBeCloseTo(100e-9, 15));
