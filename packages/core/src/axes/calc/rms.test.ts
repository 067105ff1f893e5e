// Means of a cycle against many samples of it, and what must not change them.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import { meanSpeed, peakTorque, rmsTorque, rmsTorqueByCooling, rmsTorqueOfTriangle } from './rms.ts';

const about = 'test';
const random = seeded(13);
/** Durations are whole numbers of 10 ms, so that samples in their middles miss nothing. */
const cycle = Array.from({ length: 12 }, () => ({
  torque: 100 * random() - 50,
  speed: 300 * random(),
  hundredths: 1 + Math.floor(80 * random()),
}));
const T = cycle.map(({ torque }) => q(torque, 'N·m'));
const ω = cycle.map(({ speed }) => q(speed, 'rad/s'));
const t = cycle.map(({ hundredths }) => q(hundredths / 100, 's'));
const samples = cycle.flatMap((piece) => Array.from({ length: piece.hundredths }, () => piece));
const mean = (of: (piece: (typeof cycle)[number]) => number) =>
  samples.reduce((sum, piece) => sum + of(piece), 0) / samples.length;

describe('a cycle', () => {
  it('has the effective torque of its samples', () => {
    expect(rmsTorque({ T, t }, about).value).toBeCloseTo(Math.sqrt(mean(({ torque }) => torque ** 2)), 9);
  });

  it('the mean speed turns as far as the cycle in its time', () => {
    expect(meanSpeed({ ω, t }, about).value).toBeCloseTo(
      mean(({ speed }) => speed),
      9,
    );
  });

  it('has its peak in the piece of the greatest torque, whichever its sign', () => {
    const sizes = cycle.map(({ torque }) => Math.abs(torque));
    expect(peakTorque({ T }, about).value).toBe(Math.max(...sizes));
    expect(peakTorque({ T: [q(-8, 'N·m'), q(5, 'N·m')] }, about).value).toBe(8);
  });

  it('is the same in smaller pieces, and in another order', () => {
    const halves = t.map(({ value }) => q(value / 2, 's'));
    const whole = rmsTorque({ T, t }, about).value;
    expect(
      rmsTorque({ T: [...T, ...T.toReversed()], t: [...halves, ...halves.toReversed()] }, about).value,
    ).toBeCloseTo(whole, 9);
  });

  it('needs the more torque the less it is cooled, and a part of the cooling is a part of the time', () => {
    const k = t.map((_, at) => q(at % 3 === 0 ? 0.25 : 1, '1'));
    const cooled = t.map(({ value }, at) => value * k[at]!.value);
    const heat = T.reduce((sum, { value }, at) => sum + value ** 2 * t[at]!.value, 0);
    const effective = rmsTorqueByCooling({ T, t, k }, about).value;
    expect(effective).toBeCloseTo(Math.sqrt(heat / cooled.reduce((sum, each) => sum + each)), 9);
    expect(effective).toBeGreaterThan(rmsTorque({ T, t }, about).value);
  });

  it('without a piece gives no number', () => {
    expect([rmsTorque({ T: [], t: [] }, about), meanSpeed({ ω: [], t: [] }, about)].map(({ value }) => value)).toEqual([
      NaN,
      NaN,
    ]);
    expect(peakTorque({ T: [] }, about).value).toBe(-Infinity);
  });
});

it('a triangular move has the effective torque of its two rectangles', () => {
  const pieces = { T: [q(9, 'N·m'), q(-9, 'N·m'), q(0, 'N·m')], t: [0.15, 0.15, 0.5].map((each) => q(each, 's')) };
  const triangle = rmsTorqueOfTriangle({ T: q(9, 'N·m'), t: q(0.3, 's'), c: q(0.8, 's') }, about);
  expect(triangle.value).toBeCloseTo(rmsTorque(pieces, about).value, 12);
});
