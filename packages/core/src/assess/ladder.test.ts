// Rungs of a ladder: what they say can be written and read, grows from rung to rung, and the next one is the next that can be written.
import { describe, expect, it } from 'vitest';
import { readQuantity } from '../units/read-quantity.ts';
import type { Unit } from '../units/si.ts';
import { type Leaf, leaf } from '../working/quantity.ts';
import { type Ladder, ladderOfDigits, ladderOfWholes } from './ladder.ts';

const written = (text: string, unit: Unit, writtenUnit?: string): Leaf => {
  const read = readQuantity(text, unit);
  const [value, as] = read.ok ? [read.value, read.unit] : [Number.parseFloat(text), '1'];
  return leaf(value, unit, {
    kind: 'given',
    path: 'a.b',
    via: [],
    writtenAt: 'a.b',
    written: text,
    writtenUnit: writtenUnit ?? as,
  }) as Leaf;
};

const around = ({ present, textAt }: Ladder): readonly string[] =>
  [-1, 0, 1].map((by) => textAt(by === 0 ? present : (by < 0 ? Math.ceil(present) : Math.floor(present)) + by));

describe('a ladder of digits', () => {
  it.each<[string, Unit, readonly string[]]>([
    ['500 µs', 's', ['499.9 µs', '500 µs', '500.1 µs']],
    ['1 ms', 's', ['0.9999 ms', '1 ms', '1.001 ms']],
    ['9999 µs', 's', ['9998 µs', '9999 µs', '10000 µs']],
    ['0.0003 s', 's', ['0.0002999 s', '0.0003 s', '0.0003001 s']],
    ['12.3456 mm', 'm', ['12.34 mm', '12.3456 mm', '12.35 mm']],
    ['0 m', 'm', ['-0.000001 m', '0 m', '0.000001 m']],
    ['-20 °C', 'K abs', ['-20.01 °C', '-20 °C', '-19.99 °C']],
    ['40°', 'rad', ['39.99°', '40°', '40.01°']],
    ['25 %', '1', ['24.99 %', '25 %', '25.01 %']],
    ['0.25', '1', ['0.2499', '0.25', '0.2501']],
    ['2.5e3 N', 'N', ['2499 N', '2.5e3 N', '2501 N']],
    ['AWG 18', 'm²', ['0.823 mm²', 'AWG 18', '0.8231 mm²']],
    ['18 AWG', 'm²', ['0.823 mm²', '18 AWG', '0.8231 mm²']],
    ['4 kg·m² GD²', 'kg·m²', ['3.999 kg·m² GD²', '4 kg·m² GD²', '4.001 kg·m² GD²']],
  ])('around %s', (text, unit, expected) => {
    expect(around(ladderOfDigits(written(text, unit)))).toEqual(expected);
  });

  it.each<[string, Unit]>([
    ['500 µs', 's'],
    ['0.3 m', 'm'],
    ['-20 °C', 'K abs'],
    ['7.777 Mbit/s', 'bit/s'],
    ['0 m', 'm'],
  ])('of %s grows with every rung, by a unit in the last of four digits, and reads as it says', (text, unit) => {
    const { lowest, highest, textAt, valueAt, present } = ladderOfDigits(written(text, unit));
    let checked = 0;
    for (let rung = lowest; rung < highest; rung += 1 + Math.floor(Math.abs(rung % 97))) {
      const [number, next] = [rung, rung + 1].map((each) => Number(textAt(each).split(' ')[0]));
      expect(next! > number!, textAt(rung)).toBe(true);
      // In powers of ten: the digits that differ are the fourth; around zero, the smallest rung is the step.
      const size = Math.max(Math.abs(number!), Math.abs(next!));
      const unitInLast = 10 ** (Math.floor(Math.log10(size) + 1e-12) - 3);
      const beside = Math.min(Math.abs(number!), Math.abs(next!));
      if (beside > 0)
        expect((next! - number!) / unitInLast, textAt(rung)).toSatisfy((by: number) => by < 1.001 && by > 0.099);
      const read = readQuantity(textAt(rung), unit);
      if (read.ok) expect(rung === present ? read.value : valueAt(rung), textAt(rung)).toBe(read.value);
      else expect(textAt(rung)).toMatch(/^-/);
      checked++;
    }
    expect(checked).toBeGreaterThan(2000);
  });

  it('reaches six decades to both sides of the decade of the present value', () => {
    const { lowest, highest, textAt } = ladderOfDigits(written('500 µs', 's'));
    expect([textAt(lowest), textAt(0), textAt(1), textAt(highest)]).toEqual([
      '-999900000 µs',
      '0 µs',
      '0.0001 µs',
      '999900000 µs',
    ]);
  });
});

describe('a ladder of whole numbers', () => {
  it.each<[string, Unit, readonly string[]]>([
    ['2', '1', ['1', '2', '3']],
    ['2 cycles', '1', ['1 cycle', '2 cycles', '3 cycles']],
    ['512 octets', 'bit', ['511 octets', '512 octets', '513 octets']],
    ['2 bytes', 'bit', ['1 bytes', '2 bytes', '3 bytes']],
    ['1 octet', 'bit', ['0 octets', '1 octet', '2 octets']],
  ])('around %s', (text, unit, expected) => {
    expect(around(ladderOfWholes(written(text, unit)))).toEqual(expected);
  });

  it('says values in SI, also of what was assumed in another unit than it is printed in', () => {
    expect(ladderOfWholes(written('512 octets', 'bit', 'bit')).valueAt(3)).toBe(24);
    expect(ladderOfWholes(written('4 cycles', '1')).valueAt(3)).toBe(3);
  });

  it('starts at nothing and ends where nobody counts further, or at the present value', () => {
    expect(ladderOfWholes(written('2', '1'))).toMatchObject({ lowest: 0, present: 2, highest: 999_999 });
    expect(ladderOfWholes(written('2000000', '1'))).toMatchObject({ highest: 2_000_000 });
  });
});
