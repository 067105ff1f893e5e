// Functions of our own against those of the engine, which differ in the last digits at most.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { exp, expm1OfPositive, log, log1p, logOfNormal, sin } from './same-bits.ts';

const random = seeded(64);
const any = (least: number, most: number) => least + (most - least) * random();
const worst = (values: readonly number[], own: (x: number) => number, theirs: (x: number) => number): number =>
  values.reduce((most, x) => {
    const due = theirs(x);
    return Math.max(most, Math.abs(own(x) - due) / Math.abs(due || 1));
  }, 0);
const many = (make: () => number) => Array.from({ length: 100_000 }, make);

describe('functions of one rounding everywhere are those of the engine to the last digits', () => {
  it('logarithm', () => {
    const values = many(() => 10 ** any(-300, 300)).concat(
      many(() => any(0.4, 2.5)),
      many(() => any(0, 1)),
    );
    expect(worst(values, logOfNormal, Math.log)).toBeLessThan(5e-16);
    expect(worst([5e-324, 1e-310, 2 ** -1022, 1.7e308], log, Math.log)).toBeLessThan(5e-16);
    expect([log(1), log(0), log(Infinity), log(-1), log(Number.NaN)]).toEqual([0, -Infinity, Infinity, NaN, NaN]);
  });

  it('logarithm of one more', () => {
    const values = many(() => 10 ** any(-18, 18)).concat(many(() => any(-0.9, 1)));
    expect(worst(values, log1p, Math.log1p)).toBeLessThan(1e-15);
    expect([log1p(0), log1p(-1), log1p(-2), log1p(Infinity)]).toEqual([0, -Infinity, NaN, Infinity]);
  });

  it('exponential', () => {
    expect(
      worst(
        many(() => any(-700, 709)),
        exp,
        Math.exp,
      ),
    ).toBeLessThan(5e-16);
    expect([exp(0), exp(-800), exp(800), exp(Number.NaN), exp(-745)]).toEqual([1, 0, Infinity, NaN, 5e-324]);
    expect(worst([-720, -708.5, 709.7], exp, Math.exp)).toBeLessThan(1e-9);
  });

  it('exponential less one', () => {
    const values = many(() => 10 ** any(-18, 2)).concat(many(() => any(0, 709)));
    expect(worst(values, expm1OfPositive, Math.expm1)).toBeLessThan(5e-16);
    expect(expm1OfPositive(0)).toBe(0);
  });

  it('sine, where it is near nothing as exact as the angle', () => {
    const values = many(() => any(-30, 30)).concat(many(() => 10 ** any(-12, 0)));
    for (const x of values)
      expect(Math.abs(sin(x) - Math.sin(x))).toBeLessThan(
        3e-16 * Math.max(1e-3, Math.abs(Math.sin(x))) + 3e-16 * Math.min(1, Math.abs(x)),
      );
    expect([sin(0), sin(Infinity), sin(Number.NaN)]).toEqual([0, NaN, NaN]);
    expect(Math.abs(sin(3e6) - Math.sin(3e6))).toBeLessThan(1e-9);
  });
});
