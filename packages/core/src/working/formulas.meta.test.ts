// Every formula: its text, computed with units by a general-purpose algebra library, gives what its code gives; and a
// text that is changed in any place does not.
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import '../index.ts';
import '../kernels.ts';
import { allFormulas, allMethods, type FormulaRecord } from './formula.ts';
import {
  caseFor,
  computeWith,
  type Mutant,
  measure,
  mutantsOf,
  type Sample,
  sampleOf,
  seeded,
} from './meta.support.ts';
import { sources } from './sources.ts';

const samples = 160;
const leastHits = 20;

const close = (a: number, b: number, scale: number): boolean =>
  Math.abs(a - b) <= 1e-9 * Math.max(Math.abs(a), Math.abs(b), scale);

/** The size of the terms of a result, below which a difference of large terms is only rounding. */
const scaleOf = (sample: Sample, value: number): number => {
  const sizes = Object.values(sample).flat().map(Math.abs);
  return Math.min(Math.max(...sizes), Math.abs(value) * 1e6) * 1e-6;
};

/** What is wrong with a formula at seeded inputs; nothing when text and code agree everywhere. */
function disagreement(formula: FormulaRecord, seed = 1): string | undefined {
  const random = seeded(seed);
  const hits = formula.cases.map(() => 0);
  for (let round = 0; round < samples || (hits.some((count) => count < leastHits) && round < samples * 20); round++) {
    const sample = sampleOf(formula, random);
    const index = caseFor(formula, sample);
    hits[index]!++;
    const value = computeWith(formula, sample);
    if (!Number.isFinite(value)) return `${formula.id}: the code gives ${value} at ${JSON.stringify(sample)}`;
    const measured = measure(formula.cases[index]!.text, formula, sample);
    if ('wrong' in measured) return `${formula.id}: the text gives ${measured.wrong}`;
    if (!Number.isFinite(measured.value))
      return `${formula.id}: the text gives ${measured.value} at ${JSON.stringify(sample)}`;
    if (!close(measured.value, value, scaleOf(sample, value)))
      return `${formula.id}: text ${measured.value}, code ${value} at ${JSON.stringify(sample)}`;
  }
  const missed = hits.findIndex((count) => count < leastHits);
  return missed < 0 ? undefined : `${formula.id}: case ${missed + 1} was met ${hits[missed]} times`;
}

/** Mutants that say the same as the text, with the reason; each must be needed. */
const equivalents: Readonly<Record<string, string>> = {
  'networks.frame.occupancy_if_sent: 0*L/R → 0*w/R': 'nothing times anything',
  'networks.frame.occupancy_if_sent: 0*L/R → 0*g/R': 'nothing times anything',
  'networks.frame.occupancy_if_sent: 0*L/R → 0*(2*L)/R': 'nothing times anything',
  'networks.frame.occupancy_if_sent: 0*L/R → 0*L/(2*R)': 'nothing times anything',
  'networks.frame.occupancy_if_sent: 0*L/R → -(0*L/R)': 'nothing times anything',
  'networks.frame.occupancy_if_sent: 0*L/R → 1*L/R': 'the case applies to a length of nothing only',
  'networks.frame.occupancy_if_sent: 0*L/R → 3*L/R': 'the case applies to a length of nothing only',
  'networks.frame.occupancy_if_sent: L > 0 → (2*L) > 0': 'twice a length is more than nothing when the length is',
};

const survivors = (formula: FormulaRecord): readonly Mutant[] =>
  mutantsOf(formula).filter((mutant) => disagreement(mutant.formula) === undefined);

const testTitles = readdirSync('packages', { recursive: true, withFileTypes: true })
  .filter((entry) => entry.isFile() && entry.name.endsWith('.test.ts') && !entry.parentPath.includes('node_modules'))
  .flatMap((entry) =>
    [...readFileSync(`${entry.parentPath}/${entry.name}`, 'utf8').matchAll(/\(\s*(['"`])((?:(?!\1).)*)\1/g)].map(
      (found) => found[2]!,
    ),
  );

/** What is wrong with what a formula says about itself. */
function slips(formula: FormulaRecord, titles: readonly string[]): readonly string[] {
  const texts = formula.cases.flatMap(({ text, when }) => [text, when ?? '']).join(' ');
  const used = new Set(texts.match(/[A-Za-z_]\w*/g) ?? []);
  const symbols = Object.keys(formula.symbols);
  const functions = [
    'sum',
    'max',
    'min',
    'abs',
    'sqrt',
    'cbrt',
    'ceil',
    'floor',
    'round',
    'exp',
    'log',
    'sin',
    'cos',
    'tan',
    'count',
    'pi',
    'and',
  ];
  const proof = /^[A-Z]+-?\d+$/.test(formula.proof) ? new RegExp(`(^|[^\\w-])${formula.proof}([^\\w]|$)`) : undefined;
  const proven = titles.some((title) => (proof === undefined ? title.includes(formula.proof) : proof.test(title)));
  const say = (holds: boolean, what: string): readonly string[] => (holds ? [] : [`${formula.id}: ${what}`]);
  return [
    ...symbols.flatMap((symbol) => say(used.has(symbol), `symbol ${symbol} is in no text`)),
    ...[...used].flatMap((name) => say(symbols.includes(name) || functions.includes(name), `${name} is no symbol`)),
    ...symbols.flatMap((symbol) => say((formula.means[symbol] ?? '') !== '', `symbol ${symbol} has no meaning`)),
    ...symbols.flatMap((symbol) =>
      say((formula.try[symbol]?.[0] ?? 1) <= (formula.try[symbol]?.[1] ?? 0), `range of ${symbol}`),
    ),
    ...say(formula.source in sources, `source ${formula.source}`),
    ...say(proven, `no test is called '${formula.proof}'`),
    ...say(
      /^(margin$|(networks|axes|timing|marks|racks|cabinet|links|physics)\.)/.test(formula.id),
      'the id names no domain',
    ),
  ];
}

describe('all formulas', () => {
  const formulas = allFormulas();

  it('there are some', () => expect(formulas.length).toBeGreaterThan(20));

  it('say in their text what their code computes, with units', () => {
    expect(formulas.map((formula) => disagreement(formula)).filter((each) => each !== undefined)).toEqual([]);
  });

  it('would not say so with any token of the text changed', () => {
    const alive = formulas.flatMap(survivors).map((mutant) => mutant.what);
    expect(alive.filter((what) => !(what in equivalents))).toEqual([]);
    expect(
      Object.keys(equivalents).filter((what) => !alive.includes(what)),
      'listed and not needed',
    ).toEqual([]);
  });

  it('name symbols, meanings, sources and proofs that exist', () => {
    expect(formulas.flatMap((formula) => slips(formula, testTitles))).toEqual([]);
  });

  it('and so do all methods, which a sentence states instead of a text', () => {
    const stated = (record: FormulaRecord) => ({
      ...record,
      cases: [{ text: Object.keys(record.symbols).join(' + ') }],
      try: Object.fromEntries(Object.keys(record.symbols).map((symbol) => [symbol, [0, 1] as const])),
    });
    expect(allMethods().length).toBeGreaterThan(0);
    expect(allMethods().flatMap((method) => slips(stated(method), testTitles))).toEqual([]);
    expect(allMethods().filter((method) => !method.prose)).toEqual([]);
  });

  it('use every source of the register', () => {
    const used = new Set([...formulas.map((formula) => formula.source), ...usedInCode()]);
    expect(Object.keys(sources).filter((id) => !used.has(id as never))).toEqual([]);
  });
});

const usedInCode = (): readonly string[] => {
  const code = readdirSync('packages/core/src', { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.ts') && entry.name !== 'sources.ts')
    .map((entry) => readFileSync(`${entry.parentPath}/${entry.name}`, 'utf8'))
    .join('\n');
  return Object.keys(sources).filter((id) => code.includes(`'${id}'`));
};

describe('the test of all formulas finds', () => {
  const good: FormulaRecord = {
    id: 'networks.planted',
    title: 'planted',
    cases: [{ text: 'l*t + s' }],
    gives: 's',
    symbols: { l: 'm', t: 's/m', s: 's' },
    means: { l: 'length', t: 'delay', s: 'more' },
    try: { l: [1, 2], t: [1, 2], s: [0, 1] },
    source: 'definition',
    proof: 'there are some',
    of: (l: number, t: number, s: number) => l * t + s,
  };
  it('nothing in a good one', () => {
    expect(disagreement(good)).toBeUndefined();
    expect(survivors(good)).toEqual([]);
    expect(slips(good, testTitles)).toEqual([]);
  });
  it.each([
    ['a wrong factor', { of: (l: number, t: number, s: number) => 2 * l * t + s }],
    ['a wrong unit', { gives: 'm' as const }],
    ['a sum of unlike units', { cases: [{ text: 'l + s' }] }],
    ['a value that is no number', { of: (l: number) => Math.sqrt(-l) }],
    ['a case that is never met', { cases: [{ when: 'l > 5', text: 'l*t' }, { text: 'l*t + s' }] }],
  ])('%s', (_what, change) => {
    expect(disagreement({ ...good, ...change })).toMatch(/networks\.planted/);
  });
  it.each([
    ['a proof that does not exist', { proof: 'Z999' }],
    ['a symbol in no text', { symbols: { ...good.symbols, q: 'm' as const } }],
    ['a name that is no symbol', { cases: [{ text: 'l*t + s + q' }] }],
    ['a meaning that is missing', { means: {} }],
    ['a source that is not registered', { source: 'hearsay' as never }],
  ])('%s', (_what, change) => {
    expect(slips({ ...good, ...change }, testTitles)).not.toEqual([]);
  });
});
