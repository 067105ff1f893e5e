// Student's t distribution against a printed table and its closed forms.
import { describe, expect, it } from 'vitest';
import { normalQuantile } from './normal.ts';
import { studentQuantile, studentTail } from './student.ts';

/** Shares in percent and values, as printed; the shares of whole standard deviations are printed rounded. */
const shares = [0.682689492, 0.9, 0.95, 0.954499736, 0.99, 0.997300204];
const table: readonly (readonly [number, readonly string[]])[] = [
  [1, ['1.84', '6.31', '12.71', '13.97', '63.66', '235.80']],
  [2, ['1.32', '2.92', '4.30', '4.53', '9.92', '19.21']],
  [3, ['1.20', '2.35', '3.18', '3.31', '5.84', '9.22']],
  [5, ['1.11', '2.02', '2.57', '2.65', '4.03', '5.51']],
  [10, ['1.05', '1.81', '2.23', '2.28', '3.17', '3.96']],
  [16, ['1.03', '1.75', '2.12', '2.17', '2.92', '3.54']],
  [20, ['1.03', '1.72', '2.09', '2.13', '2.85', '3.42']],
  [50, ['1.01', '1.68', '2.01', '2.05', '2.68', '3.16']],
  [100, ['1.005', '1.660', '1.984', '2.025', '2.626', '3.077']],
  [Infinity, ['1.000', '1.645', '1.960', '2.000', '2.576', '3.000']],
];

describe('quantiles of the t distribution', () => {
  it.each(table)(
    'NIST Technical Note 1297, table B.1: values of t for 1 to 100 degrees of freedom: %s',
    (degrees, row) => {
      const digits = row[0]!.split('.')[1]!.length;
      expect(shares.map((share) => studentQuantile((1 + share) / 2, degrees).toFixed(digits))).toEqual(row);
    },
  );

  it('are those of the closed forms for 1, 2 and 4 degrees of freedom', () => {
    for (let p = 0.501; p < 1; p += 0.00499) {
      const a = 4 * p * (1 - p);
      const q = Math.cos(Math.acos(Math.sqrt(a)) / 3) / Math.sqrt(a);
      const closed = [Math.tan(Math.PI * (p - 0.5)), (2 * p - 1) * Math.sqrt(2 / a), 2 * Math.sqrt(q - 1)];
      [1, 2, 4].forEach((degrees, at) => {
        expect(Math.abs(studentQuantile(p, degrees) / closed[at]! - 1)).toBeLessThan(1e-9);
        expect(studentQuantile(1 - p, degrees)).toBeCloseTo(-studentQuantile(p, degrees), 10);
      });
    }
  });

  it('go over to the normal ones, by z + (z³ + z)/(4ν) for many degrees of freedom', () => {
    const z = normalQuantile(0.995);
    for (const degrees of [1e4, 1e6, 1e8]) {
      const correction = (z ** 3 + z) / (4 * degrees);
      expect(studentQuantile(0.995, degrees) - z - correction).toBeLessThan(1e-9 + 20 / degrees ** 2);
      expect(studentQuantile(0.995, degrees) - z - correction).toBeGreaterThan(-1e-9);
    }
  });

  it('give back the share they were asked for, also for part of a degree', () => {
    for (const degrees of [0.5, 1.7, 3.3, 16.75, 300.5])
      for (const share of [0.5001, 0.6, 0.9, 0.995, 0.9999])
        expect(studentTail(studentQuantile(share, degrees), degrees)).toBeCloseTo(1 - share, 12);
  });

  it('meet where the series takes over from the tail', () => {
    for (const share of [0.6, 0.975, 0.995, 0.99999]) {
      expect(Math.abs(studentTail(studentQuantile(share, 1.1e5), 1.1e5) / (1 - share) - 1)).toBeLessThan(1e-7);
      expect(studentQuantile(share, 1.0001e5) / studentQuantile(share, 0.9999e5)).toBeCloseTo(1, 7);
    }
  });

  it('are not a number where there are none', () => {
    expect([studentQuantile(0.9, 0), studentQuantile(1, 5), studentQuantile(Number.NaN, 5)]).toEqual(
      Array(3).fill(Number.NaN),
    );
  });
});
