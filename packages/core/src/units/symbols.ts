// The closed table of unit symbols: each with its exact size, the prefixes it may carry, and where its size is defined.
import { type Base, type Dimension, timesPower } from './dimension.ts';
import { type Term, takeApart } from './spelling.ts';

/** One of a unit is `times / over` in SI. Two numbers, so that 250 µs is 250/1e6 s, correctly rounded. */
export type Meaning = { readonly times: number; readonly over: number; readonly dimension: Dimension };

export type Measured = { readonly ok: true; readonly meaning: Meaning } | { readonly ok: false; readonly term: Term };

/** Multiplies out the terms of a spelling; refuses the first word that is no symbol. */
export function measure(terms: readonly Term[], overAll: number): Measured {
  let meaning: Meaning = { times: 1, over: overAll, dimension: {} };
  for (const term of terms) {
    const one = symbols.get(term.word);
    if (!one) return { ok: false, term };
    meaning = multiply(meaning, one, term.power);
  }
  return { ok: true, meaning };
}

/** Splits words that sheets write run together (`Nm`, `kgcm2`, `ozin`); a power belongs to the last symbol. */
export function separate(terms: readonly Term[]): readonly Term[] {
  return terms.flatMap((term) => {
    const words = runTogether.get(term.word)?.split('·') ?? [term.word];
    const inner = Math.sign(term.power);
    return words.map((word, i) => ({ ...term, word, power: i === words.length - 1 ? term.power : inner }));
  });
}

const runTogether: ReadonlyMap<string, string> = new Map(
  [
    'N·m cN·m mN·m kN·m N·cm N·mm N·m·s V·s W·s kg·m kg·cm kg·mm g·cm g·mm kgf·m kgf·cm gf·cm',
    'lb·in lb·ft in·lb ft·lb lbf·in lbf·ft oz·in in·oz ozf·in',
  ]
    .flatMap((line) => line.split(' '))
    .map((spelling) => [spelling.replaceAll('·', ''), spelling]),
);

type Row = {
  /** The first name may carry a prefix, the others are other spellings of the same. */
  readonly names: string;
  /** One is `times / over` of `is`; both default to 1. */
  readonly times?: number;
  readonly over?: number;
  readonly is: string;
  readonly base?: Base;
  readonly prefixes?: string;
  readonly source: string;
};

const si = 'SI brochure, 9th edition (from memory)';
const accepted = 'accepted beside the SI: SI brochure, 9th edition, table 8 (from memory)';
const yardAndPound = 'international yard and pound agreement, 1959 (NIST SP 811, B.6; from memory)';
const sp811 = 'NIST SP 811, B.8 (from memory)';
const iec80000 = 'IEC 80000-13 (from memory)';
const practice = 'common practice, no source';
const ours = 'our own spelling';

/** Each definition uses symbols above it, so a size is written once. */
const rows: readonly Row[] = [
  { names: 'm', is: '', base: 'm', prefixes: 'n µ m c d k', source: si },
  { names: 'g', over: 1000, is: '', base: 'kg', prefixes: 'µ m k', source: si },
  { names: 's sec second seconds', is: '', base: 's', prefixes: 'p n µ m', source: si },
  { names: 'A', is: '', base: 'A', prefixes: 'n µ m k', source: si },
  { names: 'K', is: '', base: 'K', prefixes: 'm', source: si },
  { names: 'rad', is: '', base: 'rad', prefixes: 'µ m', source: si },
  { names: 'bit bits', is: '', base: 'bit', prefixes: 'k M G T', source: iec80000 },
  { names: 'dB', is: '', base: 'level', source: iec80000 },
  { names: 'abs', is: '', base: 'absolute', source: ours },
  { names: 'cost', is: '', base: 'cost', source: ours },

  { names: '%', over: 100, is: '', source: 'ISO 80000-1 (from memory)' },
  { names: '‰', over: 1000, is: '', source: practice },
  { names: 'ppm', over: 1e6, is: '', source: practice },
  { names: 'ppb', over: 1e9, is: '', source: practice },

  { names: 'N', is: 'kg·m/s²', prefixes: 'µ m c k M', source: si },
  { names: 'Pa', is: 'N/m²', prefixes: 'h k M G', source: si },
  { names: 'J', is: 'N·m', base: 'energy', prefixes: 'µ m k M G', source: si },
  { names: 'W', is: 'J/s', prefixes: 'µ m k M G', source: si },
  { names: 'V', is: 'W/A', prefixes: 'µ m k', source: si },
  { names: 'Ω', is: 'V/A', prefixes: 'µ m k M G', source: si },
  { names: 'ohm ohms', is: 'Ω', prefixes: 'µ m k M G', source: si },
  { names: 'F', is: 'A·s/V', prefixes: 'p n µ m', source: si },
  { names: 'Hz', is: '1/s', base: 'cycle', prefixes: 'm k M G', source: si },
  { names: '°C degC', is: 'K', source: si },

  { names: 'min minute minutes', times: 60, is: 's', source: accepted },
  { names: 'h hour hours', times: 60, is: 'min', source: accepted },
  { names: 'd day days', times: 24, is: 'h', source: accepted },
  { names: 'week weeks', times: 7, is: 'd', source: practice },
  {
    names: 'a year years',
    times: 1461,
    over: 4,
    is: 'd',
    source: 'Julian year of 365.25 d, IAU Style Manual (from memory)',
  },
  { names: '° deg degree degrees', times: Math.PI, over: 180, is: 'rad', source: accepted },
  { names: 'arcmin', over: 60, is: '°', source: accepted },
  { names: 'arcsec', over: 60, is: 'arcmin', source: accepted },
  { names: 'l L', over: 1000, is: 'm³', prefixes: 'm', source: accepted },
  { names: 'mL', over: 1e6, is: 'm³', source: accepted },
  { names: 't', times: 1000, is: 'kg', source: accepted },
  { names: 'Wh', is: 'W·h', prefixes: 'k M', source: sp811 },
  { names: 'bar', times: 1e5, is: 'Pa', prefixes: 'm', source: sp811 },
  { names: 'rev turn turns', times: 2 * Math.PI, is: 'rad', source: sp811 },
  { names: 'rpm', is: 'rev/min', prefixes: 'k', source: sp811 },
  { names: 'rps', is: 'rev/s', source: practice },

  { names: 'octet octets', times: 8, is: 'bit', prefixes: 'k M G', source: iec80000 },
  { names: 'B byte bytes', is: 'octet', source: iec80000 },
  { names: 'KiB', times: 1024, is: 'octet', source: iec80000 },
  { names: 'MiB', times: 1024, is: 'KiB', source: iec80000 },
  { names: 'GiB', times: 1024, is: 'MiB', source: iec80000 },
  { names: 'bps', is: 'bit/s', prefixes: 'k M G', source: practice },

  { names: 'g_n', times: 980665, over: 1e5, is: 'm/s²', source: 'standard gravity, 3rd CGPM 1901 (NIST SP 811, B.8)' },
  { names: 'kgf', is: 'kg·g_n', source: sp811 },
  { names: 'gf', is: 'g·g_n', source: sp811 },
  { names: 'hp_metric', times: 75, is: 'kgf·m/s', base: 'energy', source: sp811 },

  { names: 'in inch inches', times: 254, over: 1e4, is: 'm', source: yardAndPound },
  { names: 'ft foot feet', times: 12, is: 'in', source: yardAndPound },
  { names: 'mil mils thou', over: 1000, is: 'in', source: sp811 },
  { names: 'lb lbs', times: 45359237, over: 1e8, is: 'kg', source: yardAndPound },
  { names: 'oz', over: 16, is: 'lb', source: sp811 },
  { names: 'ton_us', times: 2000, is: 'lb', source: `${sp811}, ton, short` },
  { names: 'ton_uk', times: 2240, is: 'lb', source: `${sp811}, ton, long` },
  { names: 'lbf', is: 'lb·g_n', source: sp811 },
  { names: 'ozf', is: 'oz·g_n', source: sp811 },
  { names: 'slug', is: 'lbf·s²/ft', source: sp811 },
  { names: 'psi', is: 'lbf/in²', source: sp811 },
  { names: 'hp_mechanical', times: 550, is: 'ft·lbf/s', base: 'energy', source: sp811 },
  { names: '°F degF', times: 5, over: 9, is: 'K', source: `${sp811}, the degree as a difference` },
];

/** Powers of ten, as `[times, over]`. Source: SI brochure, 9th edition, table 7 (from memory); `u` stands for µ on plain keyboards. */
const prefixes: Readonly<Record<string, readonly [number, number]>> = {
  ...{ p: [1, 1e12], n: [1, 1e9], µ: [1, 1e6], u: [1, 1e6], m: [1, 1e3], c: [1, 100], d: [1, 10] },
  ...{ h: [100, 1], k: [1e3, 1], M: [1e6, 1], G: [1e9, 1], T: [1e12, 1] },
};

const table = new Map<string, Meaning>();

/** Every symbol with every prefix that it may carry. */
export const symbols: ReadonlyMap<string, Meaning> = table;

function multiply(a: Meaning, b: Meaning, power: number): Meaning {
  const [up, down] = power > 0 ? [b.times, b.over] : [b.over, b.times];
  const n = Math.abs(power);
  return {
    ...reduced(a.times * up ** n, a.over * down ** n),
    dimension: timesPower(a.dimension, b.dimension, power),
  };
}

/** 1000/1000 as 1/1, so that a kilogram is read without a rounding. */
function reduced(times: number, over: number): { times: number; over: number } {
  if (times % over === 0) return { times: times / over, over: 1 };
  if (over % times === 0) return { times: 1, over: over / times };
  return { times, over };
}

function define({ names, times = 1, over = 1, is, base, prefixes: allowed = '' }: Row): void {
  const spelling = is === '' ? { ok: true as const, terms: [] } : takeApart(is);
  const measured = spelling.ok ? measure(spelling.terms, over) : undefined;
  if (!measured?.ok) throw new Error(`the definition of ${names} cannot be read: ${is}`);
  const scaled = multiply({ times, over: 1, dimension: base ? { [base]: 1 } : {} }, measured.meaning, 1);
  const [first = '', ...others] = names.split(' ');
  for (const name of [first, ...others]) enter(name, scaled);
  for (const prefix of allowed.replace('µ', 'µ u').split(' ').filter(Boolean)) {
    const [up, down] = prefixes[prefix]!;
    enter(prefix + first, multiply({ times: up, over: down, dimension: {} }, scaled, 1));
  }
}

function enter(word: string, meaning: Meaning): void {
  if (table.has(word)) throw new Error(`${word} has two meanings`);
  table.set(word, meaning);
}

rows.forEach(define);
