// Reads a number with its unit, as an engineer types it, into SI.
import { notFinite, numberProblem } from './number-problem.ts';
import { type Scale, scaleOf } from './resolve-unit.ts';
import type { Unit } from './si.ts';
import { canonical } from './spelling.ts';
import { join, oneOf, propose, quote, type UnitProblem, unitProblem } from './unit-problems.ts';
import { troubleOf } from './unit-trouble.ts';
import { usual } from './usual-units.ts';
import { wireGaugeArea } from './wire-gauge.ts';

/** `written` is the user's text in one form, `unit` the spelling used, so that results can be echoed in the user's unit. */
export type QuantityReading =
  | { readonly ok: true; readonly value: number; readonly written: string; readonly unit: string }
  | UnitProblem;

/**
 * Reads `text` where the unit `due` is due; `value` is in that unit. Never throws. Beside unit spellings it knows
 * - `AWG 18`, `18 AWG`, `AWG 2/0` where an area is due; results are echoed in mm²;
 * - `4 kg·m² GD²`, `4 kgf·m² GD²`, `GD² 4 kgf·m²` where an inertia is due: J = GD²/4;
 * - `1/min` where an angular speed is due, and in `V/(1000 min⁻¹)`: revolutions per minute;
 * - `lb·in`, `oz-in`, `ft·lb`, `lb·in·s²`, `lb/in`: pounds and ounces in a product are forces where only a force fits;
 * - `°C` and `°F` as temperatures where 'K abs' is due, as differences where 'K' is due and in `°C/W`.
 * A bare number is right where '1' or 'cost' is due. The decimal sign is the point.
 */
export function readQuantity(text: string, due: Unit): QuantityReading {
  const clean = canonical(text);
  const found = numberAtStart.exec(clean);
  if (!found) return readSpecial(clean, due) ?? numberProblem(clean, due);
  const number = found[1]!;
  const spelling = clean.slice(found[0].length).trimEnd();
  const isBare = spelling === '' && (due === '1' || due === 'cost');
  const scale = isBare ? asWritten : scaleOf(spelling, due);
  if (!scale) return readSpecial(clean, due) ?? unitTrouble(spelling, found[0].length, number, due);
  const value = scaled(number, scale);
  if (!Number.isFinite(value)) return notFinite(clean, due);
  if (due === 'K abs' && value < 0) return belowAbsoluteZero(clean);
  const unit = spelling.replace(/\s+/g, ' ');
  return { ok: true, value, written: join(number, unit), unit: isBare ? due : unit };
}

/** A plain number, not followed by what would make it another: more digits, a comma, digit groups, a fraction. */
const numberAtStart =
  /^\s*([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?)(?![\d.,_]|['’/]\d|\s\d{3}(?!\d)|\s+\d+\/\d)\s*/;

const asWritten: Scale = { before: 0, times: 1, over: 1, shift: 0 };

/** A decimal shift is left to the reading of the digits, so that 1.2 kg·cm² is exactly 1.2e-4. */
function scaled(number: string, scale: Scale): number {
  if (scale.shift !== undefined && !/e/i.test(number)) return Number(`${number}e${scale.shift}`);
  return ((Number(number) + scale.before) * scale.times) / scale.over;
}

function unitTrouble(spelling: string, start: number, number: string, due: Unit): UnitProblem {
  if (spelling !== '') {
    const written = { text: number, value: Number(number) };
    return unitProblem(spelling, start, written, due, troubleOf(spelling, due));
  }
  const options = usual[due].spellings.slice(0, 3).map((unit) => join(number, unit));
  const message = `${quote(number)} has no unit; ${usual[due].measures} is due here`;
  return { ok: false, code: 'unit-missing', message, remedy: `Write ${oneOf(options)}.`, from: start, to: start };
}

function belowAbsoluteZero(clean: string): UnitProblem {
  const message = `${quote(clean.trim())} is below absolute zero`;
  const remedy = 'Write a temperature above -273.15 °C.';
  return { ok: false, code: 'out-of-range', message, remedy, from: 0, to: clean.length };
}

/** Wire gauges, and the flywheel effect with its sign in front. */
function readSpecial(clean: string, due: Unit): QuantityReading | undefined {
  const text = clean.trim();
  const whole = { ok: false as const, from: 0, to: clean.length };
  const turned = /^(GD(?:²|\^?2))\s*=?\s*([+\-.\d].*)$/s.exec(text);
  if (turned) {
    const reading = readQuantity(`${turned[2]} ${turned[1]}`, due);
    return reading.ok ? { ...reading, written: text } : { ...reading, ...whole };
  }
  if (!/^AWG(?![A-Za-z])|[\d\s]AWG$/i.test(text)) return undefined;
  const value = wireGaugeArea(text);
  if (value === undefined) {
    const remedy = 'Write AWG 4/0 to AWG 56, or the area such as 0.75 mm².';
    return { ...whole, code: 'unit-unknown', message: `${quote(text)} is not a wire gauge known here`, remedy };
  }
  if (due === 'm²') return { ok: true, value, written: text, unit: 'mm²' };
  const message = `${quote(text)} is the area of a wire; ${usual[due].measures} is due here`;
  return { ...whole, code: 'unit-wrong', message, remedy: propose(due) };
}
