// Ticks: round numbers in the unit of the scale, as close as their texts allow.
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ticksOf } from './ticks.ts';

const written = (from: number, to: number, room: number, unit: 's' | 'rad' | 'm' = 's') =>
  ticksOf({ from, to, unit }, () => room, 1).map(({ text }) => text);

describe('ticksOf', () => {
  it('counts in ones, twos and fives of the unit that fits', () => {
    expect(written(0, 500e-6, 0.1)).toEqual(['0', '100', '200', '300', '400', '500 µs']);
    expect(written(0, 304e-6, 0.1)).toEqual(['0', '50', '100', '150', '200', '250', '300 µs']);
    expect(written(-0.2e-3, 0.2e-3, 0.2, 'm')).toEqual(['-200', '0', '200 µm']);
    expect(written(0, 2 * Math.PI, 0.15, 'rad')).toEqual(['0', '100', '200', '300°']);
  });

  it('has nothing for a scale that is none', () => {
    expect(written(1, 1, 0.1)).toEqual([]);
    expect(written(0, Number.NaN, 0.1)).toEqual([]);
    expect(written(0, Number.POSITIVE_INFINITY, 0.1)).toEqual([]);
  });

  it('divides what is between by as many as there is room for', () => {
    const ticks = (least: number) => ticksOf({ from: 0, to: 1e-3, unit: 's' }, () => 0.12, least).length;
    expect([1, 0.05, 0.02].map(ticks)).toEqual([6, 21, 51]);
  });

  it('stays on the scale and keeps its texts apart, at any size', () => {
    const text_share = (text: string) => text.length * 0.008;
    const span = fc.double({ min: 1e-9, max: 1e9, noNaN: true });
    fc.assert(
      fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), span, (from, length) => {
        const to = from + length;
        fc.pre(to > from && length > 1e-6 * Math.abs(from));
        const ticks = ticksOf({ from, to, unit: 'm' }, text_share, 0.005);
        const slack = 1e-6 * length;
        for (const { at } of ticks) {
          expect(at).toBeGreaterThanOrEqual(from - slack);
          expect(at).toBeLessThanOrEqual(to + slack);
        }
        const texts = ticks.filter(({ text }) => text !== undefined);
        expect(texts.length).toBeGreaterThanOrEqual(1);
        for (const [index, { at, text }] of texts.entries()) {
          const next = texts[index + 1];
          if (next === undefined || texts.length === 1) continue;
          expect((next.at - at) / length + 1e-6).toBeGreaterThan((text_share(text!) + text_share(next.text!)) / 2);
        }
      }),
      { seed: 6, numRuns: 500 },
    );
  });
});
