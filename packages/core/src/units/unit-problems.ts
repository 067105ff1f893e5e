// The problems of reading a quantity: their form, and the wording of those that concern the unit.
import { printQuantity } from './print-quantity.ts';
import { scaleOf } from './resolve-unit.ts';
import type { Unit } from './si.ts';
import type { Trouble } from './unit-trouble.ts';
import { usual } from './usual-units.ts';

export const unitProblemCodes = [
  'number-expected',
  'number-not-finite',
  'decimal-comma',
  'digit-grouping',
  'out-of-range',
  'unit-missing',
  'unit-unknown',
  'unit-wrong',
  'unit-ambiguous',
] as const;
export type UnitProblemCode = (typeof unitProblemCodes)[number];

/** `message` says what is wrong, `remedy` in one line what to write; `from` and `to` are places in the text that was read. */
export interface UnitProblem {
  readonly ok: false;
  readonly code: UnitProblemCode;
  readonly message: string;
  readonly remedy: string;
  readonly from: number;
  readonly to: number;
}

/** A number as it was written, and its value. */
export interface WrittenNumber {
  readonly text: string;
  readonly value: number;
}

/** Words the trouble with `spelling`, which begins at `start` of the text and stands behind `number`. */
export function unitProblem(
  spelling: string,
  start: number,
  number: WrittenNumber,
  due: Unit,
  trouble: Trouble,
): UnitProblem {
  const { measures } = usual[due];
  const place = { from: start + trouble.from, to: start + trouble.to };
  const said = (code: UnitProblemCode, message: string, remedy: string): UnitProblem => {
    return { ok: false, code, message, remedy, ...place };
  };
  switch (trouble.kind) {
    case 'malformed':
      return said('unit-unknown', `${quote(spelling)} cannot be read as a unit; ${measures} is due here`, propose(due));
    case 'unknown': {
      const word = quote(spelling.slice(trouble.from, trouble.to));
      const remedy =
        trouble.meant === undefined ? propose(due) : `Write ${join(number.text, trouble.meant)} if that is meant.`;
      return said('unit-unknown', `${word} is not a unit known here; ${measures} is due`, remedy);
    }
    case 'wrong': {
      const is = trouble.measures ? `is ${trouble.measures}; ${measures} is due here` : `does not measure ${measures}`;
      return said('unit-wrong', `${quote(spelling)} ${is}`, propose(due));
    }
    case 'ambiguous': {
      const spellings =
        trouble.readings.length > 1 ? trouble.readings : [...trouble.readings, usual[due].spellings[0]!];
      const sizes = spellings.map((reading) => sizeOf(reading, due));
      const different = spellings.filter((_, i) => sizes.indexOf(sizes[i]!) === i);
      const options = different.map((reading) => withValue(number, reading, due));
      const message = `${quote(spelling)} can be read in more than one way where ${measures} is due`;
      return said('unit-ambiguous', message, `Write ${oneOf(options)}.`);
    }
  }
}

/** 'Write a torque such as 12 N·m; usual units are N·m, N·cm and lb·in.' */
export function propose(due: Unit): string {
  const { measures, example, spellings } = usual[due];
  const units = spellings.filter((spelling) => spelling !== '').slice(0, 3);
  const usually = units.length > 1 ? `; usual units are ${units.slice(0, -1).join(', ')} and ${units.at(-1)}` : '';
  return `Write ${measures} such as ${example}${usually}.`;
}

/** '40°', but '20 %' (SI brochure, 9th edition, 5.4.3 and 5.4.7; from memory). */
export function join(number: string, unit: string): string {
  return unit === '' || unit === '°' ? number + unit : `${number} ${unit}`;
}

/** A piece of the user's text, shortened to a line. */
export function quote(text: string): string {
  const characters = [...text.slice(0, 100)];
  return `'${characters.length > 40 ? `${characters.slice(0, 39).join('')}…` : text}'`;
}

/** 'a', 'a or b', 'a, b or c'. */
export function oneOf(options: readonly string[]): string {
  return options.length < 2 ? options.join('') : `${options.slice(0, -1).join(', ')} or ${options.at(-1)}`;
}

function withValue(number: WrittenNumber, spelling: string, due: Unit): string {
  const written = join(number.text, spelling);
  const value = printQuantity(number.value * sizeOf(spelling, due), due);
  return value === written ? written : `${written} (${value})`;
}

/** The size of a spelling that fits; 1 of a bare number. */
function sizeOf(spelling: string, due: Unit): number {
  const { times, over } = scaleOf(spelling, due) ?? { times: 1, over: 1 };
  return times / over;
}
