// Compares the size of every spelling with two units libraries, js-quantities 1.8.0 and mathjs 15.2.0.
import Qty from 'js-quantities';
import { all, create } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { readQuantity } from './read-quantity.ts';
import { scaleOf } from './resolve-unit.ts';
import { dimensionOf, siUnits } from './si.ts';
import { symbols } from './symbols.ts';
import { usual } from './usual-units.ts';

const math = create(all!);
const spellings = [...new Set([...symbols.keys(), ...Object.values(usual).flatMap((entry) => entry.spellings)])];

/** Sizes where js-quantities is rounded, or means another thing by the word; mathjs or a published value checks them. */
const elsewhere = new Set([
  ...['year', 'years', 'oz', 'lbf', 'slug', 'psi'],
  ...['lb·in', 'lb·in/rad', 'oz·in', 'oz·in·s²', 'oz·in/A'],
]);

/** Sizes that js-quantities has rounded or does not know, in the words of mathjs. */
const inMathjs = [
  ['oz', 'kg', 'ounce'],
  ['lbf', 'N', 'lbf'],
  ['ozf', 'N', 'lbf / 16'],
  ['slug', 'kg', 'lbf s^2 / ft'],
  ['psi', 'Pa', 'lbf / in^2'],
  ['kgf', 'N', 'kilogramforce'],
  ['gf', 'N', 'kilogramforce / 1000'],
  ['hp_mechanical', 'W', '550 ft lbf / s'],
  ['hp_metric', 'W', '75 kilogramforce m / s'],
  ['ton_us', 'kg', 'ton'],
  ['ton_uk', 'kg', '2240 lbm'],
  ['a', 's', 'year'],
  ['thou', 'm', 'mil'],
  ['octets', 'bit', '8 b'],
  ['Moctet', 'bit', '1e6 byte'],
  ['lb·in', 'N·m', 'lbf inch'],
  ['oz·in', 'N·m', 'lbf inch / 16'],
  ['ft·lb', 'N·m', 'lbf ft'],
  ['lb·in/rad', 'N·m/rad', 'lbf inch'],
  ['oz·in/A', 'N·m/A', 'lbf inch / 16 A'],
  ['oz·in·s²', 'kg·m²', 'lbf inch s^2 / 16'],
  ['lb·in·s²', 'kg·m²', 'lbf inch s^2'],
  ['lb·ft²', 'kg·m²', 'lbm ft^2'],
  ['kgf·cm·s²', 'kg·m²', 'kilogramforce cm s^2'],
  ['lb/in', 'N/m', 'lbf / inch'],
  ['W/(m²·K)', 'W/(m²·K)', 'W / (m^2 K)'],
  ['K/W', 'K/W', 'K / W'],
  ['Wh/K', 'J/K', 'W hour / K'],
  ['°F/W', 'K/W', '5/9 K / W'],
  ['year', 's', '365.25 day'],
  ['years', 's', '365.25 day'],
  ['‰', '1', '1 / 1000'],
  ['K', 'K', 'K'],
  ['mK', 'K', 'K / 1000'],
  ['ohms', 'Ω', 'ohm'],
  ['turn', 'rad', '360 deg'],
  ['turns', 'rad', '360 deg'],
  ['rps', 'rad/s', '360 deg / s'],
  ['g_n', 'm/s²', '9.80665 m / s^2'],
  ['octet', 'bit', '8 b'],
  ['koctet', 'bit', '1e3 byte'],
  ['Goctet', 'bit', '1e9 byte'],
  ['ns/octet', 's/bit', 'ns / byte'],
  ['µs/octet', 's/bit', 'us / byte'],
  ['dB/(100 m)', 'dB/m', '1 / (100 m)'],
  ['W/K', 'W/K', 'W / K'],
  ['1/K', '1/K', '1 / K'],
  ['%/K', '1/K', '1 / (100 K)'],
  ['J/K', 'J/K', 'J / K'],
  ['kJ/K', 'J/K', 'kJ / K'],
  ['kg·m² GD²', 'kg·m²', '1/4 kg m^2'],
  ['lb/in²', 'Pa', 'lbf / in^2'],
  ['kgf/cm²', 'Pa', 'kilogramforce / cm^2'],
] as const;

describe('js-quantities 1.8.0', () => {
  const known = spellings.flatMap((spelling) => {
    const due = siUnits.find((unit) => unit !== 'K abs' && spelling !== '' && scaleOf(spelling, unit));
    const theirs = due && !elsewhere.has(spelling) ? theirSize(spelling) : undefined;
    return due && theirs !== undefined ? [{ spelling, due, theirs: theirs * 8 ** (dimensionOf[due].bit ?? 0) }] : [];
  });

  it.each(known)('$spelling', ({ spelling, due, theirs }) => {
    expect(relativeError(sizeOf(spelling, due), theirs)).toBeLessThan(1e-12);
  });

  it('and mathjs compare every spelling but those without a size', () => {
    const compared = new Set([...known.map(({ spelling }) => spelling), ...inMathjs.map(([spelling]) => spelling)]);
    expect(spellings.filter((spelling) => !compared.has(spelling))).toEqual(['abs', 'cost', '', 'AWG']);
    expect([spellings.length, known.length]).toEqual([271, 222]);
  });
});

describe('mathjs 15.2.0, where js-quantities is rounded or silent', () => {
  it.each(inMathjs)('%s of %s', (spelling, due, expression) => {
    expect(relativeError(sizeOf(spelling, due), sizeInMathjs(expression))).toBeLessThan(1e-12);
  });

  it.each([
    [35, '°C', 'degC'],
    [95, '°F', 'degF'],
    [-40, '°F', 'degF'],
  ] as const)('%d %s as a temperature', (number, spelling, unit) => {
    const reading = readQuantity(`${number} ${spelling}`, 'K abs');
    const theirs = math.unit(number, unit).toNumber('K');
    expect(relativeError(reading.ok ? reading.value : Number.NaN, theirs)).toBeLessThan(1e-12);
  });
});

function sizeInMathjs(expression: string): number {
  const size = math.evaluate(`1 * (${expression})`);
  return typeof size === 'number' ? size : size.value;
}

function sizeOf(spelling: string, due: (typeof siUnits)[number]): number {
  const reading = readQuantity(`1 ${spelling}`, due);
  return reading.ok ? reading.value : Number.NaN;
}

/** The size in base units, or undefined where js-quantities does not know the spelling. */
function theirSize(spelling: string): number | undefined {
  const text = spelling
    .replace(/·/g, '*')
    .replace(/²/g, '^2')
    .replace(/³/g, '^3')
    .replace(/Ω/g, 'ohm')
    .replace(/°C/g, 'degC')
    .replace(/°F/g, 'degF')
    .replace(/°/g, 'deg')
    .replace(/\brev\b/, 'rotation');
  try {
    return Qty(`1 ${text}`).toBase().scalar;
  } catch {
    return undefined;
  }
}

function relativeError(ours: number, theirs: number): number {
  return Math.abs(ours - theirs) / Math.abs(theirs);
}
