// What a stage without loss keeps: power, and the energy of motion.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import { torquePower } from './efficiency.ts';
import { inertiaAtScrew, inertiaBySpeeds, inertiaOnWheel, reflectedInertia } from './inertia.ts';
import { accelerationForce, accelerationTorque } from './load.ts';
import {
  gearAcceleration,
  gearSpeed,
  gearTorque,
  screwAcceleration,
  screwSpeed,
  screwTorque,
  torqueBySpeeds,
  wheelAcceleration,
  wheelSpeed,
  wheelTorque,
} from './transform.ts';

const about = 'test';
const random = seeded(3);
const between = (least: number, most: number) => least + random() * (most - least);
const draws = Array.from({ length: 200 }, () => ({
  F: q(between(-500, 500), 'N'),
  T: q(between(-50, 50), 'N·m'),
  v: q(between(0.01, 3), 'm/s'),
  a: q(between(-10, 10), 'm/s²'),
  α: q(between(-90, 90), 'rad/s²'),
  ω: q(between(0.1, 30), 'rad/s'),
  m: q(between(0.1, 90), 'kg'),
  J: q(between(0.001, 5), 'kg·m²'),
  i: q(between(0.2, 60), '1'),
  p: q(between(0.002, 0.05), 'm'),
  D: q(between(0.02, 0.6), 'm'),
}));

const same = (one: number, other: number) => expect(Math.abs(one - other)).toBeLessThanOrEqual(1e-12 * Math.abs(other));

describe('a ratio without loss', () => {
  it('keeps the power', () => {
    for (const { F, T, v, ω, i, p, D } of draws) {
      const turned = { T: gearTorque({ T, i }, about), ω: gearSpeed({ i, ω }, about) };
      same(torquePower(turned, about).value, T.value * ω.value);
      const screwed = { T: screwTorque({ F, p }, about), ω: screwSpeed({ v, p }, about) };
      same(torquePower(screwed, about).value, F.value * v.value);
      const wheeled = { T: wheelTorque({ F, D }, about), ω: wheelSpeed({ v, D }, about) };
      same(torquePower(wheeled, about).value, F.value * v.value);
      same(torqueBySpeeds({ F, v, ω: wheeled.ω }, about).value, wheeled.T.value);
    }
  });

  it('keeps the energy of motion', () => {
    for (const { v, ω, m, J, i, p, D } of draws) {
      same(reflectedInertia({ J, i }, about).value * gearSpeed({ i, ω }, about).value ** 2, J.value * ω.value ** 2);
      same(inertiaAtScrew({ m, p }, about).value * screwSpeed({ v, p }, about).value ** 2, m.value * v.value ** 2);
      const fast = wheelSpeed({ v, D }, about);
      same(inertiaOnWheel({ m, D }, about).value * fast.value ** 2, m.value * v.value ** 2);
      same(inertiaBySpeeds({ m, v, ω: fast }, about).value, inertiaOnWheel({ m, D }, about).value);
    }
  });

  it('gives the torque for acceleration on either side', () => {
    for (const { a, α, m, J, i, p, D } of draws) {
      const F = accelerationForce({ m, a }, about);
      const geared = { J: reflectedInertia({ J, i }, about), α: gearAcceleration({ i, α }, about) };
      const screwed = { J: inertiaAtScrew({ m, p }, about), α: screwAcceleration({ a, p }, about) };
      const wheeled = { J: inertiaOnWheel({ m, D }, about), α: wheelAcceleration({ a, D }, about) };
      same(
        accelerationTorque(geared, about).value,
        gearTorque({ T: accelerationTorque({ J, α }, about), i }, about).value,
      );
      same(accelerationTorque(screwed, about).value, screwTorque({ F, p }, about).value);
      same(accelerationTorque(wheeled, about).value, wheelTorque({ F, D }, about).value);
    }
  });

  it('takes a revolution for a lead or a circumference: a screw of lead π·D is a wheel of diameter D', () => {
    for (const { F, v, D } of draws) {
      const p = q(Math.PI * D.value, 'm');
      same(screwTorque({ F, p }, about).value, wheelTorque({ F, D }, about).value);
      same(screwSpeed({ v, p }, about).value, wheelSpeed({ v, D }, about).value);
    }
    expect(screwSpeed({ v: q(0.01, 'm/s'), p: q(0.01, 'm') }, about).value).toBe(2 * Math.PI);
  });

  it('shows the slip that takes inertia through one gear stage and torque through two', () => {
    const i = q(5, '1');
    const J = q(2, 'kg·m²');
    const α = q(3, 'rad/s²');
    const T = gearTorque({ T: accelerationTorque({ J, α }, about), i }, about).value;
    const slip = reflectedInertia({ J, i }, about).value * gearAcceleration({ i: q(25, '1'), α }, about).value;
    expect(slip / T).toBeCloseTo(i.value, 12);
  });
});
