// Finds out why a unit spelling means nothing where a given unit is due, and what may have been meant.
import { sameDimension } from './dimension.ts';
import { nearest } from './nearest.ts';
import { exchange, flywheel, poundAsForce, scaleOf, zeros } from './resolve-unit.ts';
import { dimensionOf, siUnits, type Unit } from './si.ts';
import { putTogether, type Term, takeApart } from './spelling.ts';
import { separate, symbols } from './symbols.ts';
import { usual } from './usual-units.ts';

/** `readings` and `meant` are whole spellings that fit; `from` and `to` are places in the spelling. */
export type Trouble = { readonly from: number; readonly to: number } & (
  | { readonly kind: 'malformed' }
  | { readonly kind: 'unknown'; readonly meant: string | undefined }
  | { readonly kind: 'ambiguous'; readonly readings: readonly string[] }
  | { readonly kind: 'wrong'; readonly measures: string | undefined }
);

/** Why `scaleOf` gives nothing for this spelling. */
export function troubleOf(spelling: string, due: Unit): Trouble {
  const whole = { from: 0, to: spelling.length };
  const decide = (candidates: readonly string[]): Trouble => {
    const readings = [...new Set(candidates)].filter((candidate) => scaleOf(candidate, due));
    if (readings.length > 0) return { ...whole, kind: 'ambiguous', readings };
    return { ...whole, kind: 'wrong', measures: measuredBy(spelling) ?? measuredBy(candidates[0] ?? '') };
  };
  const meant = meantByMark(spelling, due);
  if (meant !== undefined) return { ...whole, kind: 'unknown', meant };
  if (flywheel.test(spelling)) return { ...whole, kind: 'wrong', measures: measuredBy(spelling) };

  const parts = takeApart(spelling);
  if (!parts.ok) {
    return parts.readings.length > 0 ? decide(parts.readings) : { kind: 'malformed', from: parts.from, to: parts.to };
  }
  const terms = separate(parts.terms);
  const several = terms.find((term) => severalMeanings.has(term.word));
  if (several) return decide(severalMeanings.get(several.word)!.map((word) => replaceWord(spelling, several, word)));
  const unknown = terms.find((term) => !symbols.has(term.word));
  if (!unknown) return decide(parts.over === 1 ? otherReadings(terms, due) : []);

  const words = terms.length === 1 ? [...usual[due].spellings, ...symbols.keys()] : [...symbols.keys()];
  return { kind: 'unknown', from: unknown.from, to: unknown.to, meant: meantBy(spelling, unknown, words, due) };
}

/** The unit behind a sign for it that fits: inches for `"`, and `1/min` for the `/min` of `60/min`. */
export function meantByMark(spelling: string, due: Unit): string | undefined {
  const candidates = spelling.startsWith('/') ? [`1${spelling}`] : marks.get(spelling);
  return candidates?.find((candidate) => scaleOf(candidate, due));
}

/** Signs that stand for one unit of length and another of angle (common practice, no source). */
const marks: ReadonlyMap<string, readonly string[]> = new Map(
  Object.entries({
    ...{ "'": ['ft', 'arcmin'], '’': ['ft', 'arcmin'], '′': ['ft', 'arcmin'] },
    ...{ '"': ['in', 'arcsec'], '”': ['in', 'arcsec'], '″': ['in', 'arcsec'] },
  }),
);

/**
 * The spelling with the nearest of `words` that makes it fit; the nearest are tried first, since trying takes the time.
 * A word that only lacks letters in front is passed over: for `usec` it would be `sec`, a million times too long.
 */
function meantBy(spelling: string, unknown: Term, words: Iterable<string>, due: Unit): string | undefined {
  const left = new Set(words);
  for (let word = nearest(unknown.word, left); word !== undefined; word = nearest(unknown.word, left)) {
    const meant = replaceWord(spelling, unknown, word);
    if (!unknown.word.endsWith(word) && scaleOf(meant, due)) return meant;
    left.delete(word);
  }
  return undefined;
}

/** Words of the trade that have several sizes; none is guessed. */
const severalMeanings: ReadonlyMap<string, readonly string[]> = new Map(
  Object.entries({
    ...{ hp: ['hp_metric', 'hp_mechanical'], HP: ['hp_metric', 'hp_mechanical'] },
    ...{ ton: ['t', 'ton_us', 'ton_uk'], tons: ['t', 'ton_us', 'ton_uk'] },
    ...{ ...thousands('k', ['koctet', 'KiB']), ...thousands('K', ['koctet', 'KiB']) },
    ...{ ...thousands('M', ['Moctet', 'MiB']), ...thousands('G', ['Goctet', 'GiB']) },
    ...{ b: ['bit', 'octets'], kb: ['kbit', 'koctet'], Mb: ['Mbit', 'Moctet'], Gb: ['Gbit', 'Goctet'] },
  }),
);

/** Thousands of bytes, which some count by 1000 and some by 1024, under each of their names. */
function thousands(prefix: string, readings: readonly string[]): Record<string, readonly string[]> {
  return Object.fromEntries(['B', 'byte', 'bytes', 'Byte', 'Bytes'].map((name) => [prefix + name, readings]));
}

/** Sheets in kilograms of force write it as the mass too; never read so without asking. */
const kilogramAsForce: ReadonlyMap<string, string> = new Map(Object.entries({ kg: 'kgf', g: 'gf' }));

/** Spellings that may have been meant, fitting or not: a force written as a mass, gravity, a missing power, a missing angle. */
function otherReadings(terms: readonly Term[], due: Unit): string[] {
  const exchanges = [poundAsForce, kilogramAsForce, new Map([['g', 'g_n']])];
  const readings = exchanges.map((words) => putTogether(exchange(terms, words)));
  if (due === 'kg·m²') {
    const measures = (term: Term, unit: Unit) => sameDimension(symbols.get(term.word)!.dimension, dimensionOf[unit]);
    if (terms.some((term) => term.word === 'kgf')) {
      readings.push(putTogether(exchange(terms, new Map([['kgf', 'kg']]))), `${putTogether(terms)} GD²`);
    } else if (terms.some((term) => measures(term, 'kg'))) {
      readings.push(putTogether(terms.map((term) => ({ ...term, power: term.power + (measures(term, 'm') ? 1 : 0) }))));
      readings.push(putTogether([...exchange(terms, kilogramAsForce), { word: 's', power: 2 }]));
    }
  }
  const power = dimensionOf[due].rad ?? 0;
  if (power !== 0 && due !== 'rad') {
    readings.push(
      ...['rev', 'rad'].map((word) =>
        putTogether(power > 0 ? [{ word, power }, ...terms] : [...terms, { word, power }]),
      ),
    );
  }
  return readings;
}

function replaceWord(spelling: string, term: Term, word: string): string {
  return spelling.slice(0, term.from) + word + spelling.slice(term.to);
}

/** What a spelling measures, in words, if it measures one of the closed list. */
function measuredBy(spelling: string): string | undefined {
  if (spelling !== 'K' && zeros.has(spelling)) return usual['K abs'].measures;
  const unit = siUnits.find((candidate) => scaleOf(spelling, candidate));
  return unit && usual[unit].measures;
}
