// Counts of losses against sums in exact fractions, the Poisson limit, and how often the interval covers the truth.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import { chanceOfAtLeast, chanceOfAtMost, lossAtLeast, lossAtMost, lossInterval } from './binomial.ts';
import { cleanRunFor, provenByCleanRun } from './clean-run.ts';

/** Probability of at least so many, with a loss of numerator/denominator, from whole numbers of any size. */
function exactAtLeast(losses: number, frames: number, numerator: bigint, denominator: bigint): number {
  const n = BigInt(frames);
  let [sum, ways] = [0n, 1n];
  for (let count = 0n; count <= n; count++) {
    if (count >= BigInt(losses)) sum += ways * numerator ** count * (denominator - numerator) ** (n - count);
    ways = (ways * (n - count)) / (count + 1n);
  }
  return Number((sum * 10n ** 60n) / denominator ** n) / 1e60;
}

describe('counts of losses', () => {
  it('tails in exact fractions: both tails of many counts', () => {
    for (const [frames, numerator, denominator] of [
      [10, 1n, 3n],
      [40, 1n, 1000n],
      [150, 7n, 10n],
      [200, 1n, 2n],
    ] as const) {
      const loss = Number(numerator) / Number(denominator);
      for (let losses = 0; losses <= frames; losses += 1 + Math.floor(frames / 17)) {
        const exact = exactAtLeast(losses, frames, numerator, denominator);
        const rest = exactAtLeast(frames - losses, frames, denominator - numerator, denominator);
        if (exact > 1e-40) expect(chanceOfAtLeast(losses, frames, loss) / exact).toBeCloseTo(1, 11);
        if (rest > 1e-40) expect(chanceOfAtMost(losses, frames, loss) / rest).toBeCloseTo(1, 11);
      }
    }
  });

  it('tails in exact fractions: at its limits the interval leaves half of 1 − c on either side', () => {
    for (const [losses, frames] of [
      [1, 10],
      [3, 20],
      [42, 100],
      [99, 100],
    ] as const) {
      const c = q(0.95, '1');
      const least = lossAtLeast({ k: q(losses, '1'), n: q(frames, '1'), c }, 'test').value;
      const most = lossAtMost({ k: q(losses, '1'), n: q(frames, '1'), c }, 'test').value;
      const fraction = (loss: number) => [BigInt(Math.round(loss * 2 ** 52)), 2n ** 52n] as const;
      expect(exactAtLeast(losses, frames, ...fraction(least))).toBeCloseTo(0.025, 10);
      expect(1 - exactAtLeast(losses + 1, frames, ...fraction(most))).toBeCloseTo(0.025, 10);
    }
  });

  it('are those of Poisson where frames are many and losses rare', () => {
    for (const [losses, mean] of [
      [0, 2.5],
      [7, 2.5],
      [30, 12],
    ] as const) {
      let [below, term] = [0, Math.exp(-mean)];
      for (let count = 0; count <= losses; count++) {
        below += term;
        term *= mean / (count + 1);
      }
      expect(chanceOfAtMost(losses, 1e11, mean / 1e11) / below).toBeCloseTo(1, 7);
    }
  });

  it('are near to those of Gauss for a million losses in a thousand million frames', () => {
    const { least, most } = lossInterval(1e6, 1e9, 0.95);
    expect((1e-3 - least) / 1e-6).toBeCloseTo(1.96, 2);
    expect((most - 1e-3) / 1e-6).toBeCloseTo(1.96, 2);
  });

  it('the interval covers the truth in 95 % of 4000 seeded counts, or more', () => {
    const random = seeded(95);
    for (const [loss, frames] of [
      [0.03, 100],
      [0.4, 40],
    ] as const) {
      let covered = 0;
      for (let count = 0; count < 4000; count++) {
        let losses = 0;
        for (let frame = 0; frame < frames; frame++) losses += Number(random() < loss);
        const { least, most } = lossInterval(losses, frames, 0.95);
        covered += Number(least <= loss && loss <= most);
      }
      // Short of 95 % by chance alone: 4 standard deviations of a count of 4000, 1.4 %.
      expect(covered / 4000).toBeGreaterThan(0.936);
      expect(covered / 4000).toBeLessThan(0.995);
    }
  });

  it('clean runs against the exact limit: a hair on the safe side of 1 − (1 − c)^(1/n)', () => {
    for (const c of [0.9, 0.95, 0.999])
      for (const n of [10, 1000, 1e9]) {
        const proven = provenByCleanRun({ c: q(c, '1'), n: q(n, '1') }, 'test').value;
        const exact = -Math.expm1(Math.log1p(-c) / n);
        expect(proven / exact).toBeGreaterThanOrEqual(1);
        expect(proven / exact).toBeLessThan(1 + proven);
        expect(lossInterval(0, n, 2 * c - 1).most / exact).toBeCloseTo(1, 9);
        const lasts = cleanRunFor({ c: q(c, '1'), T: q(1e-3, 's'), p: q(proven, '1') }, 'test').value;
        expect(lasts / (n * 1e-3)).toBeCloseTo(1, 12);
      }
  });

  it('have ends, and are refused where they cannot be', () => {
    expect(lossInterval(0, 5, 0.9).least).toBe(0);
    expect(lossInterval(5, 5, 0.9).most).toBe(1);
    for (const loss of [0, 1]) {
      expect([0, 3].map((count) => chanceOfAtLeast(count, 3, loss))).toEqual([1, loss]);
      expect([0, 3].map((count) => chanceOfAtMost(count, 3, loss))).toEqual([1 - loss, 1]);
    }
    expect(() => lossInterval(4, 3, 0.9)).toThrow('4 losses among 3 frames');
    expect(() => lossInterval(1, 3, 1)).toThrow('a confidence of 1');
    expect(() => chanceOfAtMost(1, 3, 2)).toThrow('a loss is a probability, and here 2');
  });
});
