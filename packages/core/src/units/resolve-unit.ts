// Decides what a unit spelling means where a given unit is due.
import { sameDimension } from './dimension.ts';
import { dimensionOf, siUnits, type Unit } from './si.ts';
import { longestSpelling, type Term, takeApart } from './spelling.ts';
import { type Meaning, measure, separate, symbols } from './symbols.ts';

/**
 * A number x in the spelling is `(x + before) * times / over` in the unit that is due; only temperatures have a `before`.
 * `shift` is there when the whole scale is a power of ten.
 */
export interface Scale {
  readonly before: number;
  readonly times: number;
  readonly over: number;
  readonly shift?: number;
}

/** The scale of a trimmed, canonical spelling where `due` is due, or undefined: `troubleOf` says why. */
export function scaleOf(spelling: string, due: Unit): Scale | undefined {
  const seen = scales[due];
  const known = seen.get(spelling);
  if (known !== undefined || seen.has(spelling)) return known;
  const scale = findScale(spelling, due);
  if (spelling.length <= longestSpelling) {
    if (seen.size >= mostSpellings) seen.clear();
    seen.set(spelling, scale);
  }
  return scale;
}

/** `kg·m² GD²`: the flywheel effect, weight times diameter squared, is four times the inertia (common practice, no source). */
export const flywheel = /^(.*\S)\s*GD(?:²|\^?2)$/;

/** Imperial sheets write the force as the mass; read so only in a product: a torque (`lb·in`), a stiffness (`lb/in`). */
export const poundAsForce: ReadonlyMap<string, string> = new Map(Object.entries({ lb: 'lbf', lbs: 'lbf', oz: 'ozf' }));

/** What stands before the degree at absolute zero. Source: NIST SP 811, B.8 (from memory). */
export const zeros: ReadonlyMap<string, number> = new Map(
  Object.entries({ K: 0, '°C': 273.15, degC: 273.15, '°F': 459.67, degF: 459.67 }),
);

export function exchange(terms: readonly Term[], words: ReadonlyMap<string, string>): readonly Term[] {
  return terms.map((term) => ({ ...term, word: words.get(term.word) ?? term.word }));
}

/** Our judgement: many more than one machine file uses; the bound keeps a long-running server small. */
const mostSpellings = 500;

/** What does not fit is kept as well, since a value in one of two units is tried against the one that it may not have. */
const scales = Object.fromEntries(siUnits.map((unit) => [unit, new Map()])) as Record<
  Unit,
  Map<string, Scale | undefined>
>;

function findScale(spelling: string, due: Unit): Scale | undefined {
  const doubled = due === 'kg·m²' && flywheel.exec(spelling);
  if (doubled) {
    const inertia = findPlainScale(doubled[1]!.replace('kgf', 'kg'), due);
    return inertia && { before: 0, times: inertia.times, over: inertia.over * 4 };
  }
  const zero = due === 'K abs' ? zeros.get(spelling) : undefined;
  if (zero !== undefined) {
    const { times, over } = symbols.get(spelling)!;
    return { before: zero, times, over };
  }
  return findPlainScale(spelling, due);
}

function findPlainScale(spelling: string, due: Unit): Scale | undefined {
  const parts = takeApart(spelling);
  if (!parts.ok) return undefined;
  const terms = separate(parts.terms);
  const fitting = (candidate: readonly Term[]): Meaning | undefined => {
    const measured = measure(candidate, parts.over);
    return measured.ok && sameDimension(measured.meaning.dimension, dimensionOf[due]) ? measured.meaning : undefined;
  };
  const inProduct = terms.length > 1 ? exchange(terms, poundAsForce) : terms;
  const found = fitting(terms) ?? fitting([...terms, ...revolutionsIn(terms)]) ?? fitting(inProduct);
  return found && { before: 0, times: found.times, over: found.over, ...shiftOf(found) };
}

/** `1/min` is the usual spelling of a motor's speed in revolutions (rating plates of IEC 60034-1; from memory). */
function revolutionsIn(terms: readonly Term[]): readonly Term[] {
  return terms.filter((term) => term.word === 'min').map((term) => ({ ...term, word: 'rev', power: -term.power }));
}

function shiftOf({ times, over }: Meaning): { shift?: number } {
  const shift = Math.round(Math.log10(times / over));
  return times / over === Number(`1e${shift}`) ? { shift } : {};
}
