// Loops against their own equations: a position loop integrated, the phase of an open loop with dead time.
import { describe, expect, it } from 'vitest';
import { q } from '../../working/testing.support.ts';
import { countedTurningAcceleration, countedTurningStep, encoderAngle } from './encoder.ts';
import { deadTimeBandwidth, followingAngle, followingWay } from './following.ts';
import { accelerationTorque } from './load.ts';

const about = 'test';
const bandwidth = (margin_deg: number, tau: number) =>
  deadTimeBandwidth({ φ: q((margin_deg * Math.PI) / 180, 'rad'), τ: q(tau, 's') }, about).value;

it('a position loop that is integrated settles behind its setpoint', () => {
  for (const [v, k, f] of [
    [1.5, 20, 0],
    [-0.3, 60, 0],
    [2, 40, 0.9],
    [2, 40, 1],
  ] as const) {
    const step = 1e-3 / k;
    let error = 0;
    for (let at = 0; at < 40_000; at++) error += step * (v - (f * v + k * error));
    const loop = { f: q(f, '1'), k: q(k, '1/s') };
    expect(followingWay({ v: q(v, 'm/s'), ...loop }, about).value).toBeCloseTo(error, 12);
    expect(followingAngle({ v: q(v, 'rad/s'), ...loop }, about).value).toBeCloseTo(error, 12);
  }
});

describe('a dead time', () => {
  it.each([
    [45, 125],
    [60, 83.3],
  ])('derived: of 1 ms leaves a bandwidth, at a margin of %f°, of %f Hz', (margin, due) => {
    expect(Math.abs(bandwidth(margin, 1e-3) - due)).toBeLessThan(0.05);
  });

  it('a loop with dead time has its margin at this frequency: phase of k·exp(−s·τ)/s where its size is 1', () => {
    for (const margin of [20, 45, 60, 80])
      for (const tau of [1e-4, 3e-3]) {
        const w = 2 * Math.PI * bandwidth(margin, tau);
        // With the gain w the size is 1 at w; the loop at s = jw is w·(cos wτ − j·sin wτ)/(jw).
        const [real, imaginary] = [-Math.sin(w * tau), -Math.cos(w * tau)];
        expect(Math.hypot(real, imaginary)).toBeCloseTo(1, 12);
        expect(180 + (Math.atan2(imaginary, real) * 180) / Math.PI).toBeCloseTo(margin, 9);
      }
  });
});

it('derived: counts of an encoder step the speed by 60/(N·T) rpm, and cost the torque J·Δω/T', () => {
  const T = q(250e-6, 's');
  const s = countedTurningStep({ w: encoderAngle({ W: q(2 * Math.PI, 'rad'), n: q(8192, '1') }, about), T }, about);
  expect((s.value * 30) / Math.PI).toBeCloseTo(60 / (8192 * 250e-6), 9);
  const α = countedTurningAcceleration({ s, T }, about);
  expect(accelerationTorque({ J: q(2e-3, 'kg·m²'), α }, about).value).toBeCloseTo((2e-3 * s.value) / 250e-6, 9);
});
