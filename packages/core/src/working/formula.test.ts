// Formulas: what the compiler refuses, how inputs reach the function, what a formula remembers, and that replay agrees.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { allFormulas, allMethods, compute, formula, method, type Symbols } from './formula.ts';
import { Quantity } from './quantity.ts';
import { q } from './testing.support.ts';
import { replay } from './working.ts';

/** What all formulas of this file share; each must tell its symbols apart, so that a wrong order of inputs shows. */
const about = { title: 'for a test', source: 'definition', proof: 'weights by hand' } as const;
const each = <V>(symbols: Symbols, value: V): Record<string, V> =>
  Object.fromEntries(Object.keys(symbols).map((name) => [name, value]));
const declare = (id: string, symbols: Symbols, of: (...values: never[]) => number) =>
  formula({
    ...about,
    id,
    symbols,
    gives: '1',
    text: Object.keys(symbols).join(' + '),
    means: each(symbols, 'a number'),
    try: each(symbols, [0, 1]),
    of,
  });

const ratio = formula({
  ...about,
  id: 'networks.test.ratio',
  text: 'a/(b*n)',
  gives: '1/s',
  symbols: { a: 'bit', b: 'bit', n: 's' },
  means: { a: 'part', b: 'whole', n: 'time' },
  try: { a: [0, 1], b: [1, 2], n: [1, 2] },
  of: (a: number, b: number, n: number) => a / (b * n),
});
const longest = formula({
  ...about,
  id: 'networks.test.longest',
  text: 'max(t) + s',
  gives: 's',
  symbols: { t: 's[]', s: 's' },
  means: { t: 'times', s: 'one more' },
  try: { t: [0, 1], s: [0, 1] },
  of: (t: readonly number[], s: number) => Math.max(...t) + s,
});
const share = formula({
  ...about,
  id: 'networks.test.share',
  text: 'a/b',
  gives: '1',
  symbols: { a: 'same', b: 'same' },
  means: { a: 'part', b: 'whole' },
  try: { a: [0, 1], b: [1, 2] },
  of: (a: number, b: number) => a / b,
});

const [a, b, n] = [q(6, 'bit'), q(3, 'bit'), q(4, 's')];

describe('the compiler', () => {
  it('knows the unit of a result', () => {
    const rate: Quantity<'1/s'> = ratio({ a, b, n }, 'test');
    // @ts-expect-error a rate is no frequency
    const frequency: Quantity<'Hz'> = ratio({ a, b, n }, 'test');
    expect([rate.unit, frequency.unit]).toEqual(['1/s', '1/s']);
  });

  it('refuses a wrong unit, which nothing notices when the program runs', () => {
    // @ts-expect-error n is a time
    expect(ratio({ a, b, n: q(4, 'm') }, 'test').value).toBe(0.5);
    // @ts-expect-error a list of lengths is no list of times
    expect(longest({ t: [q(1, 'm')], s: n }, 'test').value).toBe(5);
    // @ts-expect-error one of the list is a length
    expect(longest({ t: [n, q(1, 'm')], s: n }, 'test').value).toBe(8);
  });

  it('refuses a naked number', () => {
    // @ts-expect-error 4 has no unit and comes from nowhere
    expect(ratio({ a, b, n: 4 }, 'test').value).toBeNaN();
    // @ts-expect-error nor have numbers in a list
    expect(longest({ t: [1, 2], s: n }, 'test').value).toBeNaN();
  });

  it('refuses a missing symbol, and one more', () => {
    // @ts-expect-error n is missing
    expect(() => ratio({ a, b }, 'test')).toThrow(TypeError);
    // @ts-expect-error there is no symbol z
    expect(ratio({ a, b, n, z: n }, 'test').value).toBe(0.5);
    // @ts-expect-error whom the number is about is missing
    expect(ratio({ a, b, n }).about).toBeUndefined();
  });

  it('refuses a list for a single value, and a single value for a list', () => {
    // @ts-expect-error n is one time
    expect(ratio({ a, b, n: [n] }, 'test').value).toBeNaN();
    // @ts-expect-error t is a list
    expect(() => longest({ t: n, s: n }, 'test')).toThrow(TypeError);
  });

  it('refuses what may be missing', () => {
    const perhaps: Quantity<'s'> | undefined = [n].at(1);
    // @ts-expect-error n may be undefined
    expect(() => ratio({ a, b, n: perhaps }, 'test')).toThrow(TypeError);
  });

  it('takes any unit where the symbols say so', () => {
    expect(share({ a: q(1, 'N·m'), b: q(4, 'N·m') }, 'test').value).toBe(0.25);
    // @ts-expect-error a number is no quantity of any unit
    expect(share({ a: 1, b: q(4, 'N·m') }, 'test').value).toBeNaN();
  });

  it('refuses a formula with a unit, a source or a meaning that does not exist', () => {
    const spec = { ...about, text: 'a', means: { a: 'a' }, try: { a: [0, 1] }, of: (a: number) => a } as const;
    // @ts-expect-error rpm is no unit inside
    formula({ ...spec, id: 'networks.test.rpm', gives: '1', symbols: { a: 'rpm' } });
    // @ts-expect-error hearsay is not registered
    formula({ ...spec, id: 'networks.test.hearsay', gives: '1', symbols: { a: '1' }, source: 'hearsay' });
    // @ts-expect-error b has no meaning and no range
    formula({ ...spec, id: 'networks.test.meaning', gives: '1', symbols: { a: '1', b: '1' } });
    expect(allFormulas().map(({ id }) => id)).toEqual(expect.arrayContaining(['networks.test.rpm']));
  });
});

describe('a formula', () => {
  const names = ['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h'];
  const weigh = (...values: number[]): number => values.reduce((sum, value, index) => sum + value * 10 ** index, 0);

  it.each([1, 2, 3, 4, 5, 6, 7, 8])('hands %i single values to its function in the order of the symbols', (count) => {
    const symbols = Object.fromEntries(names.slice(0, count).map((name) => [name, '1'] as const));
    const weights = declare(`networks.test.weights_${count}`, symbols, weigh);
    // The inputs stand in the opposite order: what counts is the name.
    const inputs = Object.fromEntries(names.slice(0, count).map((name, index) => [name, q(index + 1, '1')]));
    const turned = Object.fromEntries(Object.entries(inputs).reverse());
    const expected = Number('87654321'.slice(-count));
    expect(weights(turned, 'test').value).toBe(expected);
    expect(compute(weights, turned)).toBe(expected);
  });

  it.each(names.map((_, index) => index))('hands over a list in place %i among single values', (place) => {
    const symbols = Object.fromEntries(names.map((name, at) => [name, at === place ? '1[]' : '1'] as const));
    const add = (list: readonly number[]) => list.reduce((sum, value) => sum + value, 0);
    const of = (...values: (number | readonly number[])[]) =>
      weigh(...values.map((value) => (typeof value === 'number' ? value : add(value))));
    const weights = declare(`networks.test.list_${place}`, symbols, of as (...values: never[]) => number);
    const inputs = names.map((name, at) => [name, at === place ? [q(at, '1'), q(1, '1')] : q(at + 1, '1')] as const);
    expect(weights(Object.fromEntries(inputs), 'test').value).toBe(87654321);
  });

  it('takes lists of any length, and keeps the inputs as they were given', () => {
    const inputs = { t: [q(1, 's'), q(3, 's'), q(2, 's')], s: q(10, 's') };
    const step = longest(inputs, 'test');
    expect(step.value).toBe(13);
    expect(step.inputs).toBe(inputs);
    expect(longest({ t: [], s: q(10, 's') }, 'test').value).toBe(Number.NEGATIVE_INFINITY);
  });

  it('is in the register, with its text as its only case', () => {
    expect(allFormulas()).toContain(ratio);
    expect(ratio.cases).toEqual([{ text: 'a/(b*n)' }]);
    expect({ ...ratio }).toMatchObject({ id: 'networks.test.ratio', gives: '1/s', proof: 'weights by hand' });
  });

  it('is declared once, and has a text', () => {
    const spec = { ...about, gives: '1', symbols: { a: '1' }, means: { a: 'a' }, try: { a: [0, 1] } } as const;
    const of = (a: number) => a;
    expect(() => formula({ ...spec, id: 'networks.test.ratio', text: 'a', of })).toThrow('declared twice');
    expect(() => formula({ ...spec, id: 'networks.test.mute', of })).toThrow('has no text');
    expect(() => formula({ ...spec, id: 'networks.test.mute', cases: [], of })).toThrow('has no text');
  });
});

describe('a method', () => {
  const spec = {
    ...about,
    id: 'networks.test.method',
    prose: 'the larger of the two',
    gives: 's',
    symbols: { a: 's', b: 's' },
    means: { a: 'one', b: 'other' },
    of: Math.max,
  } as const;
  const larger = method(spec);

  it('is a step as a formula is, with a sentence for a text, in a register of its own', () => {
    const step = larger({ a: q(1, 's'), b: q(2, 's') }, 'test');
    expect(step).toMatchObject({ value: 2, unit: 's', about: 'test' });
    expect({ ...larger }).toMatchObject({ prose: 'the larger of the two', cases: [], try: {} });
    expect(allMethods()).toContain(larger);
    expect(allFormulas()).not.toContain(larger);
    expect(() => method(spec)).toThrow('declared twice');
    expect(replay(step)).toBe(2);
  });
});

describe('replay', () => {
  const difference = declare('networks.test.difference', { a: '1', b: '1' }, (a: number, b: number) => a - b);
  const product = declare(
    'networks.test.product',
    { a: '1', b: '1', c: '1' },
    (a: number, b: number, c: number) => a * b * c,
  );
  const norm = declare('networks.test.norm', { x: '1[]', k: '1' }, (x: readonly number[], k: number) => {
    let sum = 0;
    for (const value of x) sum += value * value;
    return Math.sqrt(sum) / k;
  });

  /** A choice of formula and of the quantities before it, as numbers that are taken modulo how many there are. */
  const choices = fc.array(fc.tuple(fc.nat(2), fc.array(fc.nat(), { minLength: 3, maxLength: 7 })), { maxLength: 30 });

  /** Leaves, and steps each of which rests on any that came before it. */
  function build(leaves: readonly number[], steps: readonly (readonly [number, readonly number[]])[]): Quantity[] {
    const made: Quantity[] = leaves.map((value, index) => q(value, '1', `leaf_${index}`));
    for (const [kind, picks] of steps) {
      const [a, b, c, ...x] = picks.map((pick) => made[pick % made.length]!) as Quantity<'1'>[];
      const about = `step_${made.length}`;
      if (kind === 0) made.push(difference({ a: a!, b: b! }, about));
      else if (kind === 1) made.push(product({ a: a!, b: b!, c: c! }, about));
      else made.push(norm({ x, k: a! }, about));
    }
    return made;
  }

  it('gives the identical bits for workings of any shape, NaN and minus zero included', () => {
    fc.assert(
      fc.property(fc.array(fc.double(), { minLength: 1, maxLength: 6 }), choices, (leaves, steps) => {
        for (const quantity of build(leaves, steps)) expect(Object.is(replay(quantity), quantity.value)).toBe(true);
      }),
      { seed: 39, numRuns: 1000 },
    );
  });

  it('computes from the leaves, so that a value that does not follow from them shows', () => {
    const step = difference({ a: q(5, '1'), b: q(3, '1') }, 'test');
    const forged = new Quantity(7, '1', step.by, step.inputs, 'test');
    const above = product({ a: forged, b: step, c: step }, 'test');
    expect([forged.value, above.value]).toEqual([7, 28]);
    expect([replay(forged), replay(above)]).toEqual([2, 8]);
  });

  it('computes what many steps rest on only once: 60 doublings take 60 steps, not 2^60', () => {
    let count = 0;
    const counting = declare('networks.test.counting', { a: '1', b: '1' }, (a: number, b: number) => {
      count += 1;
      return a + b;
    });
    let top: Quantity<'1'> = q(1, '1');
    for (let step = 0; step < 60; step += 1) top = counting({ a: top, b: top }, `${step}`);
    count = 0;
    expect(replay(top)).toBe(2 ** 60);
    expect(count).toBe(60);
  });

  it('leaves the working as it was', () => {
    const step = difference({ a: q(5, '1'), b: q(3, '1') }, 'test');
    const { inputs } = step;
    expect(replay(step)).toBe(2);
    expect(step.inputs).toBe(inputs);
    expect(step.by).toBe(difference);
  });
});
