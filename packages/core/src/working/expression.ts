// Reads the text of a formula into a tree, computes it, and prints it for people.
// Notation: numbers, symbols, + - * / ^, comparisons, `a and b`, calls such as max(x, y) and sum(t). Dotted operators
// (.* ./ .^ .+ .-) act element by element on lists.

export type Expression =
  | { readonly kind: 'number'; readonly value: number; readonly text: string }
  | { readonly kind: 'symbol'; readonly name: string }
  | { readonly kind: 'sign'; readonly of: Expression }
  | { readonly kind: 'pair'; readonly operator: string; readonly left: Expression; readonly right: Expression }
  | { readonly kind: 'call'; readonly name: string; readonly of: readonly Expression[] };

export type Value = number | readonly number[];

const comparisons = ['<', '<=', '>', '>=', '==', '!='];

/** Binding strength by operator; between products and powers stands the sign, above all a single thing. */
const strength: ReadonlyMap<string, number> = new Map(
  [['and'], comparisons, ['+', '-', '.+', '.-'], ['*', '/', '.*', './'], [], ['^', '.^']].flatMap((operators, index) =>
    operators.map((operator) => [operator, index + 1] as const),
  ),
);
const [comparisonStrength, productStrength, signStrength, singleStrength] = [2, 4, 5, 7];

/** How strongly an operator binds, the sign of a number among them. */
export const strengthOf = (operator: string): number =>
  operator === 'sign' ? signStrength : (strength.get(operator) ?? singleStrength);

/** Whether an operator compares two sides. */
export const comparesWith = (operator: string): boolean => strength.get(operator) === comparisonStrength;

const functions: Readonly<Record<string, (...values: Value[]) => number | number[]>> = {
  sum: (...values) => values.flat().reduce((total, each) => total + each, 0),
  max: (...values) => Math.max(...values.flat()),
  min: (...values) => Math.min(...values.flat()),
  abs: (x) => Math.abs(x as number),
  sqrt: (x) => Math.sqrt(x as number),
  cbrt: (x) => Math.cbrt(x as number),
  ceil: (x) => Math.ceil(x as number),
  floor: (x) => Math.floor(x as number),
  round: (x) => Math.round(x as number),
  exp: (x) => Math.exp(x as number),
  log: (x) => Math.log(x as number),
  sin: (x) => Math.sin(x as number),
  cos: (x) => Math.cos(x as number),
  tan: (x) => Math.tan(x as number),
  count: (...values) => values.flat().length,
};

const operate: Readonly<Record<string, (a: number, b: number) => number>> = {
  '+': (a, b) => a + b,
  '-': (a, b) => a - b,
  '*': (a, b) => a * b,
  '/': (a, b) => a / b,
  '^': (a, b) => a ** b,
  and: (a, b) => (a && b ? 1 : 0),
  '<': (a, b) => Number(a < b),
  '<=': (a, b) => Number(a <= b),
  '>': (a, b) => Number(a > b),
  '>=': (a, b) => Number(a >= b),
  '==': (a, b) => Number(a === b),
  '!=': (a, b) => Number(a !== b),
};

/** The tree of a formula text. Throws with the place for a text that is not in the notation: a slip of the author. */
export function parseExpression(text: string): Expression {
  const tokens =
    text.match(/\d+(?:\.\d+)?(?:e[+-]?\d+)?|[A-Za-zα-ωΑ-Ω_][\wα-ωΑ-Ω]*|\.[*/^+-]|[<>=!]=|[-+*/^(),<>]|\S/gu) ?? [];
  let next = 0;
  const expect = (token: string): void => {
    if (tokens[next++] !== token) throw new Error(`'${token}' is expected ${placeOf(next - 1)}`);
  };
  const placeOf = (index: number): string =>
    `${index < tokens.length ? `before '${tokens.slice(index).join(' ')}'` : 'at the end'} in: ${text}`;

  function atom(): Expression {
    const token = tokens[next++];
    if (token === undefined) throw new Error(`a value is expected ${placeOf(next)}`);
    if (token === '-') return { kind: 'sign', of: pairs(atom(), signStrength) };
    if (token === '(') {
      const inner = pairs(atom(), 0);
      expect(')');
      return inner;
    }
    if (/^\d/.test(token)) return { kind: 'number', value: Number(token), text: token };
    if (strength.has(token) || !/^[\p{L}_]/u.test(token)) throw new Error(`a value is expected ${placeOf(next - 1)}`);
    if (tokens[next] !== '(') return { kind: 'symbol', name: token };
    if (!Object.hasOwn(functions, token)) throw new Error(`there is no function '${token}', in: ${text}`);
    const of: Expression[] = [];
    do {
      next++;
      of.push(pairs(atom(), 0));
    } while (tokens[next] === ',');
    expect(')');
    return { kind: 'call', name: token, of };
  }

  function pairs(left: Expression, least: number): Expression {
    for (let compared = false; ; ) {
      const operator = tokens[next] ?? '';
      const binds = strength.get(operator);
      if (binds === undefined || binds <= least) return left;
      // 'a < b < c' would compare the outcome of the first comparison.
      if (compared && binds === comparisonStrength) throw new Error(`an 'and' is expected ${placeOf(next)}`);
      compared = binds === comparisonStrength;
      next++;
      // A power binds to the right, the others to the left.
      const right = pairs(atom(), operator.endsWith('^') ? binds - 1 : binds);
      left = { kind: 'pair', operator, left, right };
    }
  }

  const tree = pairs(atom(), 0);
  if (next < tokens.length) throw new Error(`'${tokens.slice(next).join(' ')}' is left over in: ${text}`);
  return tree;
}

/** Computes a tree; symbols come from `values`, lists as arrays. */
export function evaluate(tree: Expression, values: Readonly<Record<string, Value>>): Value {
  if (tree.kind === 'number') return tree.value;
  if (tree.kind === 'symbol') {
    const value = Object.hasOwn(values, tree.name) ? values[tree.name] : tree.name === 'pi' ? Math.PI : undefined;
    if (value === undefined) throw new Error(`no value for '${tree.name}'`);
    return value;
  }
  if (tree.kind === 'sign') return each(evaluate(tree.of, values), 0, (a) => -a);
  if (tree.kind === 'call') return functions[tree.name]!(...tree.of.map((part) => evaluate(part, values)));
  return each(evaluate(tree.left, values), evaluate(tree.right, values), operate[undotted(tree.operator)]!);
}

export const undotted = (operator: string): string =>
  operator.length > 1 && operator.startsWith('.') ? operator.slice(1) : operator;

function each(a: Value, b: Value, of: (a: number, b: number) => number): Value {
  if (typeof a === 'number' && typeof b === 'number') return of(a, b);
  const [length = 0, other = length] = [a, b].flatMap((value) => (typeof value === 'number' ? [] : [value.length]));
  if (other !== length) throw new Error(`a list of ${length} does not go with a list of ${other}`);
  const at = (value: Value, index: number): number => (typeof value === 'number' ? value : value[index]!);
  return Array.from({ length }, (_, index) => of(at(a, index), at(b, index)));
}

/** A call that takes one of several values, with the symbols that it takes it from. */
export interface Choice {
  readonly takes: 'max' | 'min';
  readonly symbols: readonly string[];
}

/** The calls of max and min in a tree; what they compute before they choose is no symbol of theirs. */
export function choicesIn(tree: Expression): readonly Choice[] {
  if (tree.kind === 'sign') return choicesIn(tree.of);
  if (tree.kind === 'pair') return [...choicesIn(tree.left), ...choicesIn(tree.right)];
  if (tree.kind !== 'call') return [];
  const inside = tree.of.flatMap(choicesIn);
  if (tree.name !== 'max' && tree.name !== 'min') return inside;
  return [
    { takes: tree.name, symbols: tree.of.flatMap((part) => (part.kind === 'symbol' ? [part.name] : [])) },
    ...inside,
  ];
}

const signs: Readonly<Record<string, string>> = { '*': '·', '<=': '≤', '>=': '≥', '!=': '≠', '==': '=', '-': '−' };

/** What stands for a symbol: its own name, or its value with unit; `call` is the function it is given to, if any. */
type Naming = (symbol: string, call?: string) => string;

/** One line for people. */
export function printExpression(tree: Expression, name: Naming): string {
  if (tree.kind === 'number') return tree.text;
  if (tree.kind === 'symbol') return tree.name === 'pi' ? 'π' : name(tree.name);
  if (tree.kind === 'sign') return `−${inBrackets(tree.of, signStrength, name)}`;
  if (tree.kind === 'call') {
    const given = tree.of.map((part) =>
      printExpression(part, (symbol, call) => name(symbol, part.kind === 'symbol' ? tree.name : call)),
    );
    return `${tree.name}(${given.join(', ')})`;
  }
  const operator = undotted(tree.operator);
  const binds = strength.get(operator)!;
  const compares = binds === comparisonStrength;
  const left = inBrackets(tree.left, operator === '^' || compares ? binds + 1 : binds, name);
  const right = inBrackets(tree.right, operator === '^' ? binds : binds + 1, name);
  const sign = signs[operator] ?? operator;
  return operator === '*' || operator === '^' ? `${left}${sign}${right}` : `${left} ${sign} ${right}`;
}

/** A part of an expression, in brackets where it binds less than its place needs. */
function inBrackets(part: Expression, least: number, name: Naming): string {
  const text = printExpression(part, name);
  return least > 0 && bindingOf(part, text) < least ? `(${text})` : text;
}

/** What stands for a symbol counts too: the square of 3 m is (3 m)^2, and −5 N is taken away as (−5 N). */
export function bindingOf(tree: Expression, text: string): number {
  if (tree.kind === 'pair') return strength.get(tree.operator)!;
  if (tree.kind === 'sign') return signStrength;
  if (tree.kind !== 'symbol' || /^[\p{L}\p{N}_.]+$/u.test(text)) return singleStrength;
  if (/^[-−]|, /.test(text)) return 0;
  return text.includes('/') ? productStrength : signStrength;
}
