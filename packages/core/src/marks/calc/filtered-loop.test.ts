// Register control with a filter: the limit against roots, spread and settling against long runs of another walk.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { corrections, filteredLimit, filteredNoise, filteredSettling } from './filtered-loop.ts';
import { gainLimit, loopErrors, loopNoise, loopSettling } from './loop.ts';
import { plain } from './plain.support.ts';
import { rootsOf } from './roots.ts';

const limit = plain(filteredLimit);
const delays = [0, 1, 2, 3, 5, 8];
const filters = [1, 2, 3, 4, 6];

/** Written out with whole lists, every repeat anew. */
function errorsOf(K: number, d: number, n: number, scatter: readonly number[]): readonly number[] {
  const errors: number[] = [];
  let correction = 0;
  for (const [repeat, each] of scatter.entries()) {
    errors.push(each + correction);
    const window = errors.slice(Math.max(0, repeat - d - n + 1), Math.max(0, repeat - d + 1));
    correction -= (K * window.reduce((sum, error) => sum + error, 0)) / n;
  }
  return errors;
}

/** The characteristic polynomial, from the recurrence term by term. */
const largestRoot = (K: number, d: number, n: number): number => {
  const coefficients = Array<number>(d + n + 1).fill(0);
  coefficients[0]! += 1;
  coefficients[1]! -= 1;
  for (let j = 0; j < n; j++) coefficients[d + j + 1]! += K / n;
  return Math.max(...rootsOf(coefficients).map(({ real, imaginary }) => Math.hypot(real, imaginary)));
};

describe('the filtered loop', () => {
  it('at the limit of gain the largest root of the filtered loop is on the unit circle', () => {
    for (const d of delays)
      for (const n of filters) {
        const K = limit(d, n);
        expect(largestRoot(K, d, n), `${d} ${n}`).toBeCloseTo(1, 6);
        for (const share of [0.1, 0.5, 0.9, 0.99]) expect(largestRoot(share * K, d, n), `${d} ${n}`).toBeLessThan(1);
        expect(largestRoot(1.01 * K, d, n)).toBeGreaterThan(1);
      }
  });

  it('has without a filter the limit, the spread and the settling of the closed forms', () => {
    for (const d of delays) {
      expect(limit(d, 1)).toBeCloseTo(plain(gainLimit)(d), 12);
      for (const share of [0.1, 0.5, 0.8]) {
        const K = share * limit(d, 1);
        for (const q of [0, 0.01, 0.2, 0.6])
          expect(plain(filteredNoise)(K, d, 1, q)).toBeCloseTo(plain(loopNoise)(K, d, q), 9);
        expect(plain(filteredSettling)(K, d, 1, 0.05)).toBe(plain(loopSettling)(K, d, 0.05));
      }
    }
  });

  it.each([
    [0.3, 3, 3],
    [0.2, 2, 4],
    [0.9, 0, 2],
  ])(
    'the filtered loop has the variance of a long run, and without a filter that of the closed form: %f, %d, %d',
    (K, d, n) => {
      const random = seeded(77);
      const scatter = Array.from({ length: 300_000 }, () => 2 * (random() + random() + random()) - 3);
      const errors = errorsOf(K, d, n, scatter);
      const variance = errors.reduce((sum, each) => sum + each ** 2, 0) / errors.length;
      expect(variance / (1 + plain(filteredNoise)(K, d, n, 0))).toBeCloseTo(1, 1);
      expect(Math.abs(variance / (1 + plain(filteredNoise)(K, d, n, 0)) - 1)).toBeLessThan(0.02);
    },
  );

  it.each([
    [0.3, 3, 3, 0.3],
    [0.4, 1, 2, 0.5],
    [0.9, 0, 4, 0.1],
  ])('has with missed marks the variance of a long run: %f, %d, %d, %f of them missed', (K, d, n, q) => {
    const random = seeded(78);
    const repeats = 1_000_000;
    const scatter = Float64Array.from({ length: repeats }, () => 2 * (random() + random() + random()) - 3);
    const lost = Uint8Array.from({ length: repeats }, () => Number(random() < q));
    const run = corrections({ K, d, n, scatter: (at) => scatter[at]!, missed: (at) => lost[at] === 1 });
    let squares = 0;
    for (let at = 0; at < repeats; at++) squares += run.next().value![0] ** 2;
    const closed = plain(filteredNoise)(K, d, n, q);
    expect(Math.abs(squares / repeats / closed - 1)).toBeLessThan(0.02);
    // As a smaller gain alone it would be less than that.
    expect(plain(filteredNoise)(K * (1 - q), d, n, 0)).toBeLessThan(0.95 * closed);
  });

  it('a filtered step is settled when all later errors of a long run are within', () => {
    for (const d of delays)
      for (const n of filters)
        for (const share of [0.1, 0.5, 0.8])
          for (const left of [0.5, 0.05, 1e-3]) {
            const K = share * limit(d, n);
            const errors = errorsOf(K, d, n, Array(3000).fill(1));
            expect(plain(filteredSettling)(K, d, n, left), `${d} ${n}`).toBe(
              errors.findLastIndex((error) => Math.abs(error) > left) + 1,
            );
          }
  });

  it('has no variance and no settling at the limit, and none without gain', () => {
    expect(plain(filteredNoise)(limit(2, 3), 2, 3, 0)).toBe(Infinity);
    expect(plain(filteredNoise)(0, 2, 3, 0)).toBe(0);
    expect(plain(filteredNoise)(-1, 2, 3, 0)).toBeNaN();
    expect(plain(filteredSettling)(limit(2, 3), 2, 3, 0.1)).toBeNaN();
    expect(plain(filteredSettling)(0, 2, 3, 0.1)).toBeNaN();
  });

  it('holds the correction where a mark is missed, as the loop without a filter does', () => {
    const random = seeded(5);
    const lost = Array.from({ length: 200 }, () => random() < 0.2);
    for (const delay of [0, 1, 3]) {
      const scatter = Array.from({ length: 200 }, () => 1 + 0.2 * random());
      const missed = (repeat: number): boolean => lost[repeat]!;
      const errors = loopErrors({ gain: 0.2, delay, scatter, missed });
      const run = corrections({ K: 0.2, d: delay, n: 1, scatter: (repeat) => scatter[repeat]!, missed });
      for (const [repeat, error] of errors.entries())
        expect(scatter[repeat]! + run.next().value![0]).toBeCloseTo(error, 12);
    }
  });

  it('corrects as the walk over whole lists does', () => {
    const errors = errorsOf(0.3, 3, 3, Array(40).fill(1));
    const run = corrections({ K: 0.3, d: 3, n: 3, scatter: () => 1 });
    for (const error of errors) expect(1 + run.next().value![0]).toBeCloseTo(error, 12);
  });
});
