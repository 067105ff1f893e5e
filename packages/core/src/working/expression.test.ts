// The notation of formulas: another program reads and computes the same; what is printed reads back as the same tree.
import fc from 'fast-check';
import { all, create } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { choicesIn, type Expression, evaluate, parseExpression, printExpression, type Value } from './expression.ts';

const math = create(all!, { relTol: 1e-15, absTol: 0 });

/** Names of all kinds; `e` and `i` mean something else to mathjs where no value is given for them. */
const numbers = ['a', 'v_max', 'x1', 'ω', 'η_2', 'e', 'i', 'pi'];
const counts = ['n', 'N_2'];
const lists = ['t', 'L_k'];

const some = fc.constantFrom;
const join = (...parts: (string | fc.Arbitrary<string>)[]): fc.Arbitrary<string> =>
  fc.tuple(...parts.map((part) => (typeof part === 'string' ? fc.constant(part) : part))).map((all) => all.join(''));

/** Texts with few parentheses, so that precedence decides; exponents are whole, so that no value becomes complex. */
const { sum, comparison } = fc.letrec<Record<'atom' | 'list' | 'power' | 'product' | 'sum' | 'comparison', string>>(
  (tie) => {
    const exponent = fc.oneof(some('2', '3', '-1', '0', '2^2', '-1^3', '(n - 1)'), some(...counts));
    const blank = some('', ' ');
    const repeated = (first: string | fc.Arbitrary<string>, operators: string[], next: fc.Arbitrary<string>) =>
      join(
        first,
        fc.array(join(blank, some(...operators), blank, next), { maxLength: 2 }).map((all) => all.join('')),
      );
    return {
      atom: fc.oneof(
        { maxDepth: 2, depthIdentifier: 'text' },
        { weight: 6, arbitrary: some('2', '0.5', '3.25', '1e-3', '7e2', '1', ...numbers, ...counts) },
        join('(', tie('sum'), ')'),
        join('-', tie('atom')),
        join(some('abs', 'exp', 'sin', 'cos', 'tan', 'cbrt', 'floor', 'ceil'), '(', tie('sum'), ')'),
        join('sqrt(abs(', tie('sum'), '))'),
        join('log(1 + abs(', tie('sum'), '))'),
        join(some('max', 'min'), '(', tie('sum'), ', ', tie('sum'), ')'),
        join(some('sum', 'max', 'min', 'count'), '(', tie('list'), ')'),
      ),
      list: fc.oneof(
        { maxDepth: 2, depthIdentifier: 'text' },
        { weight: 3, arbitrary: some(...lists) },
        join(some(...lists), some('.*', './', '.+', '.-', ' .* ', ' .+ '), tie('list')),
        join(some('2', 'a', 'n'), some(' .* ', ' ./ ', ' .+ ', ' .- '), tie('list')),
        join(some(...lists), '.^', some('2', 'n')),
        join('-', some(...lists)),
        join('(', tie('list'), ')'),
      ),
      power: fc.oneof(tie('atom'), join(tie('atom'), '^', exponent), join('-', tie('atom'), '^', exponent)),
      product: repeated(tie('power'), ['*', '/'], tie('power')),
      sum: repeated(tie('product'), ['+', '-'], tie('product')),
      comparison: repeated(
        join(tie('sum'), some('<', ' <= ', '>', ' >= ', ' == ', ' != '), tie('sum')),
        ['and'].map((word) => ` ${word} `),
        join(tie('sum'), some(' < ', '<=', ' > ', '>=', '==', '!='), tie('sum')),
      ),
    };
  },
);

/** Away from 0, so that few divisions have no value. */
const size = fc.tuple(fc.double({ min: 0.25, max: 8, noNaN: true }), some(-1, 1)).map(([x, sign]) => x * sign);
const values: fc.Arbitrary<Record<string, Value>> = fc
  .tuple(
    fc.record(Object.fromEntries(numbers.slice(0, -1).map((name) => [name, size]))),
    fc.record(Object.fromEntries(counts.map((name) => [name, fc.nat(3)]))),
    fc
      .integer({ min: 1, max: 4 })
      .chain((length) =>
        fc.record(
          Object.fromEntries(lists.map((name) => [name, fc.array(size, { minLength: length, maxLength: length })])),
        ),
      ),
  )
  .map(([of, whole, more]) => ({ ...of, ...whole, ...more }));

/**
 * mathjs writes + and − between lists without a dot, true and false for 1 and 0, and a complex value for NaN; its floor
 * and ceil round what is within a few bits of a whole number.
 */
function computedByMathjs(text: string, of: Readonly<Record<string, Value>>): number {
  const scope = new Map<string, unknown>(Object.entries({ floor: Math.floor, ceil: Math.ceil, ...of }));
  try {
    const value: unknown = math.evaluate(text.replace(/\.([+-])/g, '$1'), scope);
    return typeof value === 'number' || typeof value === 'boolean' ? Number(value) : Number.NaN;
  } catch (error) {
    if ((error as Error).message.includes('complex')) return Number.NaN;
    throw error;
  }
}

/** Turns the signs for people back into those of the notation. */
const unprinted = (text: string): string =>
  [...text]
    .map((sign) => ({ '·': '*', '−': '-', '≤': '<=', '≥': '>=', '≠': '!=', '=': '==', π: 'pi' })[sign] ?? sign)
    .join('');

const printed = (text: string, names: Readonly<Record<string, string>> = {}): string =>
  printExpression(parseExpression(text), (name) => names[name] ?? name);

const withoutDots = (tree: Expression): Expression =>
  JSON.parse(JSON.stringify(tree).replace(/"\.([-+*/^])"/g, '"$1"'));

describe('an expression', () => {
  it.each([
    ['arithmetic', sum],
    ['conditions', comparison],
  ])('is computed as mathjs computes it, and reads back from what is printed as the same tree: %s', (_, texts) => {
    fc.assert(
      fc.property(texts, values, (text, of) => {
        const other = computedByMathjs(text, of);
        fc.pre(Number.isFinite(other));
        const tree = parseExpression(text);
        const value = evaluate(tree, of) as number;
        expect(Math.abs(value - other), text).toBeLessThanOrEqual(1e-9 * Math.abs(other));
        const again = parseExpression(unprinted(printed(text)));
        expect(again).toEqual(withoutDots(tree));
        expect(evaluate(again, of)).toBe(value);
      }),
      // Texts without a finite value are drawn anew; more than one of them for each that counts is a failure.
      { seed: 7, numRuns: 2000, maxSkipsPerRun: 1 },
    );
  });

  it.each<[string, number]>([
    ['2 + 3*4', 14],
    ['2*3 + 4', 10],
    ['(2 + 3)*4', 20],
    ['8 - 3 - 2', 3],
    ['8/4/2', 1],
    ['8/4*2', 4],
    ['2^3^2', 512],
    ['(2^3)^2', 64],
    ['-2^2', -4],
    ['(-2)^2', 4],
    ['2^-1', 0.5],
    ['2^-1*4', 2],
    ['-2*-3', 6],
    ['--2', 2],
    ['3 - -2', 5],
    ['2*3^2', 18],
    ['1 < 2 and 2 < 1', 0],
    ['1 + 1 == 2', 1],
    ['1 < 2 and 3 > 2 and 2 != 3', 1],
    ['sum(x)', 6],
    ['sum(x, 10)', 16],
    ['sum(x .* x)', 14],
    ['max(x, 5)', 5],
    ['min(x .+ 1)', 2],
    ['sum(-x)', -6],
    ['sum(6 ./ x)', 11],
    ['count(x)*2', 6],
    ['round(2.5)', 3],
    ['round(-2.5)', -2],
    ['1.5e3 + 2e-1', 1500.2],
    ['pi', Math.PI],
  ])('%s is %d', (text, value) => {
    expect(evaluate(parseExpression(text), { x: [1, 2, 3] })).toBe(value);
  });

  it('gives a list where nothing makes one value of it', () => {
    expect(evaluate(parseExpression('2 .* x .^ 2'), { x: [1, 2, 3] })).toEqual([2, 8, 18]);
  });

  it.each([
    ['(a + b', "')' is expected at the end in: (a + b"],
    ['max(a, b + c', "')' is expected at the end in: max(a, b + c"],
    ['(a b)', "')' is expected before 'b )' in: (a b)"],
    ['a +', 'a value is expected at the end in: a +'],
    ['', 'a value is expected at the end in: '],
    ['a + * b', "a value is expected before '* b' in: a + * b"],
    ['sum()', "a value is expected before ')' in: sum()"],
    ['and a', "a value is expected before 'and a' in: and a"],
    ['a and and b', "a value is expected before 'and b' in: a and and b"],
    ['a $ b', "'$ b' is left over in: a $ b"],
    ['2 a', "'a' is left over in: 2 a"],
    ['2E3', "'E3' is left over in: 2E3"],
    ['a)', "')' is left over in: a)"],
    ['a = b', "'= b' is left over in: a = b"],
    ['.5*a', "a value is expected before '. 5 * a' in: .5*a"],
    ['hypot(a, b)', "there is no function 'hypot', in: hypot(a, b)"],
    ['toString(a)', "there is no function 'toString', in: toString(a)"],
    ['a constructor b', "'constructor b' is left over in: a constructor b"],
    ['a < b < c', "an 'and' is expected before '< c' in: a < b < c"],
    ['a + 1 == b >= c', "an 'and' is expected before '>= c' in: a + 1 == b >= c"],
  ])('says where %j is wrong', (text, message) => {
    expect(() => parseExpression(text)).toThrow(new Error(message));
  });

  it('has no value without one for each symbol, nor for lists that do not go together', () => {
    expect(() => evaluate(parseExpression('a + b'), { a: 1 })).toThrow("no value for 'b'");
    expect(() => evaluate(parseExpression('constructor'), {})).toThrow("no value for 'constructor'");
    expect(() => evaluate(parseExpression('x .* y'), { x: [1, 2], y: [1, 2, 3] })).toThrow(
      'a list of 2 does not go with a list of 3',
    );
    expect(() => evaluate(parseExpression('x .* y'), { x: [1, 2], y: [] })).toThrow('a list of 2');
  });
});

describe('a printed expression', () => {
  it.each([
    ['2*p+a-g/R', '2·p + a − g / R'],
    ['(L+w+g)/R', '(L + w + g) / R'],
    ['a - (b - c)', 'a − (b − c)'],
    ['(a - b) - c', 'a − b − c'],
    ['a*(b/c)', 'a·(b / c)'],
    ['(a^b)^c', '(a^b)^c'],
    ['a^(b^c)', 'a^b^c'],
    ['(-a)^2', '(−a)^2'],
    ['-a^2', '−a^2'],
    ['-(a + b)', '−(a + b)'],
    ['a^-1', 'a^(−1)'],
    ['sum(t .* n)', 'sum(t·n)'],
    ['a <= b and c != 2*pi', 'a ≤ b and c ≠ 2·π'],
    ['(a < b) == (c < d)', '(a < b) = (c < d)'],
    ['max(a, (b))', 'max(a, b)'],
    ['1e-3*a', '1e-3·a'],
  ])('%s is printed as %s', (text, line) => {
    expect(printed(text)).toBe(line);
  });

  it.each([
    ['x^2', '3 m', '(3 m)^2'],
    ['x^2', '40°', '(40°)^2'],
    ['x^2', '5', '5^2'],
    ['a - x', '-5 N', 'a − (-5 N)'],
    ['a*x', '-5', 'a·(-5)'],
    ['-x', '-5 N', '−(-5 N)'],
    ['a/x', '5 ns/m', 'a / (5 ns/m)'],
    ['a*x', '5 ns/m', 'a·(5 ns/m)'],
    ['a/x', '5 ms', 'a / 5 ms'],
    ['x*a', '5 ms', '5 ms·a'],
    ['sum(x) + a', '1 s, 2 s', 'sum(1 s, 2 s) + a'],
    ['sum(x .* a)', '1 s, 2 s', 'sum((1 s, 2 s)·a)'],
    ['max(x, a)', '-5 N', 'max(-5 N, a)'],
  ])('%s with x = %s is %s', (text, value, line) => {
    expect(printed(text, { x: value })).toBe(line);
  });

  it.each([
    ['a + b', []],
    ['n*max(x)', [['max', 'x']]],
    [
      'max(p, q) - min(p, q)',
      [
        ['max', 'p', 'q'],
        ['min', 'p', 'q'],
      ],
    ],
    ['-max(u/(1 - q), m)', [['max', 'm']]],
    [
      'abs(min(max(a, b), c))',
      [
        ['min', 'c'],
        ['max', 'a', 'b'],
      ],
    ],
  ])('has its choices found: %s', (text, choices) => {
    expect(choicesIn(parseExpression(text)).map(({ takes, symbols }) => [takes, ...symbols])).toEqual(choices);
  });

  it('tells what stands for a symbol to which call it is given', () => {
    const tree = parseExpression('a + max(b, 2*c, sum(d)) - min(pi, b)');
    expect(printExpression(tree, (symbol, call) => `${symbol}_${call ?? ''}`)).toBe(
      'a_ + max(b_max, 2·c_, sum(d_sum)) − min(π, b_min)',
    );
  });
});
