// Currents of a drive against many samples of them.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import { type CurrentPiece, currentOfTorque, driveLosses, longestOverload, meanCurrentOf } from './drive-current.ts';

const about = 'test';
const limits = { continuous_A: 10, peak_A: 25 };
const seeds = Array.from({ length: 12 }, (_, seed) => seed);

/** A cycle that is often above, and joined in itself: the current has no jump but some. */
function randomCycle(seed: number): readonly CurrentPiece[] {
  const random = seeded(seed);
  const current = () => 50 * (random() - 0.5);
  let last = current();
  return Array.from({ length: 3 + Math.floor(8 * random()) }, () => {
    const start_A = random() < 0.3 ? current() : last;
    last = random() < 0.3 ? start_A : current();
    return { lasts_s: 0.05 + random(), start_A, end_A: last };
  });
}

/** Samples of two cycles one behind the other, so that a stretch over the end is met whole. */
function sampled(pieces: readonly CurrentPiece[]): readonly { readonly dt: number; readonly i: number }[] {
  const once = pieces.flatMap(({ lasts_s, start_A, end_A }) =>
    Array.from({ length: 4000 }, (_, at) => ({
      dt: lasts_s / 4000,
      i: start_A + ((end_A - start_A) * (at + 0.5)) / 4000,
    })),
  );
  return [...once, ...once];
}

describe('a drive', () => {
  it.each(seeds)('overloads are those of many samples, %i', (seed) => {
    const pieces = randomCycle(seed);
    let [most, sum] = [0, 0];
    for (const { dt, i } of sampled(pieces)) {
      sum = Math.abs(i) > 10 ? sum + dt * (i * i - 100) : 0;
      most = Math.max(most, sum);
    }
    const found = longestOverload(pieces, limits);
    expect(Math.abs(found - most / (625 - 100))).toBeLessThan(1e-4);
  });

  it.each(seeds)('has the same overload from wherever the cycle is begun, and for pieces cut in two, %i', (seed) => {
    const pieces = randomCycle(seed);
    const due = longestOverload(pieces, limits);
    const turned = pieces.map((_, at) => [...pieces.slice(at), ...pieces.slice(0, at)]);
    const cut = pieces.flatMap(({ lasts_s, start_A, end_A }) => {
      const middle = start_A + 0.4 * (end_A - start_A);
      return [
        { lasts_s: 0.4 * lasts_s, start_A, end_A: middle },
        { lasts_s: 0.6 * lasts_s, start_A: middle, end_A },
      ];
    });
    for (const same of [cut, ...turned]) expect(longestOverload(same, limits)).toBeCloseTo(due, 9);
  });

  it('at its peak current is overloaded for as long as it is there', () => {
    const pause = { lasts_s: 3, start_A: 2, end_A: -2 };
    const peak = (lasts_s: number) => ({ lasts_s, start_A: -25, end_A: -25 });
    expect(longestOverload([pause, peak(1.25), pause, peak(0.5)], limits)).toBeCloseTo(1.25, 12);
    // Half of it at the end and half at the beginning are one overload; a pause between parts them.
    expect(longestOverload([peak(0.5), pause, peak(0.75)], limits)).toBeCloseTo(1.25, 12);
    expect(longestOverload([pause], limits)).toBe(0);
    expect(longestOverload([], limits)).toBe(0);
  });

  it('that is never below its continuous current is overloaded without end, and at it not at all', () => {
    expect(longestOverload([{ lasts_s: 1, start_A: 11, end_A: 12 }], limits)).toBe(Infinity);
    expect(longestOverload([{ lasts_s: 1, start_A: 10, end_A: 10 }], limits)).toBe(0);
  });

  it.each(seeds)('the current gives back the torque and its mean losses, %i', (seed) => {
    const pieces = randomCycle(seed);
    const k = q(1.3, 'N·m/A');
    const samples = sampled(pieces);
    const span = samples.reduce((sum, { dt }) => sum + dt, 0);
    const mean = (of: (i: number) => number) => samples.reduce((sum, { dt, i }) => sum + dt * of(i), 0) / span;
    const torque = Math.sqrt(mean((i) => (1.3 * i) ** 2));
    expect(currentOfTorque({ T: q(torque, 'N·m'), k }, about).value).toBeCloseTo(Math.sqrt(mean((i) => i * i)), 9);
    const I = q(meanCurrentOf(pieces), 'A');
    expect(I.value).toBeCloseTo(mean(Math.abs), 5);
    const losses = driveLosses({ P: q(24, 'W'), u: q(9, 'V'), I }, about).value;
    expect(losses).toBeCloseTo(
      mean((i) => 24 + 9 * Math.abs(i)),
      4,
    );
  });

  it('refuses what cannot be, and has no mean without a piece', () => {
    const piece = { lasts_s: 1, start_A: 1, end_A: 2 };
    for (const wrong of [{ continuous_A: 0 }, { peak_A: 10 }, { peak_A: NaN }])
      expect(() => longestOverload([piece], { ...limits, ...wrong })).toThrow(RangeError);
    for (const wrong of [{ lasts_s: 0 }, { start_A: NaN }, { end_A: Infinity }]) {
      expect(() => longestOverload([{ ...piece, ...wrong }], limits)).toThrow(RangeError);
      expect(() => meanCurrentOf([{ ...piece, ...wrong }])).toThrow(RangeError);
    }
    expect(meanCurrentOf([])).toBeNaN();
  });
});
