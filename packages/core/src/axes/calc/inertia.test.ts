// Inertias against bodies cut into small masses, and their laws of scale.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import {
  cylinderBore,
  cylinderMass,
  hollowCylinderInertia,
  inertiaAtRadius,
  offAxisInertia,
  solidCylinderInertia,
} from './inertia.ts';

const about = 'test';
const steel = q(7850, 'kg/m³');

const hollow = (D_m: number, d_m: number, l_m: number) => {
  const body = { D: q(D_m, 'm'), d: q(d_m, 'm') };
  return hollowCylinderInertia({ m: cylinderMass({ ρ: steel, l: q(l_m, 'm'), ...body }, about), ...body }, about).value;
};

describe('cylinders', () => {
  it.each([
    [0.2, 0],
    [0.2, 0.18],
    [0.03, 0.01],
  ])('rings of mass add up to the inertia of a cylinder: %f m with a bore of %f m', (D, d) => {
    const count = 10_000;
    const width = (D - d) / 2 / count;
    let sum = 0;
    for (let at = 0; at < count; at++) {
      const r = d / 2 + (at + 0.5) * width;
      sum += inertiaAtRadius({ m: q(steel.value * 0.4 * 2 * Math.PI * r * width, 'kg'), r: q(r, 'm') }, about).value;
    }
    expect(hollow(D, d, 0.4) / sum).toBeCloseTo(1, 7);
  });

  it('a tube is the outer cylinder less the inner one', () => {
    const D = q(0.12, 'm');
    const bore = cylinderBore({ D, w: q(0.008, 'm') }, about);
    expect(bore.value).toBeCloseTo(0.104, 12);
    expect(hollow(D.value, bore.value, 0.42) / (hollow(0.12, 0, 0.42) - hollow(0.104, 0, 0.42))).toBeCloseTo(1, 12);
  });

  it('a hollow cylinder without a bore is a solid one, a thin tube has all mass at its radius', () => {
    const m = q(3, 'kg');
    const D = q(0.3, 'm');
    expect(hollowCylinderInertia({ m, D, d: q(0, 'm') }, about).value).toBe(
      solidCylinderInertia({ m, D }, about).value,
    );
    expect(hollowCylinderInertia({ m, D, d: D }, about).value).toBeCloseTo(
      inertiaAtRadius({ m, r: q(0.15, 'm') }, about).value,
      12,
    );
  });

  it('inertia grows with the fourth power of the diameter and the first of the length', () => {
    const random = seeded(7);
    for (let draw = 0; draw < 100; draw++) {
      const [D, share, factor] = [0.01 + random(), 0.9 * random(), 0.5 + 2 * random()];
      const one = hollow(D, share * D, 0.4);
      expect(hollow(factor * D, factor * share * D, 0.4) / one).toBeCloseTo(factor ** 4, 9);
      expect(hollow(D, share * D, factor * 0.4) / one).toBeCloseTo(factor, 9);
    }
  });
});

it('points of mass add up to the inertia beside the axis', () => {
  const random = seeded(11);
  const points = Array.from({ length: 50 }, () => ({ m: random(), x: random() - 0.5, y: random() - 0.5 }));
  const m = points.reduce((sum, point) => sum + point.m, 0);
  const x = points.reduce((sum, point) => sum + point.m * point.x, 0) / m;
  const y = points.reduce((sum, point) => sum + point.m * point.y, 0) / m;
  const about_kgm2 = (x0: number, y0: number) =>
    points.reduce((sum, point) => sum + point.m * ((point.x - x0) ** 2 + (point.y - y0) ** 2), 0);
  const shifted = offAxisInertia(
    { J: q(about_kgm2(x, y), 'kg·m²'), m: q(m, 'kg'), r: q(Math.hypot(x - 3, y + 2), 'm') },
    about,
  );
  expect(shifted.value).toBeCloseTo(about_kgm2(3, -2), 9);
});
