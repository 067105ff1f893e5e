// A sliding screw: its efficiencies against its torques, and the friction of leaning flanks against the forces on a block.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import { screwLowering, screwRaising } from './load.ts';
import { flankFriction, slidingScrewDriven, slidingScrewDriving } from './screw-friction.ts';
import { screwTorque } from './transform.ts';

const about = 'test';

describe('a sliding screw', () => {
  it('the efficiencies of a sliding screw are those of its torques', () => {
    const random = seeded(7);
    const between = (least: number, most: number) => least + (most - least) * random();
    const seen = new Set<boolean>();
    for (let run = 0; run < 500; run++) {
      const [p, d] = [q(between(0.001, 0.04), 'm'), q(between(0.008, 0.1), 'm')];
      const [μ, κ, D] = [q(between(0, 0.3), '1'), q(between(0, 0.2), '1'), q(between(0.01, 0.1), 'm')];
      const F = q(between(10, 1e4), 'N');
      const torques = { F, d, p, μ, κ, r: q(D.value / 2, 'm') };
      const free = screwTorque({ F, p }, about).value;
      const sizes = { p, d, μ, κ, D };
      expect(free / slidingScrewDriving(sizes, about).value / screwRaising(torques, about).value).toBeCloseTo(1, 12);
      const back = slidingScrewDriven(sizes, about).value;
      const lowering = screwLowering(torques, about).value;
      expect(Math.abs(free * back + lowering)).toBeLessThan(1e-12 * (free + Math.abs(lowering)));
      seen.add(back < 0);
    }
    expect(seen.size).toBe(2);
  });

  it('a block in a groove rubs on both of its flanks', () => {
    // Two flanks, each leaning by β, one to either side: their normal forces carry the load and cancel across it.
    for (const [load, μ, β] of [
      [700, 0.15, Math.PI / 12],
      [20, 0.08, 0.5],
    ] as const) {
      const normal = load / (2 * Math.cos(β));
      expect(2 * normal * Math.cos(β)).toBeCloseTo(load, 9);
      expect(flankFriction({ μ: q(μ, '1'), β: q(β, 'rad') }, about).value * load).toBeCloseTo(2 * μ * normal, 9);
    }
  });
});
