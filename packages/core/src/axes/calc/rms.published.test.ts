// Effective torques against published examples.
import { describe, expect, it } from 'vitest';
import { q } from '../../working/testing.support.ts';
import { accelerationTorque } from './load.ts';
import { peakTorque, rmsTorque, rmsTorqueByCooling } from './rms.ts';

const about = 'test';

describe('R1 (read): Dubey, Fundamentals of Electrical Drives, ex. 4.2', () => {
  const reversal = accelerationTorque(
    { J: q(10_000, 'kg·m²'), α: q((2 * 200 * Math.PI) / 30 / 5, 'rad/s²') },
    about,
  ).value;
  const cycle: readonly (readonly [number, number])[] = [
    [25_000, 10],
    [0, 1],
    [-reversal, 5],
    [0, 1],
    [-20_000, 15],
    [0, 1],
    [reversal, 5],
    [0, 1],
  ];
  const T = cycle.map(([torque]) => q(torque, 'N·m'));
  const t = cycle.map(([, duration]) => q(duration, 's'));
  it('rolling and reversing take 45,975 N·m, and the peak is 1.822 times as much', () => {
    const effective = rmsTorque({ T, t }, about).value;
    expect(Math.abs(effective - 45_975)).toBeLessThan(0.5);
    expect(peakTorque({ T }, about).value / effective).toBeCloseTo(1.822, 3);
  });
});

describe('R2 (read): Kosow, Electric Machinery and Transformers, ex. 13.7', () => {
  // At one speed, torques are as powers are: one unit of torque stands for each horsepower.
  const T = [200, 20, 0, 100].map((each) => q(each, 'N·m'));
  const t = [5, 5, 10, 10].map((minutes) => q(60 * minutes, 's'));
  it('with one third of the cooling at standstill, the duty takes 114 hp', () => {
    const k = [1, 1, 1 / 3, 1].map((each) => q(each, '1'));
    expect(rmsTorqueByCooling({ T, t, k }, about).value).toBeCloseTo(114, 0);
  });
  it('with full cooling at standstill it would take 100 hp: the factor makes the difference', () => {
    const k = T.map(() => q(1, '1'));
    expect(rmsTorqueByCooling({ T, t, k }, about).value).toBe(rmsTorque({ T, t }, about).value);
    expect(rmsTorque({ T, t }, about).value).toBeCloseTo(Math.sqrt(302_000 / 30), 9);
  });
});
