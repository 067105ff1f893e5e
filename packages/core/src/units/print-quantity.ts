// Prints an SI value the way engineers write it: a unit of fitting size, few digits, no powers of ten in the usual range.
import { scaleOf } from './resolve-unit.ts';
import type { Unit } from './si.ts';

export type PrintOptions = {
  /** Significant digits, 1 to 17; 4 unless said, but whole numbers of '1' and 'bit' below a million print in full. */
  readonly digits?: number;
  /** A unit spelling to print in, such as the user's own; `unitChoice` unless said. */
  readonly as?: string;
};

/**
 * '250 µs', '84 octets', '40°', '35 °C'; trailing zeros are trimmed; 'not a number', 'infinite', 'minus infinite'.
 * Throws a RangeError when `as` is no spelling of `unit`; a spelling that `readQuantity` gave for that unit always is.
 */
export function printQuantity(value: number, unit: Unit, options: PrintOptions = {}): string {
  const digits = options.digits ?? usualDigits;
  const as = options.as ?? choose(value, unit, digits);
  const number = printNumberIn(value, unit, as, options.digits === undefined ? {} : { digits });
  if (!Number.isFinite(value) || as === '1' || as === 'cost') return number;
  if (as === '°') return number + as;
  return `${number} ${as === 'octets' && number === '1' ? 'octet' : as}`;
}

/** The spelling that `printQuantity` would choose, so that a column of a table can share one. */
export function unitChoice(value: number, unit: Unit): string {
  return choose(value, unit, usualDigits);
}

/** The number alone, in the spelling `as`: with significant digits, trimmed, or with fixed decimals, untrimmed. */
export function printNumberIn(
  value: number,
  unit: Unit,
  as: string,
  options: { readonly digits?: number } | { readonly decimals: number } = {},
): string {
  if (Number.isNaN(value)) return 'not a number';
  if (!Number.isFinite(value)) return value > 0 ? 'infinite' : 'minus infinite';
  const number = numberIn(value, unit, as);
  if ('decimals' in options) return number.toFixed(options.decimals).replace(/^-(?=[0.]*$)/, '');
  const isCount = (unit === '1' || unit === 'bit') && Number.isInteger(number) && Math.abs(number) < plainBelow;
  return plainNumber(number, options.digits ?? (isCount ? 17 : usualDigits));
}

/** Four digits show 0.05 %, finer than most data in a machine file (our judgement). */
const usualDigits = 4;

/** Between these a number is printed without a power of ten (common practice, no source). */
const plainFrom = 1e-3;
const plainBelow = 1e6;

/**
 * Spellings from small to large; each is chosen from one of it upwards, or from the number behind it: a time of 90 s stays
 * in seconds. Units without an entry are printed in themselves. Common practice, no source.
 */
const ladders: Readonly<Partial<Record<Unit, readonly (string | readonly [string, number])[]>>> = {
  s: ['ns', 'µs', 'ms', 's', ['min', 2], ['h', 2], ['d', 2], ['a', 2]],
  m: ['µm', 'mm', 'm'],
  'm/s': ['mm/s', 'm/s'],
  'm²': ['mm²', ['m²', 0.01]],
  'm³': ['cm³', ['m³', 0.001]],
  's/m': ['ns/m', 'µs/m', 'ms/m', 's/m'],
  's/bit': ['ns/octet', 'µs/octet', 'ms/octet', 's/octet'],
  kg: ['g', 'kg'],
  'kg·m²': ['kg·cm²', ['kg·m²', 0.1]],
  'kg/m²': ['g/m²', 'kg/m²'],
  N: ['mN', 'N', ['kN', 10]],
  N·m: ['mN·m', 'N·m', ['kN·m', 10]],
  Pa: ['Pa', 'kPa', 'MPa', 'GPa'],
  'N/m': ['N/m', 'N/mm', 'N/µm'],
  rad: ['°'],
  Hz: ['mHz', 'Hz', 'kHz', 'MHz', 'GHz'],
  W: ['mW', 'W', 'kW', 'MW'],
  J: ['mJ', 'J', 'kJ', 'MJ'],
  V: ['mV', 'V', ['kV', 10]],
  A: ['mA', 'A', ['kA', 10]],
  Ω: ['mΩ', 'Ω', 'kΩ', 'MΩ'],
  'Ω/m': ['mΩ/m', 'Ω/m'],
  Ω·m: ['Ω·mm²/m'],
  F: ['pF', 'nF', 'µF', ['F', 0.1]],
  'K abs': ['°C'],
  'bit/s': ['bit/s', 'kbit/s', 'Mbit/s', 'Gbit/s'],
};

function choose(value: number, unit: Unit, digits: number): string {
  if (unit === 'bit') return value % 8 === 0 ? 'octets' : 'bit';
  const ladder = ladders[unit] ?? [unit];
  if (value === 0 && ladder.includes(unit)) return unit;
  let chosen: string | undefined;
  for (const rung of ladder) {
    const [spelling, from] = typeof rung === 'string' ? [rung, 1] : rung;
    if (chosen !== undefined && !reaches(Math.abs(numberIn(value, unit, spelling)), from, digits)) break;
    chosen = spelling;
  }
  return chosen ?? unit;
}

/** Whether a number is printed as at least `from`; what is far away is told without rounding it, which is slow. */
function reaches(x: number, from: number, digits: number): boolean {
  return x >= from || (x >= from * 0.9 && rounded(x, digits) >= from);
}

function numberIn(value: number, unit: Unit, as: string): number {
  if (as === unit) return value;
  const scale = scaleOf(as, unit);
  if (!scale) throw new RangeError(`'${as}' is no spelling of the unit ${unit}`);
  return (value * scale.over) / scale.times - scale.before;
}

function rounded(x: number, digits: number): number {
  return Number(x.toPrecision(Math.min(Math.max(digits, 1), 17)));
}

function plainNumber(x: number, digits: number): string {
  const short = rounded(x, digits);
  const size = Math.abs(short);
  if (size === 0) return '0';
  return size >= plainFrom && size < plainBelow ? String(short) : short.toExponential().replace('e+', 'e');
}
