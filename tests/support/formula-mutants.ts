// Every small slip that an author could make in the text of a formula, one at a time.
import type { MathNode } from 'mathjs';
import type { FormulaRecord } from '../../packages/core/src/working/formula.ts';
import { type CaseTree, math, treesOf } from './formula-reader.ts';

export interface Mutant {
  /** The formula and its text with the slip in it: the name under which an equivalent is listed. */
  readonly name: string;
  readonly cases: readonly CaseTree[];
}

/** All mutants of a formula, none twice. A mutant that only reorders a sum or a product is none. */
export function mutantsOf(record: FormulaRecord): readonly Mutant[] {
  const cases = treesOf(record.cases);
  const mutants = cases.flatMap((original, at) =>
    (['when', 'text'] as const).flatMap((part) => {
      const tree = original[part];
      if (tree === undefined) return [];
      return slips(tree, record).map((mutated) => ({
        name: `${record.id}: ${part === 'when' ? 'when ' : ''}${print(mutated)}`,
        cases: cases.with(at, { ...original, [part]: mutated }),
      }));
    }),
  );
  return [...new Map(mutants.map((mutant) => [mutant.name, mutant])).values()];
}

const print = (tree: MathNode): string => tree.toString({ parenthesis: 'auto' });

function slips(tree: MathNode, record: FormulaRecord): readonly MathNode[] {
  const mutated: MathNode[] = exchanges(tree, record);
  tree.traverse((node, path) => {
    for (const slip of path === 'fn' ? [] : slipsAt(node, record)) {
      mutated.push(tree.transform((each) => (each === node ? slip : each)));
    }
  });
  const original = ordered(tree);
  return mutated.filter((each) => ordered(each) !== original);
}

function slipsAt(node: MathNode, record: FormulaRecord): readonly MathNode[] {
  if (math.isConstantNode(node)) {
    const value = Number(node.value);
    return [value + 1, value * 1.001].map((other) => new math.ConstantNode(other));
  }
  if (math.isSymbolNode(node)) {
    const others = alike(node.name, record).map((name) => new math.SymbolNode(name));
    return [...others, operator('unaryMinus', [node])];
  }
  if (math.isFunctionNode(node)) {
    const args = node.args as MathNode[];
    const { name } = node.fn;
    const shorter = args.length < 2 ? [] : args.map((_, index) => call(name, args.toSpliced(index, 1)));
    const swapped = (swappedFunctions[name] ?? []).map((other) => call(other, args));
    return [...shorter, ...swapped, ...(ofLists.includes(name) ? [] : args)];
  }
  if (!math.isOperatorNode(node)) return [];
  const { fn, args } = node as unknown as { fn: string; args: MathNode[] };
  const swapped = (swappedOperators[fn] ?? []).map((other) => operator(other, args));
  return fn in comparisons ? swapped : [...swapped, ...args];
}

/** Two symbols of one unit that stand for each other, everywhere in the text. */
function exchanges(tree: MathNode, record: FormulaRecord): MathNode[] {
  return Object.keys(record.symbols).flatMap((one) =>
    alike(one, record)
      .filter((other) => one < other)
      .map((other) =>
        tree.transform((node) => {
          if (!math.isSymbolNode(node) || (node.name !== one && node.name !== other)) return node;
          return new math.SymbolNode(node.name === one ? other : one);
        }),
      ),
  );
}

const alike = (symbol: string, { symbols }: FormulaRecord): readonly string[] =>
  Object.keys(symbols).filter((other) => other !== symbol && symbols[other] === symbols[symbol]);

const comparisons: Readonly<Record<string, readonly string[]>> = {
  smaller: ['smallerEq', 'larger'],
  smallerEq: ['smaller', 'largerEq'],
  larger: ['largerEq', 'smaller'],
  largerEq: ['larger', 'smallerEq'],
  equal: ['unequal'],
  unequal: ['equal'],
};

const swappedOperators: Readonly<Record<string, readonly string[]>> = {
  ...comparisons,
  add: ['subtract'],
  subtract: ['add'],
  multiply: ['divide'],
  divide: ['multiply'],
  dotMultiply: ['dotDivide'],
  dotDivide: ['dotMultiply'],
  pow: ['multiply'],
  dotPow: ['dotMultiply'],
};

/** Functions that make one value of many; the others take one value and can be left out around it. */
const ofLists: readonly string[] = ['sum', 'max', 'min', 'count'];

const swappedFunctions: Readonly<Record<string, readonly string[]>> = {
  max: ['min'],
  min: ['max'],
  sum: ['max'],
  count: ['sum'],
  ceil: ['floor', 'round'],
  floor: ['ceil', 'round'],
  round: ['floor', 'ceil'],
  sqrt: ['cbrt'],
  cbrt: ['sqrt'],
  exp: ['log'],
  log: ['exp'],
  sin: ['cos'],
  cos: ['sin'],
  tan: ['sin'],
};

const signs: Readonly<Record<string, string>> = {
  unaryMinus: '-',
  add: '+',
  subtract: '-',
  multiply: '*',
  divide: '/',
  dotMultiply: '.*',
  dotDivide: './',
  pow: '^',
  dotPow: '.^',
  smaller: '<',
  smallerEq: '<=',
  larger: '>',
  largerEq: '>=',
  equal: '==',
  unequal: '!=',
};

const operator = (fn: string, args: MathNode[]): MathNode => new math.OperatorNode(signs[fn] as '+', fn as 'add', args);
const call = (name: string, args: MathNode[]): MathNode => new math.FunctionNode(name, args);

/** A text in which what never matters is settled: the same for a + b and b + a, and for abs(a - b) and abs(b - a). */
function ordered(node: MathNode): string {
  if (math.isParenthesisNode(node)) return ordered(node.content);
  if (math.isFunctionNode(node) && ['abs', 'cos'].includes(node.fn.name))
    return `${node.fn.name}(${ofEitherSign(node.args[0]!)})`;
  if (math.isFunctionNode(node)) return `${node.fn.name}(${node.args.map(ordered).toSorted().join()})`;
  if (!math.isOperatorNode(node)) return node.toString();
  const { fn, args } = node as unknown as { fn: string; args: MathNode[] };
  if (fn === 'add' || fn === 'subtract' || fn === 'unaryMinus') return `(${termsOf(node).toSorted().join(' ')})`;
  if (fn === 'multiply') return `(${factorsOf(node).toSorted().join('*')})`;
  // The square of what is negative is that of what is positive.
  if ((fn === 'pow' || fn === 'dotPow') && Number(args[1]) % 2 === 0)
    return `${fn}(${ofEitherSign(args[0]!)},${ordered(args[1]!)})`;
  const sides = args.map(ordered);
  return `${fn}(${fn === 'equal' || fn === 'unequal' ? sides.toSorted() : sides})`;
}

/** The same for a sum and for its opposite. */
const ofEitherSign = (node: MathNode): string =>
  ['+', '-'].map((sign) => termsOf(node, sign).toSorted().join(' ')).toSorted()[0]!;

function termsOf(node: MathNode, sign = '+'): readonly string[] {
  const bare = math.isParenthesisNode(node) ? node.content : node;
  const { fn, args } = bare as unknown as { fn: unknown; args: MathNode[] };
  const opposite = sign === '+' ? '-' : '+';
  if (fn === 'add') return args.flatMap((each) => termsOf(each, sign));
  if (fn === 'subtract') return [...termsOf(args[0]!, sign), ...termsOf(args[1]!, opposite)];
  if (fn === 'unaryMinus') return termsOf(args[0]!, opposite);
  return [sign + ordered(bare)];
}

function factorsOf(node: MathNode): readonly string[] {
  const bare = math.isParenthesisNode(node) ? node.content : node;
  const { fn, args } = bare as unknown as { fn: unknown; args: MathNode[] };
  return fn === 'multiply' ? args.flatMap(factorsOf) : [ordered(bare)];
}
