// Takes a unit spelling apart into words and powers: products, quotients, powers, parentheses; knows no unit.

/** One word of a spelling; `from` and `to` are its place in the text. */
export type Term = { readonly word: string; readonly power: number; readonly from: number; readonly to: number };

/** `over` is the number below the line, as in `V/(1000 rpm)`; `readings` are the two ways to read `a/b·c`. */
export type Spelling =
  | { readonly ok: true; readonly terms: readonly Term[]; readonly over: number }
  | { readonly ok: false; readonly from: number; readonly to: number; readonly readings: readonly string[] };

/** Brings characters that look the same (mu, omega, K, the minus, the degree) to one form; no length changes. */
export function canonical(text: string): string {
  if (!/[\u03bc\u2126\u212a\u2212\u2013\u00ba\u02da]/.test(text)) return text;
  return text
    .replace(/\u03bc/g, '\u00b5')
    .replace(/\u2126/g, '\u03a9')
    .replace(/\u212a/g, 'K')
    .replace(/[\u2212\u2013]/g, '-')
    .replace(/[\u00ba\u02da]/g, '°');
}

/**
 * Reads `kg·cm²`, `kg.cm2`, `kg*cm^2`, `kg cm²`, `lb-in`, `1/min`, `min⁻¹`, `m/s/s`, `W/(m²·K)`; the text is trimmed and
 * canonical. A product behind a solidus is refused with both readings (ISO 80000-1 asks for parentheses; from memory).
 */
export function takeApart(text: string): Spelling {
  const terms: Term[] = [];
  let over = 1;
  let at = 0;
  let failure: Spelling = { ok: false, from: 0, to: text.length, readings: [] };

  const fail = (from: number, to: number, readings: readonly string[] = []): false => {
    failure = { ok: false, from, to, readings };
    return false;
  };
  const match = (pattern: RegExp): RegExpExecArray | null => {
    pattern.lastIndex = at;
    const found = pattern.exec(text);
    if (found) at = pattern.lastIndex;
    return found;
  };

  function product(sign: number): boolean {
    const start = at;
    let slash = -1;
    if (match(one)) slash = start + 1;
    for (let first = true; ; first = false) {
      const before = at;
      if (first) {
        if (!factor(slash < 0 ? sign : -sign)) return false;
      } else if (match(solidus)) {
        if (slash < 0) slash = before;
        if (!factor(-sign)) return false;
      } else if (match(times)) {
        if (slash >= 0) return failBothWays(start, slash, before);
        if (!factor(sign)) return false;
      } else {
        return true;
      }
    }
  }

  function factor(sign: number): boolean {
    const from = at;
    if (match(open)) {
      const inside = terms.length;
      if (!product(sign)) return false;
      if (!match(close)) return fail(from, text.length);
      const raised = power();
      for (let i = inside; i < terms.length; i++) {
        const term = terms[i]!;
        if (Math.abs(term.power * raised) > 9) return fail(from, at);
        terms[i] = { ...term, power: term.power * raised };
      }
      return true;
    }
    if (sign < 0) {
      const count = match(tens);
      if (count) over *= Number(count[0]);
    }
    const word = match(letters);
    if (!word) return fail(from, text.length);
    terms.push({ word: word[0], power: sign * power(), from: word.index, to: word.index + word[0].length });
    return true;
  }

  function power(): number {
    const plain = match(plainPower);
    if (plain) return Number(plain[1]);
    const raised = match(raisedPower);
    return raised ? (raised[1] ? -1 : 1) * raisedDigits.indexOf(raised[2]!) : 1;
  }

  function failBothWays(start: number, slash: number, before: number): false {
    const end = endOfGroup(text, at);
    const above = text.slice(start, slash).trim();
    const below = text.slice(slash, before).trim().slice(1).trim();
    const behind = text.slice(at, end).trim();
    const whole = (reading: string) => text.slice(0, start) + reading + text.slice(end);
    return fail(start, end, [whole(`${above}/(${below}·${behind})`), whole(`(${above}/${below})·${behind}`)]);
  }

  if (text.length > longestSpelling || !product(1)) return failure;
  return at < text.length ? { ...failure, from: at } : { ok: true, terms, over };
}

/** Writes terms in the normal form: `kgf·cm·s²`, `W/(m²·K)`, `1/s`. */
export function putTogether(terms: readonly Pick<Term, 'word' | 'power'>[]): string {
  const written = (sign: number) =>
    terms
      .filter((term) => term.power * sign > 0)
      .map(({ word, power }) => word + (Math.abs(power) === 1 ? '' : raisedDigits[Math.abs(power)]));
  const above = written(1).join('·') || '1';
  const below = written(-1);
  if (below.length === 0) return above;
  return `${above}/${below.length > 1 ? `(${below.join('·')})` : below[0]}`;
}

/** Our judgement: the longest sensible spelling has some 20 characters; the bound keeps nesting shallow. */
export const longestSpelling = 60;

const one = /1\s*\/\s*/y;
const solidus = /\s*\/\s*/y;
const times = /\s*(?:[·⋅*×.]|-(?=[A-Za-zµΩ°(]))\s*|\s+(?=[^\s)])|(?=\()|(?<=[0-9²³⁰-⁹¹])(?=[A-Za-zµΩ°])/y;
const open = /\(\s*/y;
const close = /\s*\)/y;
const tens = /10{1,3}\s*(?=[A-Za-zµΩ°])/y;
const letters = /[A-Za-zµΩ°%‰][A-Za-zµΩ°_]*/y;
const plainPower = /\^?(-?[1-9])(?![0-9])/y;
const raisedPower = /(⁻)?([¹²³⁴⁵⁶⁷⁸⁹])(?![⁰¹²³⁴⁵⁶⁷⁸⁹])/y;
const raisedDigits = '⁰¹²³⁴⁵⁶⁷⁸⁹';

/** The place of the parenthesis that closes the group around `from`, or the end of the text. */
function endOfGroup(text: string, from: number): number {
  let depth = 0;
  for (let i = from; i < text.length; i++) {
    if (text[i] === '(') depth++;
    else if (text[i] === ')' && depth-- === 0) return i;
  }
  return text.length;
}
