// Formulas set as mathematics: well-formed, in the form that is written by hand, and read back they compute the same.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readMathml } from '../../../../tests/support/mathml-reader.ts';
import { seeded } from '../../../../tests/support/seeded.ts';
import '../index.ts';
import { readXml } from '../pictures/xml-reader.support.ts';
import { type Expression, evaluate, parseExpression, type Value } from './expression.ts';
import { allFormulas, type FormulaRecord } from './formula.ts';
import { printMathml } from './mathml.ts';

const self = (symbol: string): string => symbol;
const setText = (text: string, names: Readonly<Record<string, string>> = {}): string =>
  printMathml(parseExpression(text), (symbol) => names[symbol] ?? symbol);

/** What stands in the `math` element, with the rows left out that are not seen. */
const inside = (math: string): string => math.replace(/^<math [^>]*>|<\/math>$|<\/?mrow>/g, '');
const math = (content: TemplateStringsArray): string =>
  content
    .join('')
    .trim()
    .split(/ +/)
    .map((word) => {
      if (word.startsWith('<')) return word;
      return /^\d/.test(word)
        ? `<mn>${word}</mn>`
        : /^\p{L}/u.test(word) && word !== 'and'
          ? `<mi>${word}</mi>`
          : `<mo>${word}</mo>`;
    })
    .join('');

describe('a formula set as mathematics', () => {
  it.each<[string, string]>([
    ['2*p + a', math`2 · p + a`],
    ['a/(b + c)', math`<mfrac> a b + c </mfrac>`],
    ['a/b/c', math`<mfrac> <mfrac> a b </mfrac> c </mfrac>`],
    ['a*(b/c)', math`a · <mfrac> b c </mfrac>`],
    ['-(a/b)', math`− <mfrac> a b </mfrac>`],
    ['(a/b)^2', math`<msup> ( <mfrac> a b </mfrac> ) 2 </msup>`],
    ['a^(b + 1)', math`<msup> a b + 1 </msup>`],
    ['(a^b)^c', math`<msup> ( <msup> a b </msup> ) c </msup>`],
    ['(-a)^2', math`<msup> ( − a ) 2 </msup>`],
    ['-a^2', math`− <msup> a 2 </msup>`],
    ['(a + b)*c', math`( a + b ) · c`],
    ['a - (b - c)', math`a − ( b − c )`],
    ['a - -b', math`a − ( − b )`],
    ['a*-b', math`a · ( − b )`],
    ['sum(x)', math`∑ x`],
    ['sum(x .* y)', math`∑ x · y`],
    ['sum(x .+ y)', math`∑ ( x + y )`],
    ['sum(-x)', math`∑ ( − x )`],
    ['sum(x ./ y)', math`∑ <mfrac> x y </mfrac>`],
    ['sum(x) + sum(y)', math`∑ x + ∑ y`],
    ['n*sum(x)', math`n · ∑ x`],
    ['sum(x)*n', math`( ∑ x ) · n`],
    ['2*sum(x)*n', math`( 2 · ∑ x ) · n`],
    ['sum(x)^2', math`<msup> ( ∑ x ) 2 </msup>`],
    ['sum(x)/n', math`<mfrac> ∑ x n </mfrac>`],
    ['max(a, b + c)', math`max \u2061 ( a , b + c )`],
    ['min(x)', math`min \u2061 ( x )`],
    ['log(a)', math`ln \u2061 ( a )`],
    ['floor((T - u)/x)', math`⌊ <mfrac> T − u x </mfrac> ⌋`],
    ['ceil(a)', math`⌈ a ⌉`],
    ['abs(a - b)', math`| a − b |`],
    ['sqrt(a + b)^2', math`<msup> <msqrt> a + b </msqrt> 2 </msup>`],
    ['cbrt(a)', math`<mroot> a 3 </mroot>`],
    ['2*pi*r', math`2 · π · r`],
    ['a <= b and c != 2', math`a ≤ b and c ≠ 2`],
    ['a < b', `<mi>a</mi><mo>&lt;</mo><mi>b</mi>`],
    ['1e-3*a', `<mn>1</mn><mo>·</mo><msup><mn>10</mn><mo>−</mo><mn>3</mn></msup><mo>·</mo><mi>a</mi>`],
    ['v_max', math`<msub> v max </msub>`],
    ['x_1 + x2', math`<msub> x 1 </msub> + <msub> x 2 </msub>`],
    ['t_a_2', math`<msub> t a , 2 </msub>`],
    ['wide', math`wide`],
    ['ω', math`ω`],
  ])('%s', (text, expected) => {
    expect(inside(setText(text))).toBe(expected);
  });

  it.each<[string, string, string]>([
    ['x', '500 µs', '<mn>500</mn><mtext>\u00a0µs</mtext>'],
    ['x', '40°', '<mn>40</mn><mtext>°</mtext>'],
    ['x', '25 %', '<mn>25</mn><mtext>\u00a0%</mtext>'],
    ['x', '7', '<mn>7</mn>'],
    ['x', 'AWG 18', '<mtext>AWG 18</mtext>'],
    ['x', 'not a number', '<mtext>not a number</mtext>'],
    ['x', '1.2e-7 s', '<mn>1.2</mn><mo>·</mo><msup><mn>10</mn><mo>−</mo><mn>7</mn></msup><mtext>\u00a0s</mtext>'],
    ['x', '2e+6 m', '<mn>2</mn><mo>·</mo><msup><mn>10</mn><mn>6</mn></msup><mtext>\u00a0m</mtext>'],
    ['x', '<b>&"c"', '<mtext>&lt;b&gt;&amp;"c"</mtext>'],
    ['x^2', '3 m', '<msup><mo>(</mo><mn>3</mn><mtext>\u00a0m</mtext><mo>)</mo><mn>2</mn></msup>'],
    ['x^2', '5', '<msup><mn>5</mn><mn>2</mn></msup>'],
    ['2^x', '3', '<msup><mn>2</mn><mn>3</mn></msup>'],
    ['a - x', '-5 N', '<mi>a</mi><mo>−</mo><mo>(</mo><mo>−</mo><mn>5</mn><mtext>\u00a0N</mtext><mo>)</mo>'],
    ['a*x', '5 ns/m', '<mi>a</mi><mo>·</mo><mo>(</mo><mn>5</mn><mtext>\u00a0ns/m</mtext><mo>)</mo>'],
    ['a/x', '5 ns/m', '<mfrac><mi>a</mi><mn>5</mn><mtext>\u00a0ns/m</mtext></mfrac>'],
    ['a*x', '5 ms', '<mi>a</mi><mo>·</mo><mn>5</mn><mtext>\u00a0ms</mtext>'],
    ['x^2', '2e6', '<msup><mo>(</mo><mn>2</mn><mo>·</mo><msup><mn>10</mn><mn>6</mn></msup><mo>)</mo><mn>2</mn></msup>'],
    [
      'sum(x)',
      '1 s, …, 2 s',
      '<mo>∑</mo><mo>(</mo><mn>1</mn><mtext>\u00a0s</mtext><mo>,</mo><mo>…</mo><mo>,</mo><mn>2</mn><mtext>\u00a0s</mtext><mo>)</mo>',
    ],
    ['sum(x)', '', '<mo>∑</mo><mi>∅</mi>'],
    ['max(x)', '1 s', '<mi>max</mi><mo>\u2061</mo><mo>(</mo><mn>1</mn><mtext>\u00a0s</mtext><mo>)</mo>'],
  ])('%s with %s in place of x', (text, value, expected) => {
    expect(inside(setText(text, { x: value }))).toBe(expected);
    expect(readXml(setText(text, { x: value })).name).toBe('math');
  });

  it('has no styles and nothing else beside its own name space', () => {
    const attributes = new Set(
      [...setText('max(a/b, sum(x_1))^2', {}).matchAll(/ ([a-z]+)=/g)].map(([, name]) => name),
    );
    expect([...attributes]).toEqual(['xmlns', 'display']);
  });
});

describe('read back, as it stands on the paper,', () => {
  const drawn = (record: FormulaRecord, random: () => number): Record<string, Value> =>
    Object.fromEntries(
      Object.entries(record.try).map(([symbol, [least, most, step]]) => {
        const value = (): number => {
          const free = least + random() * (most - least);
          return step === undefined ? free : Math.round(free / step) * step;
        };
        return [symbol, record.symbols[symbol]!.endsWith('[]') ? [value(), value(), value()] : value()];
      }),
    );

  it('every formula that is declared computes what its text computes', () => {
    const random = seeded(3);
    let held = 0;
    for (const record of allFormulas()) {
      for (const text of record.cases.flatMap((each) => [each.text, ...(each.when === undefined ? [] : [each.when])])) {
        const tree = parseExpression(text);
        const back = readMathml(printMathml(tree, self));
        for (let run = 0; run < 20; run++) {
          const values = drawn(record, random);
          const [due, found] = [evaluate(tree, values), evaluate(parseExpression(back), values)] as [number, number];
          expect(Math.abs(found - due), `${record.id}: ${text}, read as ${back}`).toBeLessThanOrEqual(
            1e-12 * Math.abs(due),
          );
          held++;
        }
      }
    }
    expect(held).toBeGreaterThan(20 * allFormulas().length);
  });

  /** Trees of all kinds, whatever brackets their texts need; lists only where they become one number. */
  const { number, list } = fc.letrec<Record<'number' | 'list', Expression>>((tie) => {
    const pair = (operators: readonly string[], left: fc.Arbitrary<Expression>, right: fc.Arbitrary<Expression>) =>
      fc.record({ kind: fc.constant('pair' as const), operator: fc.constantFrom(...operators), left, right });
    const call = (names: readonly string[], ...of: fc.Arbitrary<Expression>[]) =>
      fc.record({ kind: fc.constant('call' as const), name: fc.constantFrom(...names), of: fc.tuple(...of) });
    const symbol = (...names: string[]) =>
      fc.record({ kind: fc.constant('symbol' as const), name: fc.constantFrom(...names) });
    const sign = (of: fc.Arbitrary<Expression>) => fc.record({ kind: fc.constant('sign' as const), of });
    const digit = fc
      .constantFrom('2', '0.5', '1e-3', '3')
      .map((text) => ({ kind: 'number' as const, value: Number(text), text }));
    return {
      number: fc.oneof(
        { maxDepth: 4, depthIdentifier: 'tree' },
        { weight: 3, arbitrary: symbol('a', 'b_1', 'v_max', 'ω') },
        digit,
        { weight: 4, arbitrary: pair(['+', '-', '*', '/'], tie('number'), tie('number')) },
        pair(['^'], tie('number'), fc.oneof(digit, sign(digit))),
        sign(tie('number')),
        call(['floor', 'ceil', 'abs', 'sqrt', 'cbrt', 'exp', 'sin', 'log', 'round'], tie('number')),
        call(['max', 'min'], tie('number'), tie('number')),
        { weight: 3, arbitrary: call(['sum', 'max', 'count'], tie('list')) },
      ),
      list: fc.oneof(
        { maxDepth: 4, depthIdentifier: 'tree' },
        { weight: 3, arbitrary: symbol('t', 'L_k') },
        pair(['.+', '.-', '.*', './'], tie('list'), tie('list')),
        pair(['.*', './', '.+'], tie('number'), tie('list')),
        pair(['.*', '.-'], tie('list'), tie('number')),
        sign(tie('list')),
      ),
    };
  });
  const condition = fc.record({
    kind: fc.constant('pair' as const),
    operator: fc.constantFrom('<', '<=', '>', '>=', '!=', '=='),
    left: number,
    right: number,
  });

  it.each<[string, fc.Arbitrary<Expression>]>([
    ['number', number],
    ['condition', condition],
    ['list', list.map((of) => ({ kind: 'call' as const, name: 'sum', of: [of] }))],
  ])('every tree drawn at random computes what it computes: %s', (_, trees) => {
    const values = { a: 1.7, b_1: -0.6, v_max: 2.3, ω: 0.9, t: [1.1, -0.4, 2.9], L_k: [0.7, 3.1, -1.9] };
    fc.assert(
      fc.property(trees, (tree) => {
        const due = evaluate(tree, values) as number;
        fc.pre(Number.isFinite(due) && Math.abs(due) < 1e9);
        const back = readMathml(printMathml(tree, self));
        const found = evaluate(parseExpression(back), values) as number;
        expect(Math.abs(found - due), back).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(due)));
      }),
      { seed: 9, numRuns: 1500, maxSkipsPerRun: 3 },
    );
  });
});
