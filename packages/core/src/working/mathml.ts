// A formula set as mathematics: presentation MathML from the tree of its text, with symbols or with values.
import { bindingOf, comparesWith, type Expression, parseExpression, strengthOf, undotted } from './expression.ts';
import type { Working, WorkingInput } from './working.ts';

/** What stands for a symbol: its own name, or its value with unit, which binds as it is written. */
export interface Standing {
  readonly set: string;
  /** The same as text, by which it is known how strongly it binds. */
  readonly text: string;
}

export interface SetWorking {
  /** The formula with its symbols, and the same with values: MathML. */
  readonly formula: string;
  readonly substituted: string;
}

/** The formula of a step, set as mathematics. A method has none: its text is a sentence. */
export function setWorking({ step }: Working): SetWorking | undefined {
  if (step === undefined || step.substituted === '') return undefined;
  const tree = parseExpression(asNotation(step.text));
  return {
    formula: printMathml(tree, setSymbol),
    substituted: printMathml(tree, (symbol) =>
      setInput(
        step.inputs.find((input) => input.symbol === symbol),
        symbol,
      ),
    ),
  };
}

/** The signs of a printed formula as the notation has them. */
const asNotation = (text: string): string => text.replace(/[·−≤≥≠π]|(?<![<>=!])=(?!=)/g, (sign) => notation[sign]!);

const notation: Readonly<Record<string, string>> = {
  '·': '*',
  '−': '-',
  '≤': '<=',
  '≥': '>=',
  '≠': '!=',
  '=': '==',
  π: 'pi',
};

/** A long list is shortened; the list under the formula is whole. */
function setInput(input: WorkingInput | undefined, symbol: string): Standing {
  if (input === undefined) return setSymbol(symbol);
  const texts = input.values.map(({ text }) => text);
  return setValue(texts.length > 4 ? `${texts[0]}, ${texts[1]}, …, ${texts.at(-1)}` : texts.join(', '));
}

/** The whole of a `math` element; `name` says what stands for a symbol. */
export const printMathml = (tree: Expression, name: (symbol: string) => Standing): string =>
  `<math display="block">${row(set(tree, name))}</math>`;

function set(tree: Expression, name: (symbol: string) => Standing): string {
  switch (tree.kind) {
    case 'number':
      return `<mn>${tree.text}</mn>`;
    case 'symbol':
      return tree.name === 'pi' ? '<mi>π</mi>' : name(tree.name).set;
    case 'sign':
      return `<mo form="prefix">−</mo>${inBrackets(tree.of, strengthOf('sign'), name)}`;
    case 'call':
      return setCall(tree, name);
    case 'pair':
      return setPair(tree, name);
  }
}

function setPair(
  { operator, left, right }: Extract<Expression, { kind: 'pair' }>,
  name: (symbol: string) => Standing,
): string {
  const plain = undotted(operator);
  const binds = strengthOf(plain);
  // The line of a fraction and the place of an exponent are brackets by themselves.
  if (plain === '/') return `<mfrac>${row(set(left, name))}${row(set(right, name))}</mfrac>`;
  if (plain === '^') return `<msup>${row(inBrackets(left, binds + 1, name))}${row(set(right, name))}</msup>`;
  const compares = comparesWith(plain);
  const before = inBrackets(left, compares ? binds + 1 : binds, name);
  const after = inBrackets(right, binds + 1, name);
  return `${before}<mo>${signs[plain] ?? escaped(plain)}</mo>${after}`;
}

const signs: Readonly<Record<string, string>> = {
  '*': '·',
  '<=': '≤',
  '>=': '≥',
  '!=': '≠',
  '==': '=',
  '-': '−',
  and: 'and',
};

function setCall(
  { name: call, of }: Extract<Expression, { kind: 'call' }>,
  name: (symbol: string) => Standing,
): string {
  const [first] = of;
  const all = of.map((each) => row(set(each, name))).join('<mo separator="true">,</mo>');
  if (first !== undefined && of.length === 1) {
    if (call === 'sum') return `<mo largeop="true">∑</mo>${inBrackets(first, strengthOf('*'), name)}`;
    if (call === 'sqrt') return `<msqrt>${set(first, name)}</msqrt>`;
    if (call === 'cbrt') return `<mroot>${row(set(first, name))}<mn>3</mn></mroot>`;
    const fences = pairsOf[call];
    if (fences !== undefined) return `<mo form="prefix">${fences[0]}</mo>${all}<mo form="postfix">${fences[1]}</mo>`;
    if (call === 'exp') return `<msup><mi>e</mi>${row(set(first, name))}</msup>`;
  }
  return `<mi mathvariant="normal">${callNames[call] ?? call}</mi><mo form="prefix">(</mo>${all}<mo form="postfix">)</mo>`;
}

const pairsOf: Readonly<Record<string, readonly [string, string]>> = {
  floor: ['⌊', '⌋'],
  ceil: ['⌈', '⌉'],
  abs: ['|', '|'],
};

const callNames: Readonly<Record<string, string>> = { log: 'ln' };

function inBrackets(part: Expression, least: number, name: (symbol: string) => Standing): string {
  const inner = set(part, name);
  const text = part.kind === 'symbol' && part.name !== 'pi' ? name(part.name).text : '';
  // A fraction and a power stand as one thing.
  const closed = part.kind === 'pair' && undotted(part.operator) === '/';
  const binds = closed ? strengthOf('*') : bindingOf(part, text);
  return least > 0 && binds < least ? `<mo form="prefix">(</mo>${inner}<mo form="postfix">)</mo>` : inner;
}

/** The name of a symbol: one letter in italics, what follows it as an index, a word upright. */
export function setSymbol(symbol: string): Standing {
  const [, letter = symbol, index] = /^(\p{L})_?(\p{N}+|(?<=_)\w+)?$/u.exec(symbol) ?? [];
  const base = letter.length === 1 ? `<mi>${letter}</mi>` : `<mi mathvariant="normal">${escaped(letter)}</mi>`;
  const set = index === undefined ? base : `<msub>${base}<mtext>${escaped(index)}</mtext></msub>`;
  return { set, text: symbol };
}

/** A value with its unit, or several of them. */
export const setValue = (text: string): Standing => ({ set: `<mtext>${escaped(text)}</mtext>`, text });

const row = (inside: string): string => `<mrow>${inside}</mrow>`;

const escaped = (text: string): string =>
  text.replace(/[&<>"]/g, (sign) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[sign]!);
