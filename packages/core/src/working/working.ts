// The working behind a number, as plain data: what crosses to a screen, a document or another thread.
import { printQuantity } from '../units/print-quantity.ts';
import {
  type Choice,
  choicesIn,
  type Expression,
  evaluate,
  parseExpression,
  printExpression,
  type Value,
} from './expression.ts';
import { type Case, compute, type FormulaRecord } from './formula.ts';
import type { Origin } from './origin.ts';
import { addressOf, isStep, Quantity, type Step } from './quantity.ts';
import { cite } from './sources.ts';

export interface Shown {
  readonly address: string;
  /** In the SI unit named by `unit`. */
  readonly value: number;
  readonly unit: string;
  /** As it is printed, in the user's own unit where there is one. */
  readonly text: string;
}

export interface WorkingInput {
  readonly symbol: string;
  readonly means: string;
  /** One entry, or one for each element of a list. */
  readonly values: readonly Working[];
}

export interface Working extends Shown {
  /** For a leaf: where it comes from. */
  readonly origin?: Origin;
  /** For a step: the formula, the same with values, and what went in. */
  readonly step?: {
    readonly formula: string;
    readonly title: string;
    readonly text: string;
    /** The condition of the case that applied, where the formula has cases. */
    readonly when?: string;
    /** Empty for a method: its text is a sentence. */
    readonly substituted: string;
    /** What stands for the symbols in the line of values, one after another. */
    readonly standing: readonly string[];
    readonly source: string;
    readonly proof: string;
    readonly inputs: readonly WorkingInput[];
  };
}

/** Four significant digits (three for a share in %), in the unit that the user wrote where the number is the user's. */
export function print(quantity: Quantity): string {
  if (!isStep(quantity)) return (quantity.by as Origin).written;
  const { as } = quantity.by;
  return as === undefined
    ? printQuantity(quantity.value, quantity.unit)
    : printQuantity(quantity.value, quantity.unit, { as, digits: as === '%' ? 3 : 4 });
}

/** The same with more digits; what the user wrote stays as it is written. */
const printFinely = (quantity: Quantity, digits: number): string =>
  isStep(quantity)
    ? printQuantity(quantity.value, quantity.unit, {
        digits,
        ...(quantity.by.as !== undefined && { as: quantity.by.as }),
      })
    : print(quantity);

export const shown = (quantity: Quantity): Shown => ({
  address: addressOf(quantity),
  value: quantity.value,
  unit: quantity.unit,
  text: print(quantity),
});

/** The working of a quantity, down to its leaves. A number that several steps use is one object in all of them. */
export function workingOf(quantity: Quantity, done = new Map<Quantity, Working>()): Working {
  const known = done.get(quantity);
  if (known !== undefined) return known;
  const working = isStep(quantity) ? stepOf(quantity, done) : leafOf(quantity);
  done.set(quantity, working);
  return working;
}

// Thousands of these are made at once: objects are written out, since spreading them costs several times as much.

const leafOf = (quantity: Quantity): Working => ({
  address: quantity.about,
  value: quantity.value,
  unit: quantity.unit,
  text: print(quantity),
  origin: quantity.by as Origin,
});

function stepOf(quantity: Step, done: Map<Quantity, Working>): Working {
  const { id, title, means, prose, source, at, proof } = quantity.by;
  const inputs: WorkingInput[] = [];
  for (const symbol of Object.keys(quantity.inputs)) {
    const values = listOf(quantity.inputs[symbol]!).map((each) => workingOf(each, done));
    inputs.push({ symbol, means: means[symbol] ?? '', values });
  }
  const { text, when, substituted, standing } =
    prose === undefined ? texts(quantity, inputs) : { text: prose, when: undefined, substituted: '', standing: [] };
  const cited = cite(source, at);
  return {
    address: addressOf(quantity),
    value: quantity.value,
    unit: quantity.unit,
    text: print(quantity),
    step:
      when === undefined
        ? { formula: id, title, text, substituted, standing, source: cited, proof, inputs }
        : { formula: id, title, text, when, substituted, standing, source: cited, proof, inputs },
  };
}

/** The text of a formula, the condition of the case that applied, and the text with values. */
function texts(
  step: Step,
  inputs: readonly WorkingInput[],
): Pick<StepText, 'text' | 'substituted' | 'standing'> & { readonly when: string | undefined } {
  const used = caseOf(step);
  const { tree, printed, choices } = read(used.text);
  const standing: string[] = [];
  const substituted = printExpression(tree, (symbol, call) => {
    const choice = choices.find((each) => each.takes === call && each.symbols.includes(symbol));
    const text =
      choice === undefined
        ? substitute(inputs.find((input) => input.symbol === symbol)!)
        : substituteChoice(symbol, choice, step);
    standing.push(text);
    return text;
  });
  const when = used.when === undefined ? undefined : read(used.when).printed;
  return { text: printed, when, substituted, standing };
}

type StepText = NonNullable<Working['step']>;

/** Each text that a formula states is read once; there are as many as the formulas have. */
const readTexts = new Map<string, FormulaText>();

interface FormulaText {
  readonly tree: Expression;
  readonly printed: string;
  readonly choices: readonly Choice[];
}

function read(text: string): FormulaText {
  const known = readTexts.get(text);
  if (known !== undefined) return known;
  const tree = parseExpression(text);
  const fresh = { tree, printed: printExpression(tree, (symbol) => symbol), choices: choicesIn(tree) };
  readTexts.set(text, fresh);
  return fresh;
}

/** One number of a flat working; its inputs are addresses of others. */
export interface FlatWorking extends Shown {
  readonly origin?: Origin;
  readonly step?: Omit<NonNullable<Working['step']>, 'inputs' | 'standing'> & {
    readonly inputs: readonly { readonly symbol: string; readonly means: string; readonly from: readonly string[] }[];
  };
}

/** A working with each number once, by address: what is written as JSON. The first is the number asked for. */
export function flatten(working: Working): readonly FlatWorking[] {
  const flat = new Map<string, FlatWorking>();
  gather(working, flat);
  return [...flat.values()];
}

function gather(working: Working, flat: Map<string, FlatWorking>): void {
  const { address, value, unit, text, step } = working;
  if (flat.has(address)) return;
  if (step === undefined) {
    flat.set(address, { address, value, unit, text, origin: working.origin! });
    return;
  }
  const { formula, title, text: formulaText, when, substituted, source, proof } = step;
  const inputs = step.inputs.map(({ symbol, means, values }) => ({ symbol, means, from: values.map(addressIn) }));
  const said = when === undefined ? undefined : { when };
  const flatStep = { formula, title, text: formulaText, ...said, substituted, source, proof, inputs };
  flat.set(address, { address, value, unit, text, step: flatStep });
  for (const input of step.inputs) for (const each of input.values) gather(each, flat);
}

const addressIn = ({ address }: Working): string => address;

/** Computes a step again from its leaves; the result has the identical bits. */
export const replay = (quantity: Quantity): number => again(quantity, new Map()).value;

/** A quantity that several steps rest on is computed once. */
function again(quantity: Quantity, done: Map<Quantity, Quantity>): Quantity {
  if (!isStep(quantity)) return quantity;
  const known = done.get(quantity);
  if (known !== undefined) return known;
  const { by, inputs, unit, about } = quantity;
  const afresh = Object.entries(inputs).map(([symbol, input]): [string, Quantity | readonly Quantity[]] => [
    symbol,
    input instanceof Quantity ? again(input, done) : input.map((each) => again(each, done)),
  ]);
  const fresh = new Quantity(compute(by, Object.fromEntries(afresh)), unit, by, inputs, about);
  done.set(quantity, fresh);
  return fresh;
}

/** Goes through a quantity and all that it rests on, each once. */
export function walk(quantity: Quantity, visit: (quantity: Quantity) => void, seen = new Set<Quantity>()): void {
  if (seen.has(quantity)) return;
  seen.add(quantity);
  visit(quantity);
  for (const input of Object.values(quantity.inputs ?? {})) for (const each of listOf(input)) walk(each, visit, seen);
}

const listOf = (input: Quantity | readonly Quantity[]): readonly Quantity[] =>
  Array.isArray(input) ? input : [input as Quantity];

/** Longer lists are shortened in the line of values; the list under it is whole. */
const longestList = 4;

function substitute({ values }: WorkingInput): string {
  const texts = values.map(({ text }) => text);
  return texts.length > longestList ? `${texts[0]}, ${texts[1]}, …, ${texts.at(-1)}` : texts.join(', ');
}

/** Digits beside the usual ones; what even the last of these do not tell apart is the same for people (our judgement). */
const finer = [5, 6, 7, 8, 9];

/**
 * What stands for a symbol of a choice: the value that is taken stays in a shortened list, and all have as many digits as
 * tell it from the others.
 */
function substituteChoice(symbol: string, { takes, symbols }: Choice, { inputs }: Step): string {
  const sign = takes === 'max' ? 1 : -1;
  const best = (of: readonly Quantity[]): Quantity =>
    of.reduce((taken, each) => (sign * each.value > sign * taken.value ? each : taken));
  const kept = symbols.map((each) => {
    const values = listOf(inputs[each]!);
    return values.length > longestList ? endsAnd(best(values), values) : values;
  });
  const all = kept.flat().filter((each) => each !== leftOut);
  if (all.length === 0) return '';
  const taken = best(all);
  const others = all.filter(({ value }) => value !== taken.value);
  const told = [print, ...finer.map((digits) => (each: Quantity) => printFinely(each, digits))].find((text) =>
    others.every((each) => text(each) !== text(taken)),
  );
  return kept[symbols.indexOf(symbol)]!.map((each) => (each === leftOut ? each : (told ?? print)(each))).join(', ');
}

const leftOut = '…';

/** The first value, the last, one that stands somewhere, and signs for what is left out between them. */
function endsAnd(one: Quantity, values: readonly Quantity[]): readonly (Quantity | typeof leftOut)[] {
  const at = [...new Set([0, values.indexOf(one), values.length - 1])];
  return at.flatMap((index, place) => {
    const gap = place > 0 && index > at[place - 1]! + 1;
    return gap ? [leftOut, values[index]!] : [values[index]!];
  });
}

/** The case of the formula that applied to the values of a step. */
export function caseOf(step: Step): Case {
  if (step.by.cases.length === 1) return step.by.cases[0]!;
  const values: Record<string, Value> = {};
  for (const [symbol, input] of Object.entries(step.inputs)) {
    values[symbol] = Array.isArray(input) ? input.map((each: Quantity) => each.value) : (input as Quantity).value;
  }
  return applies(step.by, values);
}

/** The first case whose condition holds; the last one needs none. */
export const applies = (formula: FormulaRecord, values: Readonly<Record<string, Value>>): Case =>
  formula.cases.find((each) => each.when === undefined || evaluate(read(each.when).tree, values)) ??
  formula.cases.at(-1)!;
