// What a stage loses, driving and driven: the balance of energy, and a screw whose friction is known.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import { lossOfLoad, lossOfLoadAndInertia, stageLoss, torquePower } from './efficiency.ts';
import { screwLowering, screwRaising } from './load.ts';
import { screwTorque } from './transform.ts';

const about = 'test';
const ω = q(40, 'rad/s');
const loss = (T: number, η: number, ζ = η) => lossOfLoad({ T: q(T, 'N·m'), η: q(η, '1'), ζ: q(ζ, '1') }, about);

describe('a stage', () => {
  it('takes T/η of a motor that drives and leaves T·ζ of a load that drives', () => {
    expect(18 + loss(18, 0.9, 0.8).value).toBeCloseTo(20, 12);
    expect(-20 + loss(-20, 0.9, 0.8).value).toBeCloseTo(-16, 12);
    expect(loss(0, 0.9).value).toBe(0);
  });

  it('turns power into heat and never heat into power', () => {
    const random = seeded(5);
    for (let draw = 0; draw < 500; draw++) {
      const [T, A] = [q(200 * random() - 100, 'N·m'), q(200 * random() - 100, 'N·m')];
      const [η, ζ] = [q(0.05 + 0.95 * random(), '1'), q(1.5 * random() - 0.5, '1')];
      const lost = lossOfLoadAndInertia({ T, A, η, ζ }, about);
      const heat = torquePower({ T: lost, ω }, about).value;
      expect(heat).toBeGreaterThanOrEqual(0);
      const beyond = (T.value + A.value) * ω.value;
      const motor = (T.value + A.value + lost.value) * ω.value;
      // Whichever side gives the power, the other gets the share that the efficiency says.
      const [given, got, efficiency] = beyond > 0 ? [motor, beyond, η.value] : [-beyond, -motor, ζ.value];
      expect(got).toBeCloseTo(efficiency * given, 9);
      expect(given - got).toBeCloseTo(heat, 9);
    }
  });

  it('without loss gives on what it takes', () => {
    expect([-7, 7].map((T) => loss(T, 1).value)).toEqual([0, 0]);
  });

  it('loses of the torque for acceleration only where the train says so', () => {
    const passing = { T: q(6, 'N·m'), A: q(12, 'N·m'), η: q(0.75, '1'), ζ: q(0.75, '1') };
    expect(stageLoss(passing, 'load', about).value).toBeCloseTo(2, 12);
    expect(stageLoss(passing, 'load_and_inertia', about).value).toBeCloseTo(6, 12);
    expect(stageLoss({ ...passing, A: q(0, 'N·m') }, 'load_and_inertia', about).value).toBeCloseTo(2, 12);
    // Braking: 6 N·m of friction help, and 6 of the 12 N·m come through, less a quarter.
    const braking = { ...passing, A: q(-12, 'N·m') };
    expect(-6 + stageLoss(braking, 'load_and_inertia', about).value).toBeCloseTo(-4.5, 12);
  });

  it.each([
    ['one that the load can turn', 0.03],
    ['one that locks itself', 0.3],
  ])('loses what the friction of a sliding screw takes, raising and lowering: %s', (_, μ) => {
    const screw = { F: q(5000, 'N'), d: q(0.03, 'm'), p: q(0.01, 'm') };
    const slope = Math.atan(0.01 / (Math.PI * 0.03));
    const friction = Math.atan(μ);
    const η = Math.tan(slope) / Math.tan(slope + friction);
    const ζ = Math.tan(slope - friction) / Math.tan(slope);
    const T = screwTorque(screw, about).value;
    const rubbing = { ...screw, μ: q(μ, '1'), κ: q(0, '1'), r: q(0.01, 'm') };
    expect(T + loss(T, η, ζ).value).toBeCloseTo(screwRaising(rubbing, about).value, 9);
    expect(-T + loss(-T, η, ζ).value).toBeCloseTo(screwLowering(rubbing, about).value, 9);
    expect(screwLowering(rubbing, about).value > 0).toBe(ζ < 0);
  });
});
