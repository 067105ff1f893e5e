// How values are printed, and that a print can be read again.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type PrintOptions, printNumberIn, printQuantity, unitChoice } from './print-quantity.ts';
import { readQuantity } from './read-quantity.ts';
import { siUnits, type Unit } from './si.ts';
import { usual } from './usual-units.ts';

describe('printQuantity', () => {
  it.each<[value: number, unit: Unit, printed: string, options?: PrintOptions]>([
    [250e-6, 's', '250 µs'],
    [0.00099999, 's', '1 ms'],
    [0.9999, 's', '999.9 ms'],
    [1.5, 's', '1.5 s'],
    [90, 's', '90 s'],
    [120, 's', '2 min'],
    [7200, 's', '2 h'],
    [2 * 86400, 's', '2 d'],
    [2 * 31557600, 's', '2 a'],
    [9999, 'N', '9999 N'],
    [10000, 'N', '10 kN'],
    [9999, 'N·m', '9999 N·m'],
    [10000, 'N·m', '10 kN·m'],
    [0.0099, 'm²', '9900 mm²'],
    [0.01, 'm²', '0.01 m²'],
    [0.00099, 'm³', '990 cm³'],
    [0.001, 'm³', '0.001 m³'],
    [0, 's', '0 s'],
    [-0, 'm', '0 m'],
    [0, 'rad', '0°'],
    [1e-4, 'm', '100 µm'],
    [-0.0125, 'm', '-12.5 mm'],
    [1.23456e-9, 'm', '0.001235 µm'],
    [5e-13, 'm', '5e-7 µm'],
    [1234567, 'm', '1.235e6 m'],
    [123456, 'm', '123500 m'],
    [123456, 'm', '123456 m', { digits: 6 }],
    [672, 'bit', '84 octets'],
    [8, 'bit', '1 octet'],
    [0, 'bit', '0 octets'],
    [12, 'bit', '12 bit'],
    [98760, 'bit', '12345 octets'],
    [1e8, 'bit/s', '100 Mbit/s'],
    [2.5e-9, 's/bit', '20 ns/octet'],
    [12345, '1', '12345'],
    [12345, '1', '12350', { digits: 4 }],
    [0.123456, '1', '0.1235'],
    [0.123456, '1', '0.1', { digits: 1 }],
    [1e-10, '1', '1e-10'],
    [0.2, '1', '20 %', { as: '%' }],
    [0.07, '1', '7 %', { as: '%' }],
    [Math.PI / 4, 'rad', '45°'],
    [100 * Math.PI, 'rad/s', '314.2 rad/s'],
    [100 * Math.PI, 'rad/s', '3000 rpm', { as: 'rpm' }],
    [308.15, 'K abs', '35 °C'],
    [308.15, 'K abs', '95 °F', { as: '°F' }],
    [10, 'K', '18 °F', { as: '°F' }],
    [1.2e-4, 'kg·m²', '1.2 kg·cm²'],
    [1, 'kg·m²', '4 kgf·m² GD²', { as: 'kgf·m² GD²' }],
    [0.22, 'N·m', '220 mN·m'],
    [1500, 'W', '1.5 kW'],
    [5e-9, 's/m', '5 ns/m'],
    [120, 'cost', '120'],
    [Number.NaN, 's', 'not a number'],
    [Number.POSITIVE_INFINITY, 's', 'infinite'],
    [Number.NEGATIVE_INFINITY, '1', 'minus infinite'],
  ])('%d of %s is %s', (value, unit, printed, options) => {
    expect(printQuantity(value, unit, options)).toBe(printed);
  });

  it('refuses a spelling of another unit', () => {
    expect(() => printQuantity(1, 's', { as: 'mm' })).toThrow(new RangeError("'mm' is no spelling of the unit s"));
  });

  it('prints what can be read again, within its digits', () => {
    const exponents = fc.integer({ min: -12, max: 12 });
    const sizes = fc.tuple(fc.double({ min: 1, max: 10, noNaN: true }), exponents).map(([x, n]) => x * 10 ** n);
    const digitCounts = fc.integer({ min: 1, max: 12 });
    fc.assert(
      fc.property(sizes, fc.constantFrom(...siUnits), digitCounts, (size, unit, digits) => {
        // One digit of a temperature in °C may lie below absolute zero, so these begin at 100 K.
        const value = unit === 'K abs' ? size + 100 : size;
        const reading = readQuantity(printQuantity(value, unit, { digits }), unit);
        const error = Math.abs((reading.ok ? reading.value : Number.NaN) - value);
        const printedSize = unit === 'K abs' ? Math.abs(value - 273.15) + 1e-9 : value;
        expect(error).toBeLessThanOrEqual(0.500001 * 10 ** (1 - digits) * printedSize);
      }),
      { seed: 21, numRuns: 5000 },
    );
  });

  it('echoes in every usual spelling what was read in it', () => {
    for (const unit of siUnits) {
      for (const spelling of usual[unit].spellings.filter((word) => word !== 'AWG' && word !== 'cost')) {
        const text = spelling === '' ? '12.5' : spelling === '°' ? '12.5°' : `12.5 ${spelling}`;
        const reading = readQuantity(text, unit);
        const echo = reading.ok ? printQuantity(reading.value, unit, { as: reading.unit }) : reading.message;
        expect(echo).toBe(text);
      }
    }
  });

  it('uses a power of ten only outside a thousandth to a million of the chosen unit', () => {
    const exponents = fc.integer({ min: -15, max: 15 });
    const values = fc.tuple(fc.double({ min: 1, max: 10, noNaN: true }), exponents).map(([x, n]) => x * 10 ** n);
    fc.assert(
      fc.property(values, fc.constantFrom(...siUnits), (value, unit) => {
        for (const as of [unit, unitChoice(value, unit)]) {
          const number = printNumberIn(value, unit, as);
          const size = Math.abs(Number(number));
          expect(number.includes('e')).toBe(size !== 0 && (size < 1e-3 || size >= 1e6));
        }
      }),
      { seed: 22, numRuns: 5000 },
    );
  });
});

it('unitChoice gives a column one unit, and printNumberIn its numbers', () => {
  const as = unitChoice(0.0125, 's');
  expect(as).toBe('ms');
  expect([0.0125, 0.0004, -1e-9, 1.5].map((time) => printNumberIn(time, 's', as, { decimals: 2 }))).toEqual([
    '12.50',
    '0.40',
    '0.00',
    '1500.00',
  ]);
  expect(printNumberIn(0.0125, 's', as)).toBe('12.5');
  expect(printNumberIn(0.0123456, 's', as, { digits: 2 })).toBe('12');
  expect(printNumberIn(Number.NaN, 's', as, { decimals: 2 })).toBe('not a number');
  expect(unitChoice(576, 'bit')).toBe('octets');
  expect(unitChoice(0.99996, 'm')).toBe('m');
});
