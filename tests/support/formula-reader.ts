// A second reader of formula texts that is not ours: mathjs takes a text apart and reckons it with units.
import { all, create, type MathNode, type Unit as MathUnit } from 'mathjs';
import { mathjsUnit, type Unit } from '../../packages/core/src/units/si.ts';
import type { Value } from '../../packages/core/src/working/expression.ts';
import type { Case, FormulaRecord } from '../../packages/core/src/working/formula.ts';

/** Comparisons as exact as mathjs has them; its own default calls numbers equal that differ in the twelfth digit. */
export const math = create(all!, { relTol: 1e-15, absTol: 0 });

/** A case of a formula as trees, for a mutation to change. */
export interface CaseTree {
  readonly when?: MathNode;
  readonly text: MathNode;
}

/** The symbols of a formula with their values, each with its unit. */
export type Scope = ReadonlyMap<string, unknown>;

/** mathjs writes + and − also between lists, where our notation has a dot. */
export const parse = (text: string): MathNode => math.parse(text.replace(/\.([+-])/g, '$1'));

export const treesOf = (cases: readonly Case[]): readonly CaseTree[] =>
  cases.map(({ when, text }) => ({ text: parse(text), ...(when !== undefined && { when: parse(when) }) }));

/** `same` is tried as a length: any unit would do. */
export function scopeOf(record: FormulaRecord, values: Readonly<Record<string, Value>>): Scope {
  const measured = Object.entries(record.symbols).map(([symbol, unit]): [string, unknown] => {
    const one = oneOf(unit.replace(/^same$/, 'm').replace('[]', '') as Unit);
    const value = values[symbol]!;
    return [symbol, typeof value === 'number' ? times(value, one) : value.map((each) => times(each, one))];
  });
  return new Map([...Object.entries(functions), ...measured]);
}

/** Reckons cases in a scope: which one holds, and its value in SI. Throws where units or kinds of value do not fit. */
export function reader(cases: readonly CaseTree[], gives: Unit): (scope: Scope) => { at: number; value: number } {
  const compiled = cases.map(({ when, text }) => ({ when: when && comparable(when).compile(), text: text.compile() }));
  return (scope) => {
    // mathjs may write into a scope, so each run has its own.
    const fresh = () => new Map(scope);
    const at = compiled.findIndex(({ when }) => when === undefined || truth(when.evaluate(fresh())));
    if (at < 0) throw new Error('no case holds');
    return { at, value: inSI(compiled[at]!.text.evaluate(fresh()), gives) };
  };
}

function truth(value: unknown): boolean {
  if (typeof value !== 'boolean') throw new Error(`a condition gives ${math.format(value)}`);
  return value;
}

function inSI(value: unknown, unit: Unit): number {
  const share = math.divide(value as MathUnit, oneOf(unit) as MathUnit) as unknown;
  if (typeof share !== 'number') throw new Error(`the text gives ${math.format(value, 4)}, which is not in ${unit}`);
  if (!Number.isFinite(share)) throw new Error(`the text gives ${share}`);
  return share;
}

type Measured = number | MathUnit;

const ones = new Map<Unit, Measured>();
function oneOf(unit: Unit): Measured {
  const name = mathjsUnit[unit];
  if (name === undefined) throw new Error(`there is no unit ${unit}`);
  if (!ones.has(unit)) ones.set(unit, name === '1' ? 1 : math.unit(1, name));
  return ones.get(unit)!;
}

const times = (value: number, one: Measured): Measured => math.multiply(value, one as MathUnit) as Measured;

/** What mathjs refuses with units or means otherwise; a 0 without a unit is a zero of any unit. */
const functions: Readonly<Record<string, (...values: never[]) => unknown>> = {
  sum: (...values: unknown[]) => flat(values).reduce((a, b) => math.add(a as MathUnit, b as MathUnit) as Measured),
  max: (...values: unknown[]) => flat(values).reduce((a, b) => (compare('larger', a, b) ? a : b)),
  min: (...values: unknown[]) => flat(values).reduce((a, b) => (compare('smaller', a, b) ? a : b)),
  count: (...values: unknown[]) => flat(values).length,
  ...Object.fromEntries(
    (['floor', 'ceil', 'round'] as const).map((name) => [name, (value: unknown) => Math[name](plain(value))]),
  ),
  ...Object.fromEntries(
    (['smaller', 'smallerEq', 'larger', 'largerEq', 'equal', 'unequal'] as const).map((name) => [
      name,
      (a: Measured, b: Measured) => compare(name, a, b),
    ]),
  ),
};

function plain(value: unknown): number {
  if (typeof value !== 'number') throw new Error(`a plain number is due in place of ${math.format(value, 4)}`);
  return value;
}

const flat = (values: readonly unknown[]): Measured[] =>
  values.flatMap((value) => (math.isMatrix(value) ? value.toArray() : value) as Measured | Measured[]);

type Comparison = 'smaller' | 'smallerEq' | 'larger' | 'largerEq' | 'equal' | 'unequal';

function compare(name: Comparison, a: Measured, b: Measured): boolean {
  const alike = (value: Measured, other: Measured) => (value === 0 && math.isUnit(other) ? times(0, other) : value);
  return (math[name] as (a: Measured, b: Measured) => boolean)(alike(a, b), alike(b, a));
}

/** Operators of comparison become calls, so that the functions above are used. */
function comparable(node: MathNode): MathNode {
  return node.transform((each) =>
    math.isOperatorNode(each) && (each.fn as string) in functions
      ? new math.FunctionNode(each.fn, each.args.map(comparable))
      : each,
  );
}
