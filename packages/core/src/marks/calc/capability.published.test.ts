// Capability against published and printed values.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import {
  capability,
  centredCapability,
  confidenceQuantile,
  lowerLimit,
  neededTolerance,
  outsideLimits,
  piecesToProve,
  provenCapability,
  provenConfidence,
} from './capability.ts';
import { plain } from './plain.support.ts';

const about = 'test';

it('Miller and Freund, Probability and Statistics for Engineers, chapter 15: limits 10.98 and 11.01 (inputs read)', () => {
  const limits = { U: q(11.01, 'm'), L: q(10.98, 'm'), σ: q(0.0035, 'm') };
  expect(capability(limits, about).value).toBeCloseTo(1.4286, 4);
  expect(centredCapability({ ...limits, m: q(10.991, 'm') }, about).value).toBeCloseTo(1.0476, 4);
});

it('a mean in the middle of 100 ± 10 with a standard deviation of 4 has Cp and Cpk 0.8333', () => {
  expect(plain(capability)(110, 90, 4)).toBeCloseTo(0.8333, 4);
  expect(plain(centredCapability)(110, 90, 100, 4)).toBeCloseTo(0.8333, 4);
});

it.each([
  [1, 2699.8, 1],
  [4 / 3, 63.34, 2],
  [5 / 3, 0.5733, 4],
  [2, 0.001973, 6],
])('parts per million outside both limits for Cp of 1 to 2: %f', (cp, ppm, digits) => {
  expect(1e6 * plain(outsideLimits)(3 * cp, -3 * cp, 0, 1)).toBeCloseTo(ppm, digits);
});

it('a mean off the middle has the tails of both sides', () => {
  expect(1e6 * plain(outsideLimits)(4.5, -7.5, 0, 1)).toBeCloseTo(3.3977, 4);
  expect(plain(outsideLimits)(1, -1, 1, 0.1)).toBeCloseTo(0.5, 12);
});

describe('what pieces prove', () => {
  const z = plain(confidenceQuantile)(0.95);

  it('a Cpk of 1.67 from 50 pieces proves about 1.38 (derived)', () => {
    expect(plain(provenCapability)(1.67, z, 50)).toBeCloseTo(1.38, 2);
  });

  it('The Last Word, Quality Digest, May 2000: 1.15 from 45 pieces is between 0.89 and 1.41 with 95 % confidence', () => {
    const both = plain(confidenceQuantile)(0.975);
    expect(plain(provenCapability)(1.15, both, 45)).toBeCloseTo(0.89, 2);
    expect(plain(provenCapability)(1.15, -both, 45)).toBeCloseTo(1.41, 2);
  });

  it('one piece less than asked for does not prove it', () => {
    for (const measured of [1.34, 1.4, 1.5, 1.67, 2, 3, 10])
      for (const confidence of [0.6, 0.9, 0.95, 0.99]) {
        const quantile = plain(confidenceQuantile)(confidence);
        const pieces = plain(piecesToProve)(measured, 1.33, quantile);
        expect(Number.isInteger(pieces)).toBe(true);
        expect(plain(provenCapability)(measured, quantile, pieces)).toBeGreaterThanOrEqual(1.33);
        if (pieces > 2) expect(plain(provenCapability)(measured, quantile, pieces - 1)).toBeLessThan(1.33);
      }
    expect(plain(piecesToProve)(1.33, 1.33, z)).toBeNaN();
  });

  it('pieces that prove a Cpk with a confidence have that confidence', () => {
    for (const C of [0.8, 1.4, 1.67, 3])
      for (const n of [2, 10, 37, 200])
        for (const p of [0.1, 0.5, 0.9, 0.99]) {
          const D = plain(provenCapability)(C, plain(confidenceQuantile)(p), n);
          expect(plain(provenConfidence)(C, D, n)).toBeCloseTo(p, 12);
        }
    expect(plain(provenConfidence)(1.67, 1.33, 37)).toBeGreaterThanOrEqual(0.95);
    expect(plain(provenConfidence)(1.67, 1.33, 36)).toBeLessThan(0.95);
    expect(plain(provenConfidence)(1.67, 1.38, 50)).toBeCloseTo(0.95, 2);
  });

  it('1.33 is proven at 95 % by 37 pieces that show 1.67, and by trials about 19 times in 20 not overstated', () => {
    expect(plain(piecesToProve)(1.67, 1.33, z)).toBe(37);
    const random = seeded(133);
    const normal = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
    const runs = 4000;
    let overstated = 0;
    for (let run = 0; run < runs; run++) {
      const values = Array.from({ length: 37 }, normal);
      const mean = values.reduce((sum, each) => sum + each) / values.length;
      const deviation = Math.sqrt(values.reduce((sum, each) => sum + (each - mean) ** 2, 0) / (values.length - 1));
      // One limit 3·1.4 deviations above the mean of all, the other far away.
      const shown = plain(centredCapability)(4.2, -100, mean, deviation);
      if (plain(provenCapability)(shown, z, 37) > 1.4) overstated++;
    }
    expect(overstated / runs).toBeGreaterThan(0.035);
    expect(overstated / runs).toBeLessThan(0.07);
  });
});

it('what is needed of a tolerance is all of it at a Cpk of 1', () => {
  for (const [b, u] of [
    [0, 1e-5],
    [-2e-5, 3e-5],
    [4e-5, 1e-5],
  ] as const) {
    const T = plain(neededTolerance)(b, u);
    expect(plain(centredCapability)(T, plain(lowerLimit)(T), b, u)).toBeCloseTo(1, 12);
  }
});
