// What must be true of every formula: each rule takes a record and gives what is wrong with it.
import { scaleOf } from '../../packages/core/src/units/resolve-unit.ts';
import { mathjsUnit } from '../../packages/core/src/units/si.ts';
import { evaluate, parseExpression, type Value } from '../../packages/core/src/working/expression.ts';
import type { FormulaRecord } from '../../packages/core/src/working/formula.ts';
import { sources } from '../../packages/core/src/working/sources.ts';
import { applies } from '../../packages/core/src/working/working.ts';
import { isTest, isTestSupport, type SourceFile } from './files.ts';
import { mutantsOf } from './formula-mutants.ts';
import { type CaseTree, math, parse, reader, type Scope, scopeOf, treesOf } from './formula-reader.ts';
import { seeded } from './seeded.ts';

export type FormulaRule = (record: FormulaRecord) => readonly string[];

/**
 * The text gives the function's value in the declared unit when another program reckons it with units, and so it does as
 * the working reads it, there also for empty lists.
 */
export const textGivesTheValue: FormulaRule = (record) => {
  try {
    const read = reader(treesOf(record.cases), record.gives);
    const hits = record.cases.map(() => 0);
    for (const draw of drawsOf(record)) {
      const wrong = difference(record, read, draw);
      if (wrong !== undefined) return [`${record.id}: ${wrong} for ${JSON.stringify(draw.values)}`];
      for (const values of [draw.values, ...emptied(record, draw.values)]) {
        const misread = misreading(record, values);
        if (misread !== undefined) return [`${record.id}: ${misread} for ${JSON.stringify(values)}`];
      }
      const { at } = read(draw.scope);
      if (applies(record, draw.values) !== record.cases[at]) return [`${record.id}: the working shows another case`];
      hits[at]! += 1;
    }
    return hits.flatMap((count, at) =>
      count >= leastHits ? [] : [`${record.id}: case '${record.cases[at]!.text}' was hit ${count} times only`],
    );
  } catch (error) {
    return [`${record.id}: ${(error as Error).message}`];
  }
};

/** The names of the mutants that cannot be told from the function. */
export const survivorsOf: FormulaRule = (record) => {
  const draws = drawsOf(record);
  const passes = (cases: readonly CaseTree[]): boolean => {
    const read = reader(cases, record.gives);
    return draws.every((draw) => difference(record, read, draw) === undefined);
  };
  return mutantsOf(record)
    .filter(({ cases }) => passes(cases))
    .map(({ name }) => name);
};

/** A proof is a case of the check values, such as C9, or a phrase; a test has it in its title. */
export const proofIsATest =
  (titles: readonly string[]): FormulaRule =>
  ({ id, proof }) => {
    if (!/^[A-Z]{1,2}\d+$|^\S+( \S+){2,}$/.test(proof)) return [`${id}: '${proof}' would be found by chance`];
    const isIn = (title: string) =>
      ` ${title} `.split(proof).some((before, at, parts) => isAlone(before, parts[at + 1]));
    return titles.some(isIn) ? [] : [`${id}: no test is called '${proof}'`];
  };

/**
 * The texts use each symbol that is declared and no other; each has a meaning and a range that can be tried. A method has
 * a sentence instead of texts, and no ranges.
 */
export const symbolsAreWhole: FormulaRule = ({ id, symbols, cases, means, prose, ...record }) => {
  const names = Object.keys(symbols);
  const used = new Set(cases.flatMap(({ when = '0', text }) => [...namesIn(when), ...namesIn(text)]));
  const described = new Set([...Object.keys(means), ...Object.keys(record.try)]);
  const isFormula = prose === undefined;
  const wrong: readonly (readonly [string, readonly string[]])[] = [
    ['is declared and not used', names.filter((name) => isFormula && !used.has(name))],
    ['is used and not declared', [...used].filter((name) => !names.includes(name))],
    ['has a unit that is not in the list', names.filter((name) => !isUnit(symbols[name]!))],
    ['has no meaning', names.filter((name) => !/\S/.test(means[name] ?? ''))],
    ['has no range that can be tried', names.filter((name) => isFormula && !isRange(record.try[name]))],
    ['has a meaning or a range and is not declared', [...described].filter((name) => !names.includes(name))],
  ];
  return wrong.flatMap(([what, found]) => found.map((name) => `${id}: ${name} ${what}`));
};

/** Title, source, unit and cases are there; only the last case goes without a condition; a method has a sentence. */
export const recordIsWhole: FormulaRule = ({ id, title, source, gives, as, cases, prose }) => {
  const hasCases =
    cases.length > 0 && cases.every(({ when }, at) => (when === undefined) === (at === cases.length - 1));
  const wrong: readonly (readonly [string, boolean])[] = [
    ['no title', !/\S/.test(title)],
    [`source '${source}' is not registered`, !Object.hasOwn(sources, source)],
    [`'${gives}' is no unit for a result`, !isUnit(gives) || !Object.hasOwn(mathjsUnit, gives)],
    [`'${as}' is no spelling of the unit of the result`, as !== undefined && scaleOf(as, gives) === undefined],
    ['all cases but the last have a condition', prose === undefined && !hasCases],
    ['a method has a sentence and no cases', prose !== undefined && (!/\S+ \S+/.test(prose) || cases.length > 0)],
  ];
  return wrong.flatMap(([what, isWrong]) => (isWrong ? [`${id}: ${what}`] : []));
};

/** An id begins with the folder in which the formula is declared; the margin belongs to all domains. */
export const idNamesItsFolder =
  (files: readonly SourceFile[]): FormulaRule =>
  ({ id }) => {
    const home = id === 'margin' ? 'checks' : /^([a-z]+)(\.[a-z][a-z0-9_]*)+$/.exec(id)?.[1];
    const declares = ({ path, text }: SourceFile) =>
      path.startsWith(`packages/core/src/${home}/`) && text.includes(`id: '${id}'`);
    return home !== undefined && files.some(declares) ? [] : [`${id}: is not declared in the folder that it names`];
  };

/** An address `check@subject` leads to a finding, so that a number of that formula would never be explained by its own. */
export const idIsNoCheck =
  (checks: readonly { readonly id: string }[]): FormulaRule =>
  ({ id }) =>
    checks.some((check) => check.id === id) ? [`${id}: is a check as well`] : [];

/** The ids that more than one record has. */
export const repeatedIds = (records: readonly FormulaRecord[]): readonly string[] =>
  records.map(({ id }) => id).filter((id, at, ids) => ids.indexOf(id) !== at);

/** The sources of the register that no code of core names. */
export function unusedSources(files: readonly SourceFile[], ids: readonly string[]): readonly string[] {
  const code = files.filter(
    (file) =>
      file.path.startsWith('packages/core/src/') &&
      !isTest(file) &&
      !isTestSupport(file) &&
      !file.path.endsWith('/working/sources.ts'),
  );
  return ids.filter((id) => !code.some(({ text }) => text.includes(`'${id}'`)));
}

/** How often each case must have been tried. */
const leastHits = 20;
const drawCount = 400;
const relativeTolerance = 1e-9;

interface Draw {
  readonly values: Readonly<Record<string, Value>>;
  readonly scope: Scope;
}

/** What is wrong with the text for a draw: a unit, a value. */
function difference(
  record: FormulaRecord,
  read: ReturnType<typeof reader>,
  { values, scope }: Draw,
): string | undefined {
  const expected = resultOf(record, values);
  if (typeof expected !== 'number' || !Number.isFinite(expected)) return `the function gives ${expected}`;
  try {
    const { value } = read(scope);
    return isNear(value, expected) ? undefined : `the text gives ${value}, the function ${expected}`;
  } catch (error) {
    return (error as Error).message;
  }
}

/** What is wrong with the text as the working reads it. The largest of no values is none, in the text and the function. */
function misreading(record: FormulaRecord, values: Draw['values']): string | undefined {
  const value = evaluate(parseExpression(applies(record, values).text), values);
  const expected = resultOf(record, values);
  const isSame = Number.isFinite(value) ? isNear(value as number, expected) : !Number.isFinite(expected);
  return isSame ? undefined : `the working reads the text as ${value}, the function gives ${expected}`;
}

/** The values with each list empty and with all of them empty; lists that go element by element have one length. */
function emptied({ symbols, cases }: FormulaRecord, values: Draw['values']): readonly Draw['values'][] {
  const lists = Object.keys(symbols).filter((symbol) => symbols[symbol]!.endsWith('[]'));
  const groups = isElementwise(cases) || lists.length < 2 ? [lists] : [...lists.map((list) => [list]), lists];
  return groups
    .filter((group) => group.length > 0)
    .map((group) => ({ ...values, ...Object.fromEntries(group.map((list) => [list, []])) }));
}

const resultOf = (record: FormulaRecord, values: Draw['values']): unknown =>
  (record.of as (...values: unknown[]) => unknown)(...Object.keys(record.symbols).map((symbol) => values[symbol]!));

const isNear = (value: number, expected: unknown): boolean =>
  typeof expected === 'number' &&
  Math.abs(value - expected) <= relativeTolerance * Math.max(Math.abs(value), Math.abs(expected));

const isElementwise = (cases: FormulaRecord['cases']): boolean =>
  cases.some(({ when = '', text }) => /\.[*/^+-]/.test(`${when} ${text}`));

/** The same draws on every run. The ends of a range come up more often than the numbers between them. */
function drawsOf(record: FormulaRecord): readonly Draw[] {
  const random = seeded(1);
  const whole = (most: number) => Math.floor(random() * (most + 1));
  const haveOneLength = isElementwise(record.cases);
  const number = (symbol: string): number => {
    const [least, most, step] = record.try[symbol] ?? [Number.NaN, Number.NaN];
    const place = random();
    if (place < 0.2) return place < 0.1 ? least : most;
    return step === undefined
      ? least + random() * (most - least)
      : least + step * whole(Math.round((most - least) / step));
  };
  return Array.from({ length: drawCount }, () => {
    const shared = 1 + whole(4);
    const values = Object.fromEntries(
      Object.entries(record.symbols).map(([symbol, unit]): [string, Value] => {
        if (!unit.endsWith('[]')) return [symbol, number(symbol)];
        return [symbol, Array.from({ length: haveOneLength ? shared : 1 + whole(4) }, () => number(symbol))];
      }),
    );
    return { values, scope: scopeOf(record, values) };
  });
}

/** Whether what stands before and behind a phrase ends and begins with something else than a letter or a digit. */
const isAlone = (before: string, behind: string | undefined): boolean =>
  behind !== undefined && !/[\p{L}\p{N}]$/u.test(before) && !/^[\p{L}\p{N}]/u.test(behind);

const isUnit = (unit: string): boolean => unit === 'same' || Object.hasOwn(mathjsUnit, unit.replace('[]', ''));

function isRange(range: readonly [number, number, number?] | undefined): boolean {
  if (range === undefined || !range.every(Number.isFinite)) return false;
  const [least, most, step] = range;
  if (step === undefined) return least < most;
  const steps = (most - least) / step;
  return step > 0 && steps >= 0 && Math.abs(steps - Math.round(steps)) < 1e-9;
}

function namesIn(text: string): readonly string[] {
  const names: string[] = [];
  parse(text).traverse((node, path) => {
    if (math.isSymbolNode(node) && path !== 'fn' && node.name !== 'pi') names.push(node.name);
  });
  return names;
}
