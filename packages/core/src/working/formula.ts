// Formulas take quantities by the name of a symbol and give a quantity that remembers them. There is no silent mode.
import type { Unit } from '../units/si.ts';
import { type Inputs, Quantity } from './quantity.ts';
import type { SourceId } from './sources.ts';

/** The unit of a symbol; `same` stands for any unit that all symbols marked so share; `[]` for a list. */
export type SymbolUnit = Unit | 'same' | `${Unit}[]`;
export type Symbols = Readonly<Record<string, SymbolUnit>>;

export interface Case {
  /** The condition under which the text holds; absent for the last case. */
  readonly when?: string;
  readonly text: string;
}

/** All that a formula says about itself. The texts are arithmetic in the notation that `expression.ts` reads. */
export interface FormulaRecord {
  readonly id: string;
  /** For a method, which no line of arithmetic can state: what it does, in a sentence. It has no cases then. */
  readonly prose?: string;
  /** What the result is, in a few words: 'one exchange with a node'. */
  readonly title: string;
  readonly cases: readonly Case[];
  readonly gives: Unit;
  /** The spelling that the result is printed in, where it is not the usual one of its unit: `%` for a share. */
  readonly as?: string;
  readonly symbols: Symbols;
  /** What each symbol means, for the list under a formula. */
  readonly means: Readonly<Record<string, string>>;
  /** Ranges, in SI, from which the test of all formulas draws; a third number asks for multiples of it. */
  readonly try: Readonly<Record<string, readonly [number, number, number?]>>;
  readonly source: SourceId;
  /** Where in the source: 'eq. 39.2'. */
  readonly at?: string;
  /** The published case or second method that proves the formula; a test of that name exists. */
  readonly proof: string;
  /** The formula on plain SI numbers, in the order of the symbols; lists as arrays. */
  readonly of: (...values: never[]) => number;
}

type Argument<S extends SymbolUnit> = S extends `${infer U extends Unit}[]`
  ? readonly Quantity<U>[]
  : S extends Unit
    ? Quantity<S>
    : Quantity;

export type Arguments<S extends Symbols> = { readonly [K in keyof S]: Argument<S[K]> };

export interface Formula<S extends Symbols, G extends Unit> extends FormulaRecord {
  (inputs: Arguments<S>, about: string): Quantity<G>;
}

export interface FormulaSpec<S extends Symbols, G extends Unit> extends Omit<FormulaRecord, 'cases'> {
  readonly text?: string;
  readonly cases?: readonly Case[];
  readonly symbols: S;
  readonly gives: G;
  readonly means: { readonly [K in keyof S]: string };
  readonly try: { readonly [K in keyof S]: readonly [number, number, number?] };
}

const register = new Map<string, FormulaRecord>();

/** Every formula that has been declared, for the tests that go through all of them and for the reference pages. */
export const allFormulas = (): readonly FormulaRecord[] => [...register.values()];

/** Declares a formula. Throws on a second formula of the same id and on a text that is missing: slips of the author. */
export function formula<const S extends Symbols, const G extends Unit>(spec: FormulaSpec<S, G>): Formula<S, G> {
  const { text, cases = text === undefined ? [] : [{ text }], ...rest } = spec;
  if (cases.length === 0) throw new Error(`formula ${spec.id} has no text`);
  if (register.has(spec.id)) throw new Error(`formula ${spec.id} is declared twice`);
  const call = caller(Object.keys(spec.symbols), spec.symbols, spec.of as (...values: unknown[]) => number);
  const declared = Object.assign(
    (inputs: Inputs, about: string) => new Quantity(call(inputs), spec.gives, declared, inputs, about),
    { ...rest, cases },
  ) as unknown as Formula<S, G>;
  register.set(spec.id, declared);
  return declared;
}

/** What a method says of itself: a sentence instead of a text, and no ranges to try. */
export type MethodSpec<S extends Symbols, G extends Unit> = Omit<
  FormulaSpec<S, G>,
  'text' | 'cases' | 'try' | 'prose'
> & { readonly prose: string };

const methods = new Map<string, FormulaRecord>();

/** Every method that has been declared; each names the second method that proves it. */
export const allMethods = (): readonly FormulaRecord[] => [...methods.values()];

/** Declares a method: a step whose result no line of arithmetic states, such as a choice among cases. */
export function method<const S extends Symbols, const G extends Unit>(spec: MethodSpec<S, G>): Formula<S, G> {
  if (methods.has(spec.id)) throw new Error(`method ${spec.id} is declared twice`);
  const call = caller(Object.keys(spec.symbols), spec.symbols, spec.of as (...values: unknown[]) => number);
  const declared = Object.assign(
    (inputs: Inputs, about: string) => new Quantity(call(inputs), spec.gives, declared, inputs, about),
    { ...spec, cases: [], try: {} },
  ) as unknown as Formula<S, G>;
  methods.set(spec.id, declared);
  return declared;
}

/** What an open method says of itself; symbols, their meanings and the computation come with each call. */
export type OpenMethodSpec<G extends Unit> = Omit<MethodSpec<Symbols, G>, 'symbols' | 'means' | 'of'>;

export interface OpenCall {
  readonly inputs: Inputs;
  readonly means: Readonly<Record<string, string>>;
  /** Takes the values of the inputs in their order, lists as arrays. */
  readonly of: (...values: never[]) => number;
  /** What `of` gives, where it has been computed already together with other results. */
  readonly value?: number;
}

/** Declares a method whose inputs differ from call to call, such as an integral over a motion that is built of any steps. */
export function openMethod<const G extends Unit>(
  spec: OpenMethodSpec<G>,
): (call: OpenCall, about: string) => Quantity<G> {
  const record = { ...spec, cases: [], try: {}, symbols: {}, means: {}, of: () => Number.NaN } as FormulaRecord;
  if (methods.has(spec.id)) throw new Error(`method ${spec.id} is declared twice`);
  methods.set(spec.id, record);
  return ({ inputs, means, of, value }, about) => {
    const own: FormulaRecord = {
      ...record,
      means,
      of,
      // Asked for when the number is explained or replayed, and not while it is computed.
      get symbols() {
        return symbolsOf(inputs);
      },
    };
    return new Quantity(value ?? compute(own, inputs), spec.gives, own, inputs, about);
  };
}

/** The values of inputs in their order, lists as arrays: what the computation of a method takes. */
export type Values = readonly (number | readonly number[])[];

export const valuesOf = (inputs: Inputs): Values => Object.values(inputs).map(plain);

/** Several numbers out of one computation: it runs once unless it has run elsewhere, and again for the number that is replayed. */
export function resultsOf<R>(
  { inputs, means }: Pick<OpenCall, 'inputs' | 'means'>,
  run: (values: Values) => R,
  now: R = run(valuesOf(inputs)),
): { readonly now: R; readonly call: (take: (result: R) => number) => OpenCall } {
  return {
    now,
    call: (take) => ({ inputs, means, of: (...values: Values) => take(run(values)), value: take(now) }),
  };
}

const symbolsOf = (inputs: Inputs): Symbols =>
  Object.fromEntries(
    Object.entries(inputs).map(([symbol, input]): [string, SymbolUnit] => [
      symbol,
      input instanceof Quantity ? input.unit : `${input[0]?.unit ?? '1'}[]`,
    ]),
  );

/** The value of a formula for given inputs; the one way in which a step is computed, first and at replay. */
export const compute = (record: FormulaRecord, inputs: Inputs): number =>
  caller(Object.keys(record.symbols), record.symbols, record.of as (...values: unknown[]) => number)(inputs);

const plain = (input: Quantity | readonly Quantity[]): number | readonly number[] =>
  input instanceof Quantity ? input.value : input.map((each) => each.value);

/** One closure for each number of symbols: calling with spread arguments would cost more than the arithmetic. */
function caller(names: readonly string[], symbols: Symbols, of: (...values: unknown[]) => number) {
  const [a = '', b = '', c = '', d = '', e = '', f = ''] = names;
  const single = names.every((name) => !symbols[name]?.endsWith('[]'));
  const at = (inputs: Inputs, name: string): number => (inputs[name] as Quantity).value;
  if (single && names.length === 1) return (i: Inputs) => of(at(i, a));
  if (single && names.length === 2) return (i: Inputs) => of(at(i, a), at(i, b));
  if (single && names.length === 3) return (i: Inputs) => of(at(i, a), at(i, b), at(i, c));
  if (single && names.length === 4) return (i: Inputs) => of(at(i, a), at(i, b), at(i, c), at(i, d));
  if (single && names.length === 5) return (i: Inputs) => of(at(i, a), at(i, b), at(i, c), at(i, d), at(i, e));
  if (single && names.length === 6)
    return (i: Inputs) => of(at(i, a), at(i, b), at(i, c), at(i, d), at(i, e), at(i, f));
  return (i: Inputs) => of(...names.map((name) => plain(i[name] as Quantity | readonly Quantity[])));
}
