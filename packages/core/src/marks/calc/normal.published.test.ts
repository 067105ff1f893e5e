// The normal distribution against printed values, and against its density integrated.
import { describe, expect, it } from 'vitest';
import { gaussLegendre } from '../../axes/calc/integral.ts';
import { erfc, normalQuantile, normalTail } from './normal.ts';

describe('the complementary error function', () => {
  it.each([
    [0.5, 0.4795001222],
    [1, 0.1572992071],
    [1.5, 0.033894854],
    [2, 0.004677735],
  ])('Abramowitz and Stegun, Handbook of Mathematical Functions, table 7.1 (from memory): 1 - erf(%s)', (x, value) => {
    expect(erfc(x)).toBeCloseTo(value, 9);
  });

  it('is its density integrated, to 1e-12 of its size, on both sides of every change of method', () => {
    const { nodes, weights } = gaussLegendre(20);
    for (let x = 0; x < 8; x += 0.0625) {
      // Both sides are taken as shares of the density at x, so that none of them is lost in rounding.
      let sum = 0;
      for (let panel = 0; panel < 40; panel++)
        nodes.forEach((node, at) => {
          const y = (panel + 0.5 + node / 2) / 5;
          sum += (weights[at]! / 10) * Math.exp(-y * (2 * x + y));
        });
      const integral = (2 / Math.sqrt(Math.PI)) * Math.exp(-x * x) * sum;
      expect(Math.abs(erfc(x) / integral - 1)).toBeLessThan(1e-12);
    }
  });

  it('keeps to its limits', () => {
    expect([erfc(0), erfc(-Infinity), erfc(Infinity), erfc(30), erfc(Number.NaN)]).toEqual([1, 2, 0, 0, Number.NaN]);
    expect(erfc(-1) + erfc(1)).toBeCloseTo(2, 15);
  });
});

describe('quantiles of the normal distribution', () => {
  it.each([
    [0.975, 1.9599639845],
    [0.995, 2.5758293035],
    [0.999, 3.0902323062],
  ])('quantiles of the normal distribution as printed in tables: %s', (share, value) => {
    expect(normalQuantile(share)).toBeCloseTo(value, 10);
  });

  it('give back the share they were asked for, far into the tails', () => {
    for (let power = -1; power > -280; power -= 0.7) {
      const share = 10 ** power / 2;
      expect(Math.abs(normalTail(-normalQuantile(share)) / share - 1)).toBeLessThan(1e-11);
    }
    for (const share of [0.5, 0.6, 0.9, 0.999]) expect(normalTail(-normalQuantile(share))).toBeCloseTo(share, 14);
  });

  it('keep to their limits', () => {
    expect([0, 1].map(normalQuantile)).toEqual([-Infinity, Infinity]);
    expect(normalQuantile(0.5)).toBeCloseTo(0, 15);
    expect([-0.1, 1.1, Number.NaN].map(normalQuantile)).toEqual([Number.NaN, Number.NaN, Number.NaN]);
  });
});
