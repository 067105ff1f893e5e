// Formulas set as mathematics: well-formed, and read back they compute what the formula computes.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../tests/support/seeded.ts';
import { evaluate, parseExpression, type Value } from './expression.ts';
import { allFormulas } from './formula.ts';
import { printMathml, setSymbol, setValue } from './mathml.ts';
import '../index.ts';

interface Element {
  readonly name: string;
  readonly inside: (Element | string)[];
}

/** Reads well-formed XML without entities but those that are escapes; throws at the first slip. */
function readXml(text: string): Element {
  const root: Element = { name: '', inside: [] };
  const open = [root];
  const rest = text.replace(/<(\/?)([a-z]+)((?: [a-z]+="[^"<]*")*)>|([^<>]+)/g, (_, end, name, _attributes, words) => {
    const within = open.at(-1)!;
    if (words !== undefined) within.inside.push(words);
    else if (end === '') {
      const element = { name, inside: [] };
      within.inside.push(element);
      open.push(element);
    } else if (open.pop()!.name !== name) throw new Error(`</${name}> closes nothing in ${text}`);
    return '';
  });
  if (rest !== '' || open.length !== 1) throw new Error(`left over '${rest}' in ${text}`);
  return root.inside[0] as Element;
}

const signs: Readonly<Record<string, string>> = {
  '·': '*',
  '−': '-',
  '≤': '<=',
  '≥': '>=',
  '≠': '!=',
  '=': '==',
  '&lt;': '<',
  '&gt;': '>',
};
const opening: Readonly<Record<string, string>> = { '⌊': 'floor(', '|': 'abs(', '(': '(' };

/** The notation again, with brackets wherever the setting groups without writing them. */
function notation({ name, inside }: Element): string {
  const parts = inside.map((each) => (typeof each === 'string' ? each : notation(each)));
  switch (name) {
    case 'mfrac':
      return `((${parts[0]})/(${parts[1]}))`;
    case 'msup':
      return parts[0] === 'e' ? `exp(${parts[1]})` : `((${parts[0]})^(${parts[1]}))`;
    case 'msqrt':
      return `sqrt(${parts.join('')})`;
    case 'mroot':
      return `cbrt(${parts[0]})`;
    case 'msub':
      return parts.join('_');
    case 'mo':
      return signs[parts[0]!] ?? parts[0]!;
    default:
      return parts.join(' ');
  }
}

/** Fences and the sign of a sum become calls; what a sum takes ends where a weaker sign follows outside of brackets. */
function withCalls(text: string): string {
  const parts = text.trim().split(/ +/);
  let barOpen = false;
  return parts
    .map((part) => {
      if (part === '|') {
        barOpen = !barOpen;
        return barOpen ? opening['|'] : ')';
      }
      if (part === '⌉' || part === '⌋') return ')';
      return part === '⌈' ? 'ceil(' : (opening[part] ?? (part === 'ln' ? 'log' : part));
    })
    .join(' ');
}

describe('a formula set as mathematics', () => {
  it.each([
    ['a/(b + c)', '((a)/(b + c))'],
    ['(a + b)*c', '( a + b ) * c'],
    ['a - (b - c)', 'a - ( b - c )'],
    ['a/b/c', '((((a)/(b)))/(c))'],
    ['(a*b)^2', '((( a * b ))^(2))'],
    ['-a^2', '- ((a)^(2))'],
    ['sqrt(x_1)', 'sqrt(x_1)'],
    ['a + b <= c', 'a + b <= c'],
  ])('%s', (text, expected) => {
    expect(
      notation(readXml(printMathml(parseExpression(text), setSymbol)))
        .trim()
        .replace(/ +/g, ' '),
    ).toBe(expected);
  });

  it('escapes what stands for a symbol, and brackets a value that is taken away or multiplied', () => {
    const tree = parseExpression('a*b - c');
    const set = printMathml(tree, (symbol) => setValue({ a: '<b> & "c"', b: '18 ns/octet', c: '−5 N' }[symbol]!));
    expect(set).toContain('&lt;b&gt; &amp; &quot;c&quot;');
    expect(set).toContain('(</mo><mtext>−5 N</mtext>');
    expect(set).toContain('(</mo><mtext>18 ns/octet</mtext>');
  });

  it('seeded: every formula without a sum reads back as what it computes', () => {
    const random = seeded(7);
    let held = 0;
    for (const formula of allFormulas()) {
      for (const { text } of formula.prose === undefined ? formula.cases : []) {
        const tree = parseExpression(text);
        const back = withCalls(notation(readXml(printMathml(tree, setSymbol))));
        if (/∑/.test(back)) continue;
        const values: Record<string, Value> = {};
        for (const [symbol, range] of Object.entries(formula.try)) {
          const [least, most] = range as readonly [number, number];
          const value = (): number => least + random() * (most - least);
          values[symbol] = formula.symbols[symbol]!.endsWith('[]') ? [value(), value(), value()] : value();
        }
        expect(evaluate(parseExpression(back), values), `${formula.id}: ${back}`).toEqual(
          expect.closeTo(evaluate(tree, values) as number, 10),
        );
        held++;
      }
    }
    expect(held).toBeGreaterThan(15);
  });

  it('writes a sum with its sign, in brackets what is added up', () => {
    expect(printMathml(parseExpression('sum(a)'), setSymbol)).toContain('∑</mo><mi>a</mi>');
    expect(printMathml(parseExpression('sum(a + b)'), setSymbol)).toContain('∑</mo><mo form="prefix">(</mo>');
    expect(printMathml(parseExpression('sum(a./b)'), setSymbol)).toContain('∑</mo><mfrac>');
  });
});
