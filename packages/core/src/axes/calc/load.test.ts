// Loads against energies, forces in balance and integrated motions.
import { describe, expect, it } from 'vitest';
import { q } from '../../working/testing.support.ts';
import {
  gravityForce,
  runningFrictionForce,
  runningFrictionTorque,
  screwLowering,
  screwRaising,
  slideFriction,
  startingFrictionForce,
  startingFrictionTorque,
  webForce,
} from './load.ts';
import { strainAfterDraw, webTension } from './winder.ts';

const about = 'test';
const g = q(9.80665, 'm/s²');

it.each([
  [0, 0],
  [0.4, 12],
  [-0.4, -12],
  [Math.PI / 2, 30],
])('the work against gravity is the energy of the heights: %f rad, counterweight %f kg', (φ, c) => {
  const way = 2.5;
  const rise = way * Math.cos(Math.PI / 2 - φ);
  const energy = 30 * g.value * rise - c * g.value * way;
  const force = gravityForce({ g, m: q(30, 'kg'), φ: q(φ, 'rad'), c: q(c, 'kg') }, about).value;
  expect(force * way).toBeCloseTo(energy, 9);
});

describe('friction', () => {
  it('on the slope of the friction angle a mass stays at speed', () => {
    const down = { g, m: q(8, 'kg'), φ: q(-Math.atan(0.15), 'rad') };
    const friction = (N: number) => slideFriction({ μ: q(0.15, '1'), N: q(N, 'N'), ...down }, about).value;
    expect(friction(0) + gravityForce({ c: q(0, 'kg'), ...down }, about).value).toBeCloseTo(0, 12);
    expect(friction(200) - friction(0)).toBeCloseTo(30, 9);
  });

  it('a body that only friction brakes comes to rest when it should', () => {
    const [m, C, b] = [4, 10, 5];
    const force = (v: number) => runningFrictionForce({ C: q(C, 'N'), b: q(b, 'N·s/m'), v: q(v, 'm/s') }, about).value;
    const torque = (ω: number) =>
      runningFrictionTorque({ C: q(C, 'N·m'), b: q(b, 'N·m·s/rad'), v: q(ω, 'rad/s') }, about).value;
    // Fourth-order Runge and Kutta to the time that the differential equation, solved, gives for standstill.
    const end = (m / b) * Math.log(1 + (b * 3) / C);
    for (const against of [force, torque]) {
      const steps = 200;
      const h = end / steps;
      let v = 3;
      for (let step = 0; step < steps; step++) {
        const k1 = -against(v) / m;
        const k2 = -against(v + (h / 2) * k1) / m;
        const k3 = -against(v + (h / 2) * k2) / m;
        const k4 = -against(v + h * k3) / m;
        v += (h / 6) * (k1 + 2 * k2 + 2 * k3 + k4);
      }
      expect(v).toBeCloseTo(0, 9);
    }
  });

  it('moving off takes the greater of both frictions', () => {
    const force = (B: number, C: number) => startingFrictionForce({ B: q(B, 'N'), C: q(C, 'N') }, about).value;
    const torque = (B: number, C: number) => startingFrictionTorque({ B: q(B, 'N·m'), C: q(C, 'N·m') }, about).value;
    for (const start of [force, torque]) expect([start(9, 6), start(0, 6), start(6, 6)]).toEqual([9, 6, 6]);
  });
});

describe('a sliding screw', () => {
  const screw = { F: q(5000, 'N'), d: q(0.03, 'm'), p: q(0.01, 'm'), κ: q(0, '1'), r: q(0.02, 'm') };
  const slope = Math.atan(0.01 / (Math.PI * 0.03));

  /** The level force that keeps a block at speed on a plane: normal force N, friction μ·N against the motion. */
  const levelForce = (μ: number, way: 1 | -1) => {
    const N = 5000 / (Math.cos(slope) - way * μ * Math.sin(slope));
    return way * N * Math.sin(slope) + μ * N * Math.cos(slope);
  };

  it.each([0, 0.05, 0.3])('a block on an inclined plane gives the torque of a screw: friction %f', (μ) => {
    const rubbing = { ...screw, μ: q(μ, '1') };
    expect(screwRaising(rubbing, about).value).toBeCloseTo(levelForce(μ, 1) * 0.015, 9);
    expect(screwLowering(rubbing, about).value).toBeCloseTo(levelForce(μ, -1) * 0.015, 9);
  });

  it('takes the friction of its collar either way', () => {
    for (const turned of [screwRaising, screwLowering]) {
      const torque = (κ: number) => turned({ ...screw, μ: q(0.1, '1'), κ: q(κ, '1') }, about).value;
      expect(torque(0.12) - torque(0)).toBeCloseTo(0.12 * 5000 * 0.02, 9);
    }
  });
});

it('two rolls put into a web what its draw takes', () => {
  const [u, v] = [q(2, 'm/s'), q(2.01, 'm/s')];
  const ε = strainAfterDraw({ ε: q(0, '1'), δ: q(v.value / u.value - 1, '1') }, about);
  const F = webTension({ ε, E: q(3e9, 'Pa'), w: q(0.4, 'm'), h: q(50e-6, 'm') }, about);
  const slack = q(0, 'N');
  const first = webForce({ B: slack, A: F }, about).value * u.value;
  const second = webForce({ B: F, A: slack }, about).value * v.value;
  expect(first).toBeLessThan(0);
  expect(first + second).toBeCloseTo(F.value * ε.value * u.value, 9);
});
