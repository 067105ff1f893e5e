// The values that can be written in place of a number, one above the other, each with a whole number for its rung.
import { printNumberIn } from '../units/print-quantity.ts';
import { readQuantity } from '../units/read-quantity.ts';
import type { Unit } from '../units/si.ts';
import type { Origin } from '../working/origin.ts';
import type { Leaf } from '../working/quantity.ts';

export interface Ladder {
  /** Where the present value stands; between two rungs where it has more digits than a rung. */
  readonly present: number;
  readonly lowest: number;
  readonly highest: number;
  /** As the user would write it, in the unit that the number is written in; of the present value, as it is written. */
  readonly textAt: (rung: number) => string;
  /** In SI, of a value that the file can have. */
  readonly valueAt: (rung: number) => number;
}

/** Digits of a rung of a quantity: as many as are usually printed (our judgement). */
const digits = 4;
/** A quantity is looked for as far as this many decades from its present value, on both sides of zero (our judgement). */
const decades = 6;
/** The largest whole number that is looked for, where the present one is not larger (our judgement). */
const largestWhole = 999_999;

const rungsOfDecade = 9 * 10 ** (digits - 1);
const firstOfDecade = 10 ** (digits - 1);

/** Values of four significant digits, zero in the middle; one rung is one unit in the last digit. */
export function ladderOfDigits(leaf: Leaf): Ladder {
  const { number } = writingOf(leaf);
  // A number that is zero tells no size: it is looked for around one of its unit.
  const bottom = exponentOf(number === 0 ? 1 : number) - decades;
  const present = Math.sign(number) * rungOf(Math.abs(number), bottom);
  const highest = (2 * decades + 1) * rungsOfDecade;
  const numberAt = (rung: number): number => Math.sign(rung) * numberOf(Math.abs(rung), bottom);
  return ladder(leaf, { present, lowest: -highest, highest }, numberAt);
}

/** Whole numbers from zero on, of what is counted: cycles, octets, repeats. */
export function ladderOfWholes(leaf: Leaf): Ladder {
  const present = writingOf(leaf).number;
  return ladder(leaf, { present, lowest: 0, highest: Math.max(largestWhole, present) }, (rung) => rung);
}

function ladder(
  leaf: Leaf,
  ends: Pick<Ladder, 'present' | 'lowest' | 'highest'>,
  numberAt: (rung: number) => number,
): Ladder {
  const { written } = leaf.by;
  const { spelling, behind } = writingOf(leaf);
  const isPresent = (rung: number): boolean => rung === ends.present;
  return {
    ...ends,
    textAt: (rung) => (isPresent(rung) ? written : numberAt(rung) + counting(behind, numberAt(rung))),
    valueAt: (rung) => (isPresent(rung) ? leaf.value : siOf(numberAt(rung), spelling, leaf.unit)!),
  };
}

/** One octet, two octets. */
const counting = (behind: string, number: number): string =>
  behind.replace(/^( ?)(octet|cycle)s?$/, number === 1 ? '$1$2' : '$1$2s');

/** The value in SI of a number in a spelling; nothing where the two cannot be read together. */
export function siOf(number: number, spelling: string, unit: Unit): number | undefined {
  const read = readQuantity(spelling === '1' ? String(number) : `${number} ${spelling}`, unit);
  return read.ok ? read.value : undefined;
}

interface Writing {
  readonly number: number;
  readonly spelling: string;
  /** What stands behind the number: ' ms', '°', ' cycles'. */
  readonly behind: string;
}

/** A number as it is written. What is not written as a number with a unit behind it ('AWG 18') is echoed in its unit. */
export function writingOf({ value, unit, by }: Leaf): Writing {
  const { written, writtenUnit } = by as Origin;
  const read = readQuantity(written, unit);
  const spelling = read.ok ? read.unit : writtenUnit;
  const [, number, behind] = /^\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)(.*)$/.exec(written) ?? [];
  if (number !== undefined && behind !== undefined && !/^\s*AWG/i.test(behind))
    return { number: Number(number), spelling, behind };
  const echoed = Number(printNumberIn(value, unit, spelling, { digits: 12 }));
  return { number: echoed, spelling, behind: spelling === '1' ? '' : ` ${spelling}` };
}

// ── positive numbers and their rungs: 1 is the first value of the bottom decade ──────────────────────────────────────

function rungOf(number: number, bottom: number): number {
  if (number === 0) return 0;
  const [mantissa = '', exponent = ''] = number.toExponential().split('e');
  const figures = mantissa.replace('.', '').padEnd(digits, '0');
  const rung = (Number(exponent) - bottom) * rungsOfDecade + Number(figures.slice(0, digits)) - firstOfDecade + 1;
  return figures.length > digits ? rung + 0.5 : rung;
}

function numberOf(rung: number, bottom: number): number {
  if (rung === 0) return 0;
  const decade = Math.floor((rung - 1) / rungsOfDecade);
  const figures = firstOfDecade + ((rung - 1) % rungsOfDecade);
  // From its digits, so that 0.3 is not 0.30000000000000004.
  return Number(`${figures}e${bottom + decade - digits + 1}`);
}

const exponentOf = (number: number): number => Number(number.toExponential().split('e')[1]);
