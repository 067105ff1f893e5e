// Says what is wrong with a text that does not begin with one plain number, and which number it may stand for.
import type { Unit } from './si.ts';
import { join, oneOf, propose, quote, type UnitProblem, type UnitProblemCode } from './unit-problems.ts';
import { meantByMark } from './unit-trouble.ts';
import { usual } from './usual-units.ts';

/** `text` is canonical, and no number that `readQuantity` knows stands at its start. */
export function numberProblem(text: string, due: Unit): UnitProblem {
  const words = text.trim();
  const from = text.length - text.trimStart().length;
  const said = (code: UnitProblemCode, piece: string, message: string, remedy: string): UnitProblem => {
    return { ok: false, code, message, remedy, from, to: from + piece.length };
  };
  if (words === '')
    return said('number-expected', '', `nothing is written; ${usual[due].measures} is due here`, propose(due));

  const fraction = /^([+-]?)(?:(\d{1,9})\s+)?(\d{1,9})\/(\d{1,9})(?!\d)/.exec(words);
  if (fraction && Number(fraction[4]) > 0) {
    const [all, sign, whole = '0', above, below] = fraction;
    const value = Number((Number(whole) + Number(above) / Number(below)).toPrecision(6));
    const remedy = `Write ${withUnit([`${sign}${value}`], words.slice(all.length), due)}.`;
    return said('number-expected', all, `${quote(all)} is a fraction; a decimal number is due`, remedy);
  }

  const [all = '', digits = '', exponent = ''] =
    /^([+-]?[\d.,_'’]+(?:\s\d{3}(?!\d)[\d.,_'’]*)*)([eE][+-]?\d+)?/.exec(words) ?? [];
  const options = plainNumbers(digits, exponent);
  const instead = withUnit(options, words.slice(all.length), due);
  if (options.length > 0 && digits.includes(',')) {
    const message = `${quote(digits)} has a comma, which separates decimals for some and thousands for others`;
    return said('decimal-comma', digits, message, `Write ${instead}; the decimal sign is the point.`);
  }
  if (options.length > 0) {
    return said('digit-grouping', digits, `${quote(digits)} has its digits in groups`, `Write ${instead}.`);
  }
  if (/^[+-]?\s*(\.?inf(inity)?|\.?nan|∞)(?![a-z])/i.test(words)) return notFinite(text, due);
  const number = /\d/.test(digits) ? 'one plain number' : 'a number';
  return said('number-expected', words, `${quote(words)} does not begin with ${number}`, propose(due));
}

export function notFinite(text: string, due: Unit): UnitProblem {
  const message = `${quote(text.trim())} is not a finite number`;
  return { ok: false, code: 'number-not-finite', message, remedy: propose(due), from: 0, to: text.length };
}

/** 'a, b or c', each with the unit that stands behind the number, or with the advice to add one. */
function withUnit(numbers: readonly string[], behind: string, due: Unit): string {
  const spelling = behind.trim();
  const unit = meantByMark(spelling, due) ?? spelling;
  const usually = unit === '' ? usual[due].spellings[0]! : '';
  const missing = usually === '' ? '' : ` with its unit, such as ${usually}`;
  return oneOf(numbers.map((number) => join(number, unit))) + missing;
}

/** The plain numbers that digits with a comma or in groups may stand for: 1.5 and 1500 for `1,500`. */
function plainNumbers(digits: string, exponent: string): string[] {
  const readings: string[] = [];
  if (/^[+-]?\d*,\d+$/.test(digits)) readings.push(digits.replace(',', '.'));
  if (/^[+-]?[1-9]\d{0,2}([.\s_'’]\d{3})+,\d+$/.test(digits)) {
    readings.push(digits.replace(/[.\s_'’]/g, '').replace(',', '.'));
  }
  if (/^[+-]?[1-9]\d{0,2}([,_'’\s]\d{3})+(\.\d+)?$/.test(digits)) readings.push(digits.replace(/[,_'’\s]/g, ''));
  else if (/^[+-]?[1-9]\d{0,2}(\.\d{3}){2,}$/.test(digits)) readings.push(digits.replaceAll('.', ''));
  return readings
    .map((reading) => Number(reading + exponent))
    .filter(Number.isFinite)
    .map(String);
}
