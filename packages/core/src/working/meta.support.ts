// What the test of all formulas is made of: seeded inputs, an algebra library with units, and mutated texts.
import { all, create, type MathNode, type Unit as MathUnit } from 'mathjs';
import { mathjsUnit, type Unit } from '../units/si.ts';
import type { Value } from './expression.ts';
import type { FormulaRecord } from './formula.ts';
import { applies } from './working.ts';

const math = create(all!, {});

/** A seeded generator (mulberry32). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export type Sample = Readonly<Record<string, Value>>;

/** Inputs inside the ranges of a formula; some at their ends, a third number asks for multiples of it. */
export function sampleOf(formula: FormulaRecord, random: () => number): Sample {
  const draw = (symbol: string): number => {
    const [low, high, step] = formula.try[symbol]!;
    const share = random();
    const value = share < 0.08 ? low : share > 0.92 ? high : low + (high - low) * random();
    return step === undefined ? value : low + Math.round((value - low) / step) * step;
  };
  const length = 1 + Math.floor(random() * 5);
  return Object.fromEntries(
    Object.entries(formula.symbols).map(([symbol, unit]) => [
      symbol,
      unit.endsWith('[]') ? Array.from({ length }, () => draw(symbol)) : draw(symbol),
    ]),
  );
}

export const computeWith = (formula: FormulaRecord, sample: Sample): number =>
  (formula.of as (...values: unknown[]) => number)(...Object.keys(formula.symbols).map((symbol) => sample[symbol]));

/** The unit of a symbol; any unit stands for `same`. */
const unitOf = (unit: string): Unit => (unit === 'same' ? 'm' : unit.replace('[]', '')) as Unit;

type Measured = number | MathUnit;
type MeasuredValue = Measured | readonly Measured[];

/** The result of a text with units: its SI value, or why it has none. */
export function measure(text: string, formula: FormulaRecord, sample: Sample): { value: number } | { wrong: string } {
  const scope = new Map<string, MeasuredValue>();
  for (const [symbol, unit] of Object.entries(formula.symbols)) {
    const spelling = mathjsUnit[unitOf(unit)];
    const measured = (value: number): Measured => (spelling === '1' ? value : math.unit(value, spelling));
    const value = sample[symbol]!;
    scope.set(symbol, typeof value === 'number' ? measured(value) : value.map(measured));
  }
  try {
    const result = measuredOf(parsed(text), scope);
    if (Array.isArray(result)) return { wrong: 'a list' };
    return inUnit(result as Measured, mathjsUnit[unitOf(formula.gives)]);
  } catch (error) {
    return { wrong: error instanceof Error ? error.message : String(error) };
  }
}

function inUnit(result: Measured, spelling: string): { value: number } | { wrong: string } {
  if (typeof result === 'number')
    return spelling === '1' ? { value: result } : { wrong: `no unit; ${spelling} is due` };
  if (typeof (result as { im?: number }).im === 'number') return { wrong: 'a complex value' };
  const wanted = spelling === '1' ? undefined : math.unit(1, spelling);
  if (wanted === undefined)
    return result.dimensions.every((power) => Math.abs(power) < 1e-12)
      ? { value: result.toSI().toNumeric('') as number }
      : { wrong: `a unit, ${result.formatUnits()}; none is due` };
  if (!result.equalBase(wanted)) return { wrong: `${result.formatUnits()}; ${spelling} is due` };
  return { value: result.toNumber(spelling) };
}

const trees = new Map<string, MathNode>();
function parsed(text: string): MathNode {
  const known = trees.get(text) ?? math.parse(text);
  trees.set(text, known);
  return known;
}

/** Walks the library's tree; built-ins that refuse units or lists of units are spelt out with its own arithmetic. */
function measuredOf(node: MathNode, scope: ReadonlyMap<string, MeasuredValue>): MeasuredValue {
  const n = node as unknown as {
    type: string;
    op?: string;
    fn?: { name: string } | string;
    args?: MathNode[];
    name?: string;
    value?: number;
    content?: MathNode;
  };
  if (n.type === 'ConstantNode') return n.value!;
  if (n.type === 'ParenthesisNode') return measuredOf(n.content!, scope);
  if (n.type === 'SymbolNode') return scope.get(n.name!) ?? (n.name === 'pi' ? Math.PI : fail(`no symbol ${n.name}`));
  const of = n.args!.map((each) => measuredOf(each, scope));
  if (n.type === 'FunctionNode') return call(typeof n.fn === 'string' ? n.fn : n.fn!.name, of);
  if (n.type !== 'OperatorNode') return fail(`a ${n.type}`);
  if (of.length === 1) return each([of[0]!, 0], (a) => math.unaryMinus(a as number) as Measured);
  const operator = n.op!.replace(/^\.(?=.)/, '');
  return each(of, (a, b) => binary(operator, a, b));
}

function binary(operator: string, a: Measured, b: Measured): Measured {
  if (operator === '+') return math.add(a as number, b as number) as Measured;
  if (operator === '-') return math.subtract(a as number, b as number) as Measured;
  if (operator === '*') return math.multiply(a as number, b as number) as Measured;
  if (operator === '/') return math.divide(a as number, b as number) as Measured;
  if (operator === '^') return math.pow(a as number, b as number) as Measured;
  return fail(`an operator ${operator}`);
}

function each(values: readonly MeasuredValue[], of: (a: Measured, b: Measured) => Measured): MeasuredValue {
  const [a, b] = values as [MeasuredValue, MeasuredValue];
  if (!Array.isArray(a) && !Array.isArray(b)) return of(a as Measured, b as Measured);
  const length = (Array.isArray(a) ? a : (b as readonly Measured[])).length;
  const at = (value: MeasuredValue, index: number): Measured =>
    Array.isArray(value) ? value[index]! : (value as Measured);
  return Array.from({ length }, (_, index) => of(at(a, index), at(b, index)));
}

function call(name: string, of: readonly MeasuredValue[]): MeasuredValue {
  const list = of.flat() as Measured[];
  if (name === 'sum') return list.reduce((total, next) => binary('+', total, next));
  if (name === 'max' || name === 'min')
    return list.reduce((best, next) =>
      (math.larger(next as number, best as number) as boolean) === (name === 'max') ? next : best,
    );
  if (name === 'count') return list.length;
  const known: Readonly<Record<string, (x: never) => unknown>> = {
    abs: math.abs, sqrt: math.sqrt, cbrt: math.cbrt, ceil: math.ceil, floor: math.floor, round: math.round,
    exp: math.exp, log: math.log, sin: math.sin, cos: math.cos, tan: math.tan,
  } as never; // biome-ignore format: a table
  const single = known[name] ?? fail(`a function ${name}`);
  const plain = of[0] as Measured;
  const bare =
    typeof plain === 'number' || name === 'abs' || name === 'sqrt' || name === 'cbrt' ? plain : dimensionless(plain);
  return single(bare as never) as Measured;
}

/** A quotient of like units is a plain number; a library that keeps it as a unit is helped. */
function dimensionless(value: MathUnit): number {
  if (!value.dimensions.every((power) => Math.abs(power) < 1e-12))
    return fail(`${value.formatUnits()} where a plain number is due`);
  return value.toSI().toNumeric('') as number;
}

const fail = (what: string): never => {
  throw new Error(`${what} is not expected here`);
};

/** The text that applies to a sample, and its place among the cases. */
export function caseFor(formula: FormulaRecord, sample: Sample): number {
  return formula.cases.indexOf(applies(formula, sample));
}

// ── mutants ──────────────────────────────────────────────────────────────────

export interface Mutant {
  readonly what: string;
  readonly formula: FormulaRecord;
}

const swaps: Readonly<Record<string, readonly string[]>> = {
  '+': ['-'], '-': ['+'], '*': ['/'], '/': ['*'], './': ['.*'], '.*': ['./'], '^': ['*'],
  '<': ['>', '<='], '>': ['<', '>='], '<=': ['<', '>'], '>=': ['>', '<'],
  max: ['min'], min: ['max'], sum: ['max'], floor: ['ceil'], ceil: ['floor'], sin: ['cos'], cos: ['sin'],
}; // biome-ignore format: a table

/** The formula with each token of each text changed, one at a time. */
export function mutantsOf(formula: FormulaRecord): readonly Mutant[] {
  return formula.cases.flatMap((each, index) =>
    (['text', 'when'] as const).flatMap((part) => {
      const text = each[part];
      if (text === undefined) return [];
      return mutatedTexts(text, formula).map((mutated): Mutant => {
        const cases = formula.cases.map((old, place) => (place === index ? { ...old, [part]: mutated } : old));
        return { what: `${formula.id}: ${text} → ${mutated}`, formula: { ...formula, cases } };
      });
    }),
  );
}

function mutatedTexts(text: string, formula: FormulaRecord): readonly string[] {
  const tokens = [...text.matchAll(/\d+(?:\.\d+)?|[A-Za-z_]\w*|\.[*/^]|[<>]=?|[-+*/^]/g)];
  const replaced = tokens.flatMap((token) =>
    substitutes(token[0], formula).map(
      (by) => text.slice(0, token.index) + by + text.slice(token.index + token[0].length),
    ),
  );
  return [...replaced, `-(${text})`].filter((mutated) => !/^-\(.*[<>]/.test(mutated));
}

function substitutes(token: string, formula: FormulaRecord): readonly string[] {
  if (/^\d/.test(token)) return [String(Number(token) + 1), String(Number(token) * 2 + 3)];
  const unit = formula.symbols[token];
  if (unit === undefined) return swaps[token] ?? [];
  const twins = Object.keys(formula.symbols).filter((other) => other !== token && formula.symbols[other] === unit);
  return [...twins, `(2*${token})`.replace('2*', unit.endsWith('[]') ? '2 .* ' : '2*')];
}
