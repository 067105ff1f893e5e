// What a missed update does, against a motion that is walked on while the drive holds or extrapolates.
import { describe, expect, it } from 'vitest';
import { q } from '../../working/testing.support.ts';
import { extrapolatedAlong, extrapolatedAround, heldAlong, heldAround } from './missed-update.ts';

const steps = 20_000;

/** Where the master goes, and a drive that holds and one that extrapolates: in small steps of equal speed. */
function walked(
  speed: number,
  acceleration: number,
  time: number,
): { readonly held: number; readonly extrapolated: number } {
  const step = time / steps;
  let [master, drive] = [0, 0];
  for (let at = 0; at < steps; at++) {
    master += (speed + acceleration * (at + 0.5) * step) * step;
    drive += speed * step;
  }
  return { held: master, extrapolated: master - drive };
}

describe('a missed update', () => {
  it.each([
    [2, 10, 1e-3],
    [0.5, -30, 8e-3],
    [0, 5, 0.1],
  ])('motion walked while updates are missing: %f/s and %f/s² for %f s', (speed, acceleration, time) => {
    const { held, extrapolated } = walked(speed, acceleration, time);
    const t = q(time, 's');
    const [v, a] = [q(speed, 'm/s'), q(acceleration, 'm/s²')];
    expect(heldAlong({ v, t, a }, 'test').value).toBeCloseTo(held, 12);
    expect(extrapolatedAlong({ a, t }, 'test').value).toBeCloseTo(extrapolated, 12);
    const [ω, α] = [q(speed, 'rad/s'), q(acceleration, 'rad/s²')];
    expect(heldAround({ v: ω, t, a: α }, 'test').value).toBeCloseTo(held, 12);
    expect(extrapolatedAround({ a: α, t }, 'test').value).toBeCloseTo(extrapolated, 12);
  });
});
