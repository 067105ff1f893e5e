// Moving an input: every place gives a text that reads back, at a round number, and steps never leave the span.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readQuantity } from '../units/read-quantity.ts';
import { leaf, type Quantity } from '../working/quantity.ts';
import { placeOf, textAfter, textAt } from './move.ts';
import type { Input } from './view.ts';

const written = (value: number, unit: 's' | '1' | 'bit', writtenUnit: string, text = 'as written'): Quantity =>
  leaf(value, unit, { kind: 'given', path: 'p', via: [], writtenAt: 'p', written: text, writtenUnit });
const input = (value: Quantity, more: Partial<Input>): Input => ({ path: 'p', title: 'An input', value, ...more });

describe('an input', () => {
  const turnaround = input(written(3.2e-6, 's', 'µs'), { span: { least: 0, most: 9.6e-6 } });

  it('stands on its span, and is moved to round numbers in the unit that it is written in', () => {
    expect(placeOf(turnaround)).toBeCloseTo(1 / 3, 12);
    expect(textAt(turnaround, 0.5)).toBe('4.8 µs');
    expect(textAt(turnaround, 0.5031)).toBe('4.85 µs');
    expect(textAfter(turnaround, 1)).toBe('3.25 µs');
    expect(textAfter(turnaround, -10)).toBe('2.7 µs');
    expect(textAfter(turnaround, 1000)).toBe('9.6 µs');
  });

  it('keeps to its own steps', () => {
    const frame = input(written(512 * 8, 'bit', 'octets'), { span: { least: 0, most: 1518 * 8, step: 8 } });
    expect(textAfter(frame, 1)).toBe('513 octets');
    expect(textAt(frame, 1)).toBe('1518 octets');
    const repeats = input(written(2, '1', '1'), { span: { least: 0, most: 8, step: 1 } });
    expect(textAt(repeats, 0.3)).toBe('2');
    expect(textAfter(repeats, -5)).toBe('0');
  });

  it('goes from one offer to the next where only some values are on offer', () => {
    const offered = [250, 500, 1000].map((each) => written(each * 1e-6, 's', 'µs', `${each} µs`));
    const cycle = input(written(500e-6, 's', 'µs'), { offered });
    expect(placeOf(cycle)).toBe(0.5);
    expect(textAfter(cycle, 1)).toBe('1000 µs');
    expect(textAt(cycle, 0.2)).toBe('250 µs');
    expect(textAfter({ ...cycle, value: written(300e-6, 's', 'µs') }, -3)).toBe('250 µs');
    expect(textAfter({ ...cycle, value: written(300e-6, 's', 'µs') }, 1)).toBe('500 µs');
    expect(textAfter({ ...cycle, value: written(2e-3, 's', 'ms', '2 ms') }, 1)).toBe('2 ms');
    expect(textAfter({ ...cycle, value: written(2e-3, 's', 'ms', '2 ms') }, -1)).toBe('1000 µs');
    expect(placeOf({ ...cycle, value: written(300e-6, 's', 'µs') })).toBeUndefined();
  });

  it('without a span, or with words for a value, is not moved', () => {
    expect(textAt(input(written(1, '1', '1'), {}), 0.5)).toBeUndefined();
    expect(textAfter({ path: 'p', title: 't', value: 'open', span: { least: 0, most: 1 } }, 1)).toBeUndefined();
  });

  it('seeded: every text reads back within the span and within a step of its place', () => {
    const property = fc.property(
      fc.double({ min: 1e-9, max: 1e3, noNaN: true }),
      fc.constantFrom('ns', 'µs', 'ms', 's'),
      fc.double({ min: 0, max: 1, noNaN: true }),
      (value, unit, place) => {
        const moved = input(written(value, 's', unit), { span: { least: 0, most: 3 * value } });
        const read = readQuantity(textAt(moved, place)!, 's');
        if (!('value' in read)) throw new Error(`${textAt(moved, place)} does not read back`);
        expect(Math.abs(read.value - place * 3 * value)).toBeLessThanOrEqual((3 * value) / 50);
        expect(read.value).toBeLessThanOrEqual(3 * value * 1.02);
      },
    );
    fc.assert(property, { seed: 5, numRuns: 500 });
  });
});
