// What lies between setpoints, against motions that are sampled and joined again; and there and back.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import type { Unit } from '../../units/si.ts';
import type { Quantity } from '../../working/quantity.ts';
import { q } from '../../working/testing.support.ts';
import { angleGone, timeForAngle, timeForWay, wayGone } from './lead.ts';
import {
  cubicAngleError,
  cubicJumpAngleError,
  cubicJumpWayError,
  cubicWayError,
  cycleForCubicAngle,
  cycleForCubicJumpAngle,
  cycleForCubicJumpWay,
  cycleForCubicWay,
  cycleForLinearAngle,
  cycleForLinearWay,
  cycleForSpeedJump,
  cycleForTurningJump,
  linearAngleError,
  linearWayError,
  speedJumpOfTurning,
  speedJumpOnWay,
} from './setpoint-error.ts';

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

/** The farthest that the cubic through position and speed of both ends is from a motion, in one cycle. */
function cubicFrom(T: number, x: (t: number) => number, v: (t: number) => number, from: number): number {
  let worst = 0;
  for (let at = 0; at <= 200; at++) {
    const u = at / 200;
    const curve =
      (1 + 2 * u) * (1 - u) ** 2 * x(from) +
      u * (1 - u) ** 2 * T * v(from) +
      u ** 2 * (3 - 2 * u) * x(from + T) +
      u ** 2 * (u - 1) * T * v(from + T);
    worst = Math.max(worst, Math.abs(curve - x(from + u * T)));
  }
  return worst;
}

describe('cubic curves between setpoints err by no more than their bound', () => {
  const [a, j] = [8, 400];
  const bound = (T: number) => cubicWayError({ a: q(a, 'm/s²'), j: q(j, 'm/s³'), T: s(T) }, about).value;

  it('and by all of it where the jerk turns in the middle of a cycle', () => {
    // The acceleration climbs to its highest and falls again; a cycle is shorter than that, so only the jerk counts.
    const T = 0.02;
    const x = (t: number) => (t < 0 ? (j * t ** 3) / 6 : (-j * t ** 3) / 6);
    const v = (t: number) => (t < 0 ? (j * t ** 2) / 2 : (-j * t ** 2) / 2);
    expect(bound(T)).toBeCloseTo((j * T ** 3) / 96, 12);
    expect(cubicFrom(T, x, v, -T / 2)).toBeCloseTo(bound(T), 12);
    const turning = cubicAngleError({ a: q(a, 'rad/s²'), j: q(j, 'rad/s³'), T: s(T) }, about);
    expect(turning.value).toBe(bound(T));
  });

  it('and by all of it where the acceleration turns at the quarters of a cycle', () => {
    const T = 0.2;
    // +a, −a and +a again: integrated piece by piece.
    const ends = [0, T / 4, (3 * T) / 4, T];
    const sign = [1, -1, 1];
    const state = (t: number): readonly [number, number] => {
      let [position, speed] = [0, 0];
      for (const [at, up] of sign.entries()) {
        const span = Math.min(Math.max(t - ends[at]!, 0), ends[at + 1]! - ends[at]!);
        position += speed * span + (up * a * span ** 2) / 2;
        speed += up * a * span;
      }
      return [position, speed];
    };
    const worst = cubicFrom(
      T,
      (t) => state(t)[0],
      (t) => state(t)[1],
      0,
    );
    for (const found of [
      bound(T),
      cubicJumpWayError({ a: q(a, 'm/s²'), T: s(T) }, about).value,
      cubicJumpAngleError({ a: q(a, 'rad/s²'), T: s(T) }, about).value,
    ])
      expect(found).toBeCloseTo(worst, 12);
  });

  it('over sines of any phase', () => {
    const random = seeded(61);
    for (let at = 0; at < 200; at++) {
      const [omega, amplitude, T] = [1 + 60 * random(), 0.01 + random(), 1e-3 + 0.1 * random()];
      const x = (t: number) => amplitude * Math.sin(omega * t);
      const v = (t: number) => amplitude * omega * Math.cos(omega * t);
      const allowed = cubicWayError(
        { a: q(amplitude * omega ** 2, 'm/s²'), j: q(amplitude * omega ** 3, 'm/s³'), T: s(T) },
        about,
      ).value;
      expect(cubicFrom(T, x, v, random() * 10)).toBeLessThanOrEqual(allowed * (1 + 1e-9));
    }
  });
});

it('setpoints of a ramp step by acceleration times cycle', () => {
  const speeds = [0, 1, 2, 3].map((cycle) => 7 * cycle * 2e-3);
  const step = speedJumpOnWay({ a: q(7, 'm/s²'), T: s(2e-3) }, about).value;
  for (const [at, speed] of speeds.slice(1).entries()) expect(speed - speeds[at]!).toBeCloseTo(step, 15);
  expect(speedJumpOfTurning({ a: q(7, 'rad/s²'), T: s(2e-3) }, about).value).toBe(step);
});

it('what is allowed between setpoints gives back what it was asked for', () => {
  const random = seeded(60);
  const draw = <U extends Unit>(least: number, most: number, unit: U): Quantity<U> =>
    q(least + random() * (most - least), unit);
  const near = (found: Quantity, expected: Quantity): void => {
    expect(found.unit).toBe(expected.unit);
    expect(found.value / expected.value).toBeCloseTo(1, 12);
  };
  for (let at = 0; at < 50; at++) {
    const T = draw(1e-4, 1e-2, 's');
    const [a, α] = [draw(0.1, 100, 'm/s²'), draw(0.1, 100, 'rad/s²')];
    const [j, ρ] = [draw(1, 1e5, 'm/s³'), draw(1, 1e5, 'rad/s³')];
    const [v, ω] = [draw(0.1, 10, 'm/s'), draw(1, 100, 'rad/s')];
    near(cycleForLinearWay({ e: linearWayError({ a, T }, about), a }, about), T);
    near(cycleForLinearAngle({ e: linearAngleError({ a: α, T }, about), a: α }, about), T);
    near(cycleForCubicWay({ e: cubicWayError({ a, j, T }, about), a, j }, about), T);
    near(cycleForCubicAngle({ e: cubicAngleError({ a: α, j: ρ, T }, about), a: α, j: ρ }, about), T);
    near(cycleForCubicJumpWay({ e: cubicJumpWayError({ a, T }, about), a }, about), T);
    near(cycleForCubicJumpAngle({ e: cubicJumpAngleError({ a: α, T }, about), a: α }, about), T);
    near(cycleForSpeedJump({ v: speedJumpOnWay({ a, T }, about), a }, about), T);
    near(cycleForTurningJump({ v: speedJumpOfTurning({ a: α, T }, about), a: α }, about), T);
    near(timeForWay({ e: wayGone({ v, t: T }, about), v }, about), T);
    near(timeForAngle({ e: angleGone({ v: ω, t: T }, about), v: ω }, about), T);
  }
});
