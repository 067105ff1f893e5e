// What every formula says about itself is true: its text, its unit, its symbols, its source and its proof.
import { describe, expect, it } from 'vitest';
import { repositoryFiles } from '../../../../tests/support/files.ts';
import { mutantsOf } from '../../../../tests/support/formula-mutants.ts';
import {
  type FormulaRule,
  idIsNoCheck,
  idNamesItsFolder,
  proofIsATest,
  recordIsWhole,
  repeatedIds,
  survivorsOf,
  symbolsAreWhole,
  textGivesTheValue,
  unusedSources,
} from '../../../../tests/support/formula-rules.ts';
import { titlesOf } from '../../../../tests/support/titles.ts';
import '../index.ts';
import '../kernels.ts';
import { allChecks } from '../machine/checks/all.ts';
import { allFormulas, allMethods, type FormulaRecord } from './formula.ts';
import { sources } from './sources.ts';

/** Mutants that no test can tell from the function, each with the reason. */
const equivalents: Readonly<Record<string, string>> = {
  'networks.frame.occupancy_if_sent: 0 * w / R': 'nothing times anything',
  'networks.frame.occupancy_if_sent: 0 * g / R': 'nothing times anything',
  'networks.frame.occupancy_if_sent: 0 * -L / R': 'nothing times anything',
  'networks.frame.occupancy_if_sent: 0 * L / -R': 'nothing times anything',
  'networks.frame.occupancy_if_sent: 1 * L / R': 'the case holds for a length of nothing only',
  'axes.motor.peak_torque_at: 0 * -P': 'nothing times anything',
  'axes.motor.peak_torque_at: 0 * R': 'nothing times anything',
  'networks.frame.occupancy_if_sent: L / R': 'the case holds for a length of nothing only',
};

/** What is listed as an equivalent and is none: a mutant that does not survive, or of a text that has changed. */
const unusedEquivalents = (listed: Readonly<Record<string, string>>, survivors: readonly string[]): readonly string[] =>
  Object.keys(listed).filter((name) => !survivors.includes(name));

const files = repositoryFiles();
const records = allFormulas();
const methods = allMethods();
const titles = titlesOf(files.filter(({ path }) => path.startsWith('packages/')));

/** A record that keeps every rule; the planted ones differ from it in one thing. It is in no register. */
const sound: FormulaRecord = {
  id: 'networks.planted',
  title: 'a way of two parts',
  cases: [{ when: 'a > b', text: 'a - 2*b + sum(c)' }, { text: 'max(c) - b*n' }],
  gives: 's',
  symbols: { a: 's', b: 's', c: 's[]', n: '1' },
  means: { a: 'first', b: 'second', c: 'others', n: 'a count' },
  try: { a: [0, 4, 1], b: [0, 4, 1], c: [1, 5], n: [1, 6] },
  source: 'definition',
  proof: 'F5',
  of: (a: number, b: number, c: readonly number[], n: number) =>
    a > b ? a - 2 * b + c.reduce((sum, each) => sum + each, 0) : Math.max(...c) - b * n,
};
const planted = (change: Partial<FormulaRecord>): FormulaRecord => ({ ...sound, ...change });
const single = (text: string, of: (a: number, b: number) => number, change: Partial<FormulaRecord> = {}) =>
  planted({
    cases: [{ text }],
    symbols: { a: 's', b: 's' },
    means: { a: 'first', b: 'second' },
    try: { a: [1, 4], b: [1, 3] },
    of,
    ...change,
  });
const listed = (text: string, of: (a: number, c: readonly number[]) => number) =>
  planted({
    cases: [{ text }],
    symbols: { a: 's', c: 's[]' },
    means: { a: 'first', c: 'others' },
    try: { a: [0, 4], c: [1, 5] },
    of,
  });
const added = (a: number, c: readonly number[]) => a + c.reduce((sum, each) => sum + each);

describe('all formulas', () => {
  it('are found, each once', () => {
    expect(records.length).toBeGreaterThan(20);
    expect(methods.length).toBeGreaterThan(0);
    expect(repeatedIds([...records, ...methods])).toEqual([]);
    expect(repeatedIds([sound, ...records, sound])).toEqual([sound.id]);
  });

  it('have a text that gives the value of the function, with its unit', () => {
    expect(records.flatMap(textGivesTheValue)).toEqual([]);
  });

  it('have a text in which every slip shows, but for slips that change nothing', () => {
    const survivors = records.flatMap(survivorsOf);
    expect(survivors.filter((name) => !Object.hasOwn(equivalents, name))).toEqual([]);
    expect(unusedEquivalents(equivalents, survivors)).toEqual([]);
    expect(unusedEquivalents({ ...equivalents, 'margin: C - D': 'a slip' }, survivors)).toEqual(['margin: C - D']);
  });

  it('name a proof that is the title of a test, and so do methods', () => {
    expect([...records, ...methods].flatMap(proofIsATest(titles))).toEqual([]);
  });

  it('say of every symbol what it is, and of themselves what they are, and so do methods', () => {
    for (const rule of [symbolsAreWhole, recordIsWhole, idNamesItsFolder(files)]) {
      expect([...records, ...methods].flatMap(rule)).toEqual([]);
    }
  });

  it('have no id of a check, whose address leads to its finding, and neither have methods', () => {
    expect(allChecks.length).toBeGreaterThan(20);
    expect([...records, ...methods].flatMap(idIsNoCheck(allChecks))).toEqual([]);
    expect(idIsNoCheck(allChecks)(planted({ id: allChecks[0].id }))).toEqual([
      `${allChecks[0].id}: is a check as well`,
    ]);
  });

  it('and what else states a fact use every source of the register', () => {
    expect(unusedSources(files, Object.keys(sources))).toEqual([]);
    expect(unusedSources(files, ['definition', 'unheard-of'])).toEqual(['unheard-of']);
  });
});

describe('the rules for formulas', () => {
  const folders = idNamesItsFolder([{ path: 'packages/core/src/networks/calc/a.ts', text: `id: 'networks.planted',` }]);
  const proofs = proofIsATest(['F5 (derived): padding', 'walked hop by hop, thrice']);

  it.each<[string, FormulaRule]>([
    ['value', textGivesTheValue],
    ['slips', survivorsOf],
    ['proof', proofs],
    ['symbols', symbolsAreWhole],
    ['record', recordIsWhole],
    ['folder', folders],
  ])('find nothing wrong with a sound record: %s', (_, rule) => {
    expect(rule(sound)).toEqual([]);
  });

  it.each<[string, FormulaRule, FormulaRecord, string | RegExp]>([
    ['a wrong factor', textGivesTheValue, single('a + 3*b', (a, b) => a + 2 * b), /the text gives .*, the function/],
    ['a wrong function', textGivesTheValue, single('a + 2*b', (a, b) => a - 2 * b), /the text gives .*, the function/],
    ['a wrong unit', textGivesTheValue, single('a + b', (a, b) => a + b, { gives: 'm' }), /is not in m/],
    ['a plain number for a unit', textGivesTheValue, single('a/b', (a, b) => a / b), /is not in s/],
    ['a unit for a plain number', textGivesTheValue, single('a*b', (a, b) => a * b, { gives: '1' }), /is not in 1/],
    [
      'a sum of two units',
      textGivesTheValue,
      single('a + b', (a, b) => a + b, { symbols: { a: 's', b: 'bit' } }),
      /Units/,
    ],
    [
      'a comparison of two units',
      textGivesTheValue,
      single('max(a, b)', Math.max, { symbols: { a: 's', b: 'm' } }),
      /units/,
    ],
    ['a function without a value', textGivesTheValue, single('a - b', () => Number.NaN), /the function gives NaN/],
    ['an infinite text', textGivesTheValue, single('a/(b/b - 1)', (a) => a), /the text gives Infinity/],
    ['a complex text', textGivesTheValue, single('a*sqrt(b/b - 2)', (a) => a), /is not in s|not a number/],
    ['a text that ends too early', textGivesTheValue, single('a +', (a) => a), /end of expression/],
    ['a sign that our notation lacks', textGivesTheValue, single('a + +b', (a, b) => a + b), /a value is expected/],
    ['a product without its sign', textGivesTheValue, single('2 a - b', (a, b) => 2 * a - b), /'a - b' is left over/],
    [
      'a function that fails for an empty list',
      textGivesTheValue,
      listed('a + sum(c)', added),
      /Reduce of empty array/,
    ],
    [
      'a function that invents a largest of no values',
      textGivesTheValue,
      listed('a + max(c)', (a, c) => a + Math.max(0, ...c)),
      /reads the text as -Infinity, the function gives/,
    ],
    ['a case never met', textGivesTheValue, planted({ try: { ...sound.try, a: [-9, -1] } }), /was hit 0 times only/],
    ['a case at the wrong place', textGivesTheValue, planted({ cases: sound.cases.toReversed() }), /the text gives/],
    [
      'a condition that is a number',
      textGivesTheValue,
      planted({ cases: [{ when: 'a', text: 'a' }, { text: 'b' }] }),
      /condition/,
    ],
    ['a proof that is no test', proofs, planted({ proof: 'F6' }), /no test is called 'F6'/],
    ['a proof that is part of a word', proofs, planted({ proof: 'walked hop by ho' }), /no test is called/],
    ['a proof of one word', proofs, planted({ proof: 'padding' }), /by chance/],
    [
      'a symbol without use',
      symbolsAreWhole,
      single('a + a', (a) => a + a),
      'networks.planted: b is declared and not used',
    ],
    [
      'an undeclared symbol',
      symbolsAreWhole,
      single('a + b + g', (a) => a),
      'networks.planted: g is used and not declared',
    ],
    [
      'a symbol of no unit',
      symbolsAreWhole,
      planted({ symbols: { ...sound.symbols, a: 'rpm' as 's' } }),
      /not in the list/,
    ],
    ['an empty meaning', symbolsAreWhole, planted({ means: { ...sound.means, a: ' ' } }), /a has no meaning/],
    ['a meaning too many', symbolsAreWhole, planted({ means: { ...sound.means, z: 'z' } }), /z has a meaning/],
    ['a range turned round', symbolsAreWhole, planted({ try: { ...sound.try, a: [4, 0] } }), /a has no range/],
    ['a range without an end', symbolsAreWhole, planted({ try: { ...sound.try, a: [0, Infinity] } }), /a has no range/],
    ['a step that does not fit', symbolsAreWhole, planted({ try: { ...sound.try, a: [0, 4, 3] } }), /a has no range/],
    ['an unknown source', recordIsWhole, planted({ source: 'hearsay' as 'definition' }), /'hearsay' is not registered/],
    ['no title', recordIsWhole, planted({ title: '' }), /no title/],
    ['a result of no unit', recordIsWhole, planted({ gives: 'rpm' as 's' }), /'rpm' is no unit/],
    [
      'two cases without a condition',
      recordIsWhole,
      planted({ cases: [{ text: 'a' }, { text: 'b' }] }),
      /have a condition/,
    ],
    ['a spelling of another unit', recordIsWhole, planted({ as: 'mm' }), /'mm' is no spelling/],
    ['a method without a sentence', recordIsWhole, planted({ prose: 'none', cases: [] }), /a method has a sentence/],
    ['an id of another folder', folders, planted({ id: 'axes.planted' }), /not declared in the folder/],
    ['an id without a folder', folders, planted({ id: 'planted' }), /not declared in the folder/],
  ])('find %s', (_, rule, record, message) => {
    const found = rule(record);
    expect(found).toHaveLength(1);
    if (typeof message === 'string') expect(found[0]).toBe(message);
    else expect(found[0]).toMatch(message);
  });

  it.each([
    ['η + b', 'η - b; η; b; b + b; -η + b; η + η; η + -b'],
    ['η .+ b', 'η - b; η; b; b + b; -η + b; η + η; η + -b'],
    ['η ./ b', 'b ./ η; η .* b; η; b; b ./ b; -η ./ b; η ./ η; η ./ -b'],
    ['1e-3*η', '0.001 * b; 0.001 / η; 0.001; η; 1.001 * η; 0.001001 * η; 0.001 * -η'],
    ['η == b', 'η != b; b == b; -η == b; η == η; η == -b'],
    ['η <= b', 'b <= η; η < b; η >= b; b <= b; -η <= b; η <= η; η <= -b'],
    ['max(η, b)', 'max(b); max(η); min(η, b); max(b, b); max(-η, b); max(η, η); max(η, -b)'],
    ['abs(η)', 'abs(b); η'],
    ['sqrt(η)', 'sqrt(b); cbrt(η); η; sqrt(-η)'],
    ['exp(η)', 'exp(b); log(η); η; exp(-η)'],
    ['round(η)', 'round(b); floor(η); ceil(η); η; round(-η)'],
  ])('try every slip in %s', (text, names) => {
    const mutants = mutantsOf(planted({ cases: [{ text }], symbols: { η: '1', b: '1' } }));
    expect(mutants.map(({ name }) => name.replace(`${sound.id}: `, '')).join('; ')).toBe(names);
  });

  it.each([
    ['inputs that never make a term count', planted({ try: { ...sound.try, b: [0, 1e-12] } }), /networks/],
    ['one side that always wins', single('max(a, b)', Math.max, { try: { a: [3, 4], b: [1, 2] } }), /: max\(a\)$/],
    ['two sides that are never equal', planted({ try: { ...sound.try, b: [0.5, 4.5, 1] } }), /when a >= b$/],
  ])('find slips that do not show for %s', (_, record, name) => {
    const survivors = survivorsOf(record);
    expect(survivors.filter((each) => name.test(each))).not.toEqual([]);
  });

  it('find titles of tests, and nothing else that stands in a test', () => {
    const text = `// it('a')\ndescribe('b', () => { it.each([['c']])('d %s', () => call('e')); it(\`f\`, run); it(\`g \${h}\`, run); });`;
    expect(
      titlesOf([
        { path: 'a.test.ts', text },
        { path: 'a.ts', text },
      ]),
    ).toEqual(['b', 'd %s', 'f']);
  });
});
