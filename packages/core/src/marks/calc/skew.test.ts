// The web askew: closed forms against drawn angles and against the orders of a Taylor series.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { normalQuantile } from './normal.ts';
import { plain } from './plain.support.ts';
import { firstOrderSpread, secondOrderShare, secondOrderSpread, skewLimit, skewOffset, skewSpread } from './skew.ts';

const spread = plain(skewSpread);

describe('a web askew', () => {
  it.each([
    [2, 0, 0.01],
    [2, 0.05, 0.02],
    [0.5, -0.3, 0.2],
  ])('an angle drawn many times has the mean and the deviation of the closed form: %f m, %f, %f', (L, mean, σ) => {
    const random = seeded(12);
    const drawn = Array.from({ length: 400_000 }, () => L * (1 - Math.cos(mean + σ * normalQuantile(random()))));
    const average = drawn.reduce((sum, each) => sum + each) / drawn.length;
    const deviation = Math.sqrt(drawn.reduce((sum, each) => sum + (each - average) ** 2, 0) / drawn.length);
    expect(average / plain(skewOffset)(L, mean, σ)).toBeCloseTo(1, 2);
    expect(deviation / spread(L, mean, σ)).toBeCloseTo(1, 2);
  });

  it.each([
    [2, 0, 0.01],
    [2, 0.05, 0.02],
    [0.5, -0.3, 0.05],
  ])('angles within three standard deviations keep to the limit, and come to it: %f m, %f, %f', (L, mean, σ) => {
    const [average, limit] = [plain(skewOffset)(L, mean, σ), plain(skewLimit)(L, mean, σ)];
    const off = Array.from({ length: 6001 }, (_, at) =>
      Math.abs(L * (1 - Math.cos(mean + (at / 1000 - 3) * σ)) - average),
    );
    expect(Math.max(...off) / limit).toBeCloseTo(1, 9);
  });

  it('a web askew about nothing has no first order, and its second order is its deviation', () => {
    const [L, σ] = [2, 2e-3];
    expect(plain(firstOrderSpread)(0, L, 0, σ)).toBeCloseTo(0, 15);
    expect(plain(secondOrderSpread)(0, L, 0, σ)).toBeCloseTo((L * σ ** 2) / Math.SQRT2, 9);
    expect(spread(L, 0, σ) / ((L * σ ** 2) / Math.SQRT2)).toBeCloseTo(1, 4);
    expect(plain(secondOrderShare)(0, L, 0, σ)).toBe(1);
    // Far from nothing the first order is all but everything, and beside a wider spread nothing of it is seen.
    expect(plain(firstOrderSpread)(0, L, 0.1, σ) / spread(L, 0.1, σ)).toBeCloseTo(1, 3);
    expect(plain(secondOrderShare)(0, L, 0.1, σ)).toBeLessThan(1e-3);
    expect(plain(secondOrderShare)(1e-3, L, 0, σ)).toBeLessThan(1e-3);
  });
});
