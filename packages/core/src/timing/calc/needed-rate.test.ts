// Needed cycles against motions that are sampled, loops that are integrated, buffers that are filled; and there and back.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import type { Unit } from '../../units/si.ts';
import type { Quantity } from '../../working/quantity.ts';
import { q } from '../../working/testing.support.ts';
import { angleGone, timeForAngle, timeForWay, wayGone } from './lead.ts';
import {
  angleLag,
  carriedAngleLag,
  carriedWayLag,
  cubicAngleError,
  cubicWayError,
  cycleForAngleLag,
  cycleForBandwidth,
  cycleForCubicAngle,
  cycleForCubicWay,
  cycleForLinearAngle,
  cycleForLinearWay,
  cycleForSpeedJump,
  cycleForTurningJump,
  cycleForWayLag,
  gainMismatchAngle,
  gainMismatchWay,
  linearAngleError,
  linearWayError,
  mismatchForAngle,
  mismatchForWay,
  sampledBandwidth,
  speedJumpOfTurning,
  speedJumpOnWay,
  wayLag,
} from './needed-rate.ts';
import { jitterForTorque, jitterTorque, longestSilence, periodForWatchdog } from './signal-rate.ts';

const about = 'test';
const s = (value: number) => q(value, 's');

it('the bound on linear interpolation, sine between π/4 and π/2: Pang p. 17 bounds 0.0771, and 0.0704 is true', () => {
  const T = Math.PI / 4;
  expect(linearWayError({ a: q(1, 'm/s²'), T: s(T) }, about).value).toBeCloseTo(0.0771, 4);
  expect(linearAngleError({ a: q(1, 'rad/s²'), T: s(T) }, about).value).toBeCloseTo(0.0771, 4);
  const line = (x: number) => Math.sin(T) + ((x - T) / T) * (1 - Math.sin(T));
  const errors = Array.from({ length: 10_001 }, (_, at) => T + (at / 10_000) * T).map((x) => Math.sin(x) - line(x));
  expect(Math.max(...errors)).toBeCloseTo(0.0704, 4);
});

it('cubic curves between samples of a sine err by no more, and nearly as much', () => {
  const [omega, amplitude] = [40, 0.05];
  const a = amplitude * omega ** 2;
  for (const T of [2e-3, 5e-3, 10e-3]) {
    const x = (t: number) => amplitude * Math.sin(omega * t);
    const v = (t: number) => amplitude * omega * Math.cos(omega * t);
    let worst = 0;
    // Around the crest the fourth derivative is at its highest.
    for (let at = 0; at <= 400; at++) {
      const start = Math.PI / 2 / omega - T / 2;
      const u = at / 400;
      const curve =
        (1 + 2 * u) * (1 - u) ** 2 * x(start) +
        u * (1 - u) ** 2 * T * v(start) +
        u ** 2 * (3 - 2 * u) * x(start + T) +
        u ** 2 * (u - 1) * T * v(start + T);
      worst = Math.max(worst, Math.abs(curve - x(start + u * T)));
    }
    for (const bound of [
      cubicWayError({ a: q(a, 'm/s²'), ω: q(omega, 'rad/s'), T: s(T) }, about).value,
      cubicAngleError({ a: q(a, 'rad/s²'), ω: q(omega, 'rad/s'), T: s(T) }, about).value,
    ]) {
      expect(worst).toBeLessThanOrEqual(bound * (1 + 1e-6));
      expect(worst).toBeGreaterThan(0.97 * bound);
    }
  }
});

it('setpoints of a ramp step by acceleration times cycle', () => {
  const speeds = [0, 1, 2, 3].map((cycle) => 7 * cycle * 2e-3);
  const step = speedJumpOnWay({ a: q(7, 'm/s²'), T: s(2e-3) }, about).value;
  for (const [at, speed] of speeds.slice(1).entries()) expect(speed - speeds[at]!).toBeCloseTo(step, 15);
  expect(speedJumpOfTurning({ a: q(7, 'rad/s²'), T: s(2e-3) }, about).value).toBe(step);
});

it('dead time: 1 ms leaves 125 Hz at 45°, 83.3 Hz at 60°, derived; in cycles and beside them alike', () => {
  const at = (degrees: number, n: number, T: number, d: number) =>
    sampledBandwidth({ φ: q((degrees * Math.PI) / 180, 'rad'), n: q(n, '1'), T: s(T), d: s(d) }, about).value;
  expect(at(45, 2, 0.5e-3, 0)).toBeCloseTo(125, 9);
  expect(at(60, 1.5, 0.5e-3, 0.25e-3)).toBeCloseTo(83.3, 1);
});

/** A master, then buffers that each hold a value for a cycle; what comes out right after the last of them changes. */
function behindBuffers(n: number, T: number, position: (t: number) => number): { lag: number; carried: number } {
  const buffers: number[] = [];
  const speeds: number[] = [];
  let last = { lag: 0, carried: 0 };
  for (let cycle = 1; cycle <= 20; cycle++) {
    const now = cycle * T;
    buffers.unshift(position(now));
    // The exact speed at the instant of the value.
    speeds.unshift((position(now + 1e-6) - position(now - 1e-6)) / 2e-6);
    if (buffers.length <= n) continue;
    const lag = position(now) - buffers[n]!;
    last = { lag, carried: lag - speeds[n]! * n * T };
  }
  return last;
}

it('a follower behind buffers lags by what they hold: one cycle of 1 ms at 5 m/s is 5 mm', () => {
  const one = { n: q(1, '1'), T: s(1e-3), d: s(0) };
  expect(wayLag({ v: q(5, 'm/s'), ...one }, about).value).toBeCloseTo(5e-3, 12);
  for (const n of [1, 2, 5]) {
    const held = { n: q(n, '1'), T: s(2e-3), d: s(0) };
    const steady = behindBuffers(n, 2e-3, (t) => 3 * t);
    expect(wayLag({ v: q(3, 'm/s'), ...held }, about).value).toBeCloseTo(steady.lag, 12);
    expect(angleLag({ v: q(3, 'rad/s'), ...held }, about).value).toBeCloseTo(steady.lag, 12);
    // What is beside the cycles delays just the same.
    const beside = { n: q(n - 1, '1'), T: s(2e-3), d: s(2e-3) };
    expect(wayLag({ v: q(3, 'm/s'), ...beside }, about).value).toBeCloseTo(steady.lag, 12);
    const ramp = behindBuffers(n, 2e-3, (t) => 4 * t ** 2);
    expect(carriedWayLag({ a: q(8, 'm/s²'), ...held }, about).value).toBeCloseTo(ramp.carried, 8);
    expect(carriedAngleLag({ a: q(8, 'rad/s²'), ...beside }, about).value).toBeCloseTo(ramp.carried, 8);
  }
});

it('two position loops that are integrated part by their gains', () => {
  const [v, k, l] = [2, 40, 90];
  const behind = (gain: number): number => {
    let position = 0;
    const dt = 1e-4;
    for (let step = 0; step < 20_000; step++) position += dt * gain * (v * step * dt - position);
    return v * 20_000 * dt - position;
  };
  const parted = behind(k) - behind(l);
  const gains = { k: q(k, '1/s'), l: q(l, '1/s') };
  expect(gainMismatchWay({ v: q(v, 'm/s'), ...gains }, about).value).toBeCloseTo(parted, 6);
  expect(gainMismatchAngle({ v: q(v, 'rad/s'), l: gains.k, k: gains.l }, about).value).toBeCloseTo(parted, 6);
});

describe('a cycle that is asked for what it allows', () => {
  const random = seeded(60);
  const draw = <U extends Unit>(least: number, most: number, unit: U): Quantity<U> =>
    q(least + random() * (most - least), unit);
  const near = (found: Quantity, expected: Quantity): void => {
    expect(found.unit).toBe(expected.unit);
    expect(found.value / expected.value).toBeCloseTo(1, 12);
  };

  it('what is allowed gives back what it was asked for', () => {
    for (let at = 0; at < 50; at++) {
      const T = draw(1e-4, 1e-2, 's');
      const [a, α] = [draw(0.1, 100, 'm/s²'), draw(0.1, 100, 'rad/s²')];
      const [v, ω] = [draw(0.1, 10, 'm/s'), draw(1, 100, 'rad/s')];
      const [n, d] = [q(1 + Math.floor(random() * 5), '1'), draw(0, 1e-3, 's')];
      near(cycleForLinearWay({ e: linearWayError({ a, T }, about), a }, about), T);
      near(cycleForLinearAngle({ e: linearAngleError({ a: α, T }, about), a: α }, about), T);
      near(cycleForCubicWay({ e: cubicWayError({ a, ω, T }, about), a, ω }, about), T);
      near(cycleForCubicAngle({ e: cubicAngleError({ a: α, ω, T }, about), a: α, ω }, about), T);
      near(cycleForSpeedJump({ v: speedJumpOnWay({ a, T }, about), a }, about), T);
      near(cycleForTurningJump({ v: speedJumpOfTurning({ a: α, T }, about), a: α }, about), T);
      const φ = draw(0.5, 1.2, 'rad');
      near(cycleForBandwidth({ φ, f: sampledBandwidth({ φ, n, T, d }, about), n, d }, about), T);
      near(cycleForWayLag({ e: wayLag({ v, n, T, d }, about), v, n, d }, about), T);
      near(cycleForAngleLag({ e: angleLag({ v: ω, n, T, d }, about), v: ω, n, d }, about), T);
      near(timeForWay({ e: wayGone({ v, t: T }, about), v }, about), T);
      near(timeForAngle({ e: angleGone({ v: ω, t: T }, about), v: ω }, about), T);
      const J = draw(1e-4, 1e-1, 'kg·m²');
      near(jitterForTorque({ M: jitterTorque({ J, ω, j: d, T }, about), T, J, ω }, about), d);
      const lost = q(Math.floor(random() * 4), '1');
      near(periodForWatchdog({ W: longestSilence({ k: lost, T, j: d }, about), j: d, k: lost }, about), T);
      // The lower gain is the higher one less the share that is allowed.
      const k = draw(20, 200, '1/s');
      const share = draw(0.01, 0.5, '1');
      const l = q(k.value * (1 - share.value), '1/s');
      near(mismatchForWay({ e: gainMismatchWay({ v, k, l }, about), k, v }, about), share);
      near(mismatchForAngle({ e: gainMismatchAngle({ v: ω, k, l }, about), k, v: ω }, about), share);
    }
  });
});
