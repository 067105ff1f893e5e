// Gearing over 10¹² counts: exact ratios keep step, ratios in floating point and in decimals do not.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import { driftAfter, followCounts, type Gearing, gearing, inSeries, ratioOf } from './gearing.ts';

const goal = 10n ** 12n;

/** Random portions, three of ten backwards, that end at a position; together they are longer than the way to it. */
function portionsTo(position: bigint, seed: number): readonly bigint[] {
  const random = seeded(seed);
  const portions: bigint[] = [];
  let at = 0n;
  while (at < position - 10n ** 8n) {
    const portion = BigInt(Math.floor((random() < 0.3 ? -1 : 1) * 2e8 * random()));
    portions.push(portion);
    at += portion;
  }
  return [...portions, position - at];
}

/** Follows portions, and gives at each the position of the master and of the follower. */
function follow(ratio: Gearing, portions: readonly bigint[]) {
  let [master, follower, remainder] = [0n, 0n, 0n];
  return portions.map((portion) => {
    const step = followCounts(ratio, portion, remainder);
    remainder = step.remainder;
    master += portion;
    follower += step.counts;
    return { master, follower };
  });
}

describe('a gearing', () => {
  it('is in lowest terms, its sign above', () => {
    expect(gearing(6, 4)).toEqual({ numerator: 3n, denominator: 2n });
    expect(gearing(6n, -4n)).toEqual({ numerator: -3n, denominator: 2n });
    expect(gearing(-7, -7)).toEqual({ numerator: 1n, denominator: 1n });
    expect(gearing(0, -5)).toEqual({ numerator: 0n, denominator: 1n });
  });

  it.each([
    [1, 0],
    [0, 0],
    [1.5, 2],
    [1, 2 ** 53],
    [Number.NaN, 1],
    [1, Infinity],
  ])('refuses %f to %f', (numerator, denominator) => {
    expect(() => gearing(numerator, denominator)).toThrow(RangeError);
    expect(ratioOf(numerator, denominator)).toBeUndefined();
  });

  it('multiplies stages exactly, however many', () => {
    const stages = [ratioOf(17, 64), ratioOf(23, 71), ratioOf(29, 97)].map((stage) => stage!);
    expect(inSeries(stages)).toEqual({ numerator: 17n * 23n * 29n, denominator: 64n * 71n * 97n });
    const back = stages.map(({ numerator, denominator }) => gearing(denominator, numerator));
    expect(inSeries([...Array<Gearing[]>(50).fill(stages).flat(), ...Array<Gearing[]>(50).fill(back).flat()])).toEqual(
      gearing(1, 1),
    );
    expect(inSeries([])).toEqual(gearing(1, 1));
  });
});

describe('a follower', () => {
  it.each([
    [1, 3],
    [355, 113],
    [-22, 7],
    [999_983, 1_000_003],
  ])(
    'of %i to %i is within one count at every step of 10¹² counts, and exact at multiples',
    (numerator, denominator) => {
      const ratio = gearing(numerator, denominator);
      // To a multiple of the denominator; then by whole denominators, forwards and back.
      const whole = (goal / ratio.denominator) * ratio.denominator;
      const portions = [...portionsTo(whole, denominator), ratio.denominator, -3n * ratio.denominator];
      expect(portions.length).toBeGreaterThan(10_000);
      const positions = follow(ratio, portions);
      // Behind the exact position by this, in parts of the denominator.
      const behind = positions.map(({ master, follower }) => master * ratio.numerator - follower * ratio.denominator);
      expect(behind.filter((each) => each < 0n || each >= ratio.denominator)).toEqual([]);
      expect(behind.slice(0, -3).some((each) => each > 0n)).toBe(true);
      expect(behind.slice(-3)).toEqual([0n, 0n, 0n]);
      expect(positions.at(-3)).toEqual({ master: whole, follower: (whole / ratio.denominator) * ratio.numerator });
    },
  );

  it('is exact at every multiple of the denominator that it comes by, count by count', () => {
    const ratio = gearing(5, 7);
    const positions = follow(ratio, [...Array<bigint>(700).fill(1n), ...Array<bigint>(1400).fill(-1n)]);
    const multiples = positions.filter(({ master }) => master % 7n === 0n);
    expect(multiples).toHaveLength(300);
    for (const { master, follower } of multiples) expect(follower * 7n).toBe(master * 5n);
  });

  it('in floating point, summed step by step, is off where the exact one is not', () => {
    const ratio = gearing(355, 113);
    const whole = (goal / 113n) * 113n;
    const portions = portionsTo(whole, 113);
    const due = (whole / 113n) * 355n;
    expect(follow(ratio, portions).at(-1)!.follower).toBe(due);
    // Double precision is off at a multiple of the denominator; single precision by far more than a count.
    const double = portions.reduce((sum, portion) => sum + Number(portion) * (355 / 113), 0);
    expect(double).not.toBe(Number(due));
    const factor = Math.fround(355 / 113);
    const single = portions.reduce((sum, portion) => Math.fround(sum + Math.fround(Number(portion) * factor)), 0);
    expect(Math.abs(single - Number(due))).toBeGreaterThan(1000);
  });

  it.each([
    [1, 3, 4],
    [2, 3, 6],
    [355, 113, 9],
    [1, 8, 3],
    [999_983, 1_000_003, 12],
    [98_765, 7, 9],
  ])('a rounded ratio drifts from the exact one: %i to %i in %i decimals', (numerator, denominator, decimals) => {
    const ratio = gearing(numerator, denominator);
    const unit = 10n ** BigInt(decimals);
    const doubled = (2n * unit * ratio.numerator) / ratio.denominator;
    const rounded = gearing((doubled + 1n) / 2n, unit);
    const drift = driftAfter(
      { n: q(Number(goal), '1'), N: q(numerator, '1'), D: q(denominator, '1'), d: q(decimals, '1') },
      'test',
    ).value;
    const parts = rounded.numerator * ratio.denominator - ratio.numerator * rounded.denominator;
    const due = Math.abs(Number(goal * parts) / Number(rounded.denominator * ratio.denominator));
    expect(Math.abs(drift - due)).toBeLessThanOrEqual((5e-16 * Number(goal) * numerator) / denominator);
    // Both followers are rounded down, each by less than a count.
    const [exact, off] = [ratio, rounded].map((each) => followCounts(each, goal).counts) as [bigint, bigint];
    expect(Math.abs(due - Math.abs(Number(off - exact)))).toBeLessThan(1);
  });
});
