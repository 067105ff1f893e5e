// Short ways to write quantities and catalogues in tests.
import type { Unit } from '../units/si.ts';
import { Missing } from './missing.ts';
import { leaf, type Quantity } from './quantity.ts';

/** A given number, in SI. */
export const q = <U extends Unit>(value: number, unit: U, path = 'test'): Quantity<U> =>
  leaf(value, unit, { kind: 'given', path, via: [], writtenAt: path, written: String(value), writtenUnit: unit });

export const octets = (count: number): Quantity<'bit'> => q(8 * count, 'bit');

/** The value of what is known; a test fails with what lacks otherwise. */
export function known(value: Quantity | Missing): number {
  if (value instanceof Missing) throw new Error(JSON.stringify(value.lacks));
  return value.value;
}
