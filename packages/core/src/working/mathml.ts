// A formula set as mathematics: presentation MathML of the tree of its text, with names or with values for its symbols.
import { bindingOf, comparesWith, type Expression, strengthOf, undotted } from './expression.ts';

/** What stands for a symbol, as text: its own name, or its value with unit, or several of them with commas between. */
export type Naming = (symbol: string) => string;

/**
 * The `math` element. Fractions, powers, roots and sums stand as they are written by hand; brackets stand where the
 * printed line has them, unless a fraction line, a raised place, a root or a fence groups already. Words of several
 * letters are upright, as MathML sets them; what follows a letter (`v_max`, `x1`) is its index.
 */
export const printMathml = (tree: Expression, name: Naming): string =>
  `<math xmlns="http://www.w3.org/1998/Math/MathML" display="block">${row(set(tree, name).set)}</math>`;

interface Piece {
  readonly set: string;
  /** How strongly it holds together, on the scale of the printed line. */
  readonly binds: number;
  /** Whether it ends with a sum, which would take in the factors behind it. */
  readonly takesIn?: boolean;
}

const single = strengthOf('a name');
const product = strengthOf('*');
const power = strengthOf('^');

function set(tree: Expression, name: Naming): Piece {
  switch (tree.kind) {
    case 'number':
      return setValue(tree.text, single);
    case 'symbol':
      return tree.name === 'pi' ? { set: mi('π'), binds: single } : setSymbol(tree, name(tree.name));
    case 'sign': {
      const of = set(tree.of, name);
      const inner = bracketed(of, of.binds < strengthOf('sign') || tree.of.kind === 'sign');
      return { ...inner, set: row(mo('−') + inner.set), binds: strengthOf('sign') };
    }
    case 'call':
      return setCall(tree, name);
    case 'pair':
      return setPair(tree, name);
  }
}

type Of<K extends Expression['kind']> = Extract<Expression, { kind: K }>;

function setPair(pair: Of<'pair'>, name: Naming): Piece {
  const operator = undotted(pair.operator);
  const binds = strengthOf(operator);
  const [left, right] = [set(pair.left, name), set(pair.right, name)];
  // In front of a power and behind a sign a fraction stands as one thing, under an exponent it does not.
  if (operator === '/') return { set: `<mfrac>${row(left.set)}${row(right.set)}</mfrac>`, binds: power };
  if (operator === '^') {
    const base = bracketed(left, left.binds < single);
    return { set: `<msup>${row(base.set)}${row(right.set)}</msup>`, binds: power };
  }
  const takesIn = operator === '*' && left.takesIn === true;
  const before = bracketed(left, takesIn || left.binds < binds + (comparesWith(operator) ? 1 : 0));
  const after = bracketed(right, right.binds <= binds || pair.right.kind === 'sign');
  return { ...after, set: `${before.set}${mo(signs[operator] ?? operator)}${after.set}`, binds };
}

const signs: Readonly<Record<string, string>> = { '*': '·', '<=': '≤', '>=': '≥', '!=': '≠', '==': '=', '-': '−' };

function setCall({ name: call, of }: Of<'call'>, name: Naming): Piece {
  const given = of.map((each) => set(each, name));
  const [only] = given;
  const inner = row(given.map((each) => each.set).join(mo(',')));
  const isOne = only !== undefined && given.length === 1;
  if (call === 'sum' && isOne) {
    const added = bracketed(only, only.binds < product || of[0]!.kind === 'sign');
    return { set: mo('∑') + added.set, binds: power, takesIn: true };
  }
  if (call === 'sqrt') return { set: `<msqrt>${inner}</msqrt>`, binds: single };
  if (call === 'cbrt') return { set: `<mroot>${inner}<mn>3</mn></mroot>`, binds: single };
  const fences = fencesOf[call];
  if (fences !== undefined) return { set: fenced(fences, inner), binds: single };
  return { set: `${mi(callNames[call] ?? call)}${mo(applied)}${fenced('()', inner)}`, binds: single };
}

const fencesOf: Readonly<Record<string, string>> = { floor: '⌊⌋', ceil: '⌈⌉', abs: '||' };
const callNames: Readonly<Record<string, string>> = { log: 'ln' };
/** The sign that is not seen between a function and what it is applied to. */
const applied = '\u2061';

const bracketed = (piece: Piece, needed: boolean): Piece =>
  needed ? { set: fenced('()', row(piece.set)), binds: single } : piece;

const fenced = ([opening, closing]: string | readonly string[], inner: string): string =>
  row(mo(opening!) + inner + mo(closing!));

// ── names and values ─────────────────────────────────────────────────────────────────────────────────────────────────

function setSymbol(tree: Of<'symbol'>, text: string): Piece {
  const binds = bindingOf(tree, text);
  return /^[\p{L}_][\p{L}\p{N}_]*$/u.test(text) ? { set: setName(text), binds } : setValue(text, binds);
}

function setName(text: string): string {
  const [, base = text, index] = /^([^_]+)_(.+)$/u.exec(text) ?? /^(\p{L})(\p{N}+)$/u.exec(text) ?? [];
  if (index === undefined) return mi(base);
  const parts = index.split('_').map((each) => (/^\p{N}+$/u.test(each) ? mn(each) : mi(each)));
  return `<msub>${mi(base)}${row(parts.join(mo(',')))}</msub>`;
}

/** A number with its unit, several of them, or words. */
function setValue(text: string, binds: number): Piece {
  const parts = text.split(', ');
  const hasPowerOfTen = parts.length === 1 && numberWithUnit.exec(text)?.[3] !== undefined;
  return {
    set: row(parts.map(setOne).join(mo(','))),
    binds: hasPowerOfTen ? Math.min(binds, product) : binds,
  };
}

const numberWithUnit = /^([-−]?)(\d+(?:\.\d+)?)(?:e([+-]?\d+))?( ?)(\D.*)?$/su;

function setOne(text: string): string {
  const [, sign, number, exponent, space, unit] = numberWithUnit.exec(text) ?? [];
  // A list without elements prints as nothing.
  if (text === '') return mi('∅');
  if (number === undefined) return text === '…' ? mo(text) : `<mtext>${escaped(text)}</mtext>`;
  return [
    sign ? mo('−') : '',
    mn(number),
    exponent === undefined ? '' : `${mo('·')}<msup>${mn('10')}${row(setOne(exponent.replace('+', '')))}</msup>`,
    unit === undefined ? '' : `<mtext>${space ? '\u00a0' : ''}${escaped(unit)}</mtext>`,
  ].join('');
}

const mi = (text: string): string => `<mi>${escaped(text)}</mi>`;
const mn = (text: string): string => `<mn>${text}</mn>`;
const mo = (text: string): string => `<mo>${escaped(text)}</mo>`;
const row = (inside: string): string => `<mrow>${inside}</mrow>`;

const escaped = (text: string): string =>
  text.replace(/[&<>]/g, (sign) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;' })[sign]!);
