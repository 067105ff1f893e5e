// The working of a number as plain data: what it says of a leaf, a step, a case, a list, a method; and that it can travel.
import { describe, expect, it } from 'vitest';
import { formula, method } from './formula.ts';
import type { Origin } from './origin.ts';
import { leaf, type Quantity } from './quantity.ts';
import { applies, caseOf, flatten, print, shown, type Working, walk, workingOf } from './working.ts';

const origin = (path: string, written: string, writtenUnit: string): Origin => ({
  kind: 'given',
  path,
  via: [],
  writtenAt: path,
  written,
  writtenUnit,
});
const length = leaf(40, 'm', origin('runs.a_b.length', '4000 cm', 'cm'));
const perMetre = leaf(5e-9, 's/m', origin('runs.a_b.delay', '5 ns/m', 'ns/m'));
const micro = (count: number): Quantity<'s'> => leaf(count * 1e-6, 's', origin(`t.${count}`, `${count} µs`, 'µs'));

const about = { source: 'wilamowski-irwin', proof: 'by hand', gives: 's' } as const;
const delay = formula({
  ...about,
  id: 'networks.test.delay',
  title: 'propagation along a cable',
  text: 'l*t',
  symbols: { l: 'm', t: 's/m' },
  means: { l: 'length', t: 'time per metre' },
  try: { l: [0, 1], t: [0, 1] },
  at: 'eq. 39.2',
  of: (l: number, t: number) => l * t,
});
const whole = formula({
  ...about,
  id: 'networks.test.whole',
  title: 'all of it',
  text: '2*d + sum(x)',
  symbols: { d: 's', x: 's[]' },
  means: { d: 'way', x: 'exchanges' },
  try: { d: [0, 1], x: [0, 1] },
  of: (d: number, x: readonly number[]) => 2 * d + x.reduce((sum, each) => sum + each, 0),
});
const later = formula({
  ...about,
  id: 'networks.test.later',
  title: 'how much later',
  cases: [{ when: 'a - b >= 2*b', text: '(a - b)/2' }, { when: 'a > b', text: 'a - b' }, { text: '0*a' }],
  symbols: { a: 's', b: 's' },
  means: { a: 'one', b: 'other' },
  try: { a: [0, 1], b: [0, 1] },
  of: (a: number, b: number) => (a - b >= 2 * b ? (a - b) / 2 : a > b ? a - b : 0 * a),
});
const spread = formula({
  ...about,
  id: 'networks.test.spread',
  title: 'how far apart',
  text: 'max(x) - min(x) + max(a, b)',
  symbols: { x: 's[]', a: 's', b: 's' },
  means: { x: 'exchanges', a: 'one', b: 'other' },
  try: { x: [0, 1], a: [0, 1], b: [0, 1] },
  of: (x: readonly number[], a: number, b: number) => Math.max(...x) - Math.min(...x) + Math.max(a, b),
});
const longest = method({
  ...about,
  id: 'networks.test.longest',
  title: 'the longest',
  prose: 'the largest of x',
  symbols: { x: 's[]' },
  means: { x: 'exchanges' },
  of: (x: readonly number[]) => Math.max(...x),
});

const way = delay({ l: length, t: perMetre }, 'a_b');
const stepOf = (quantity: Quantity): NonNullable<Working['step']> => workingOf(quantity).step!;

describe('the working of a leaf', () => {
  it('says where the number comes from, as it is written', () => {
    expect(workingOf(length)).toEqual({
      address: 'runs.a_b.length',
      value: 40,
      unit: 'm',
      text: '4000 cm',
      origin: length.by,
    });
    expect(print(length)).toBe('4000 cm');
  });
});

describe('the working of a step', () => {
  it('says the formula, the same with values, the source, the proof, and what went in', () => {
    const working = workingOf(way);
    expect(working).toEqual({
      ...shown(way),
      step: {
        formula: 'networks.test.delay',
        title: 'propagation along a cable',
        text: 'l·t',
        substituted: '4000 cm·(5 ns/m)',
        standing: ['4000 cm', '5 ns/m'],
        source: 'Wilamowski and Irwin (eds.), Industrial Communication Systems, 2011, chapter 39, eq. 39.2',
        proof: 'by hand',
        inputs: [
          { symbol: 'l', means: 'length', values: [workingOf(length)] },
          { symbol: 't', means: 'time per metre', values: [workingOf(perMetre)] },
        ],
      },
    });
    expect(shown(way)).toEqual({ address: 'networks.test.delay@a_b', value: 40 * 5e-9, unit: 's', text: '200 ns' });
  });

  it('reaches down to the leaves', () => {
    const outer = whole({ d: way, x: [micro(3)] }, 'main');
    const [d, x] = stepOf(outer).inputs;
    expect(stepOf(outer).substituted).toBe('2·200 ns + sum(3 µs)');
    expect(d?.values[0]?.step?.inputs[0]?.values[0]?.origin).toBe(length.by);
    expect(x?.values).toEqual([workingOf(micro(3))]);
  });

  it.each([
    [1, 'sum(1 µs)'],
    [4, 'sum(1 µs, 2 µs, 3 µs, 4 µs)'],
    [5, 'sum(1 µs, 2 µs, …, 5 µs)'],
    [60, 'sum(1 µs, 2 µs, …, 60 µs)'],
    [0, 'sum()'],
  ])('shortens a list of %i in the line of values only', (count, text) => {
    const x = Array.from({ length: count }, (_, index) => micro(index + 1));
    const step = stepOf(whole({ d: way, x }, 'main'));
    expect(step.substituted).toBe(`2·200 ns + ${text}`);
    expect(step.inputs[1]?.values.map((each) => each.text)).toEqual(x.map(print));
  });

  it.each([
    [[1, 9, 3, 4, 5, 6], 'max(1 µs, 9 µs, …, 6 µs) − min(1 µs, …, 6 µs)'],
    [[3, 4, 9, 1, 5, 6], 'max(3 µs, …, 9 µs, …, 6 µs) − min(3 µs, …, 1 µs, …, 6 µs)'],
    [[3, 1, 4, 5, 9], 'max(3 µs, …, 9 µs) − min(3 µs, 1 µs, …, 9 µs)'],
    [[9, 1], 'max(9 µs, 1 µs) − min(9 µs, 1 µs)'],
    [[], 'max() − min()'],
  ])('keeps the value that max or min takes from %j', (x, text) => {
    const step = stepOf(spread({ x: x.map(micro), a: micro(1), b: micro(2) }, 'main'));
    expect(step.substituted).toBe(`${text} + max(1 µs, 2 µs)`);
  });

  it('has digits enough to tell the value that is taken', () => {
    const computed = (value_s: number, name: string) =>
      delay({ l: leaf(value_s, 'm', length.by as Origin), t: leaf(1, 's/m', perMetre.by as Origin) }, name);
    const taken = (a: number, b: number) =>
      stepOf(spread({ x: [], a: computed(a, 'a'), b: computed(b, 'b') }, 'main')).substituted.replace(/.* \+ /, '');
    expect(taken(16.6601e-6, 16.6649e-6)).toBe('max(16.66 µs, 16.665 µs)');
    expect(taken(16.66012e-6, 16.66013e-6)).toBe('max(16.66012 µs, 16.66013 µs)');
    expect(taken(16.66e-6, 17.52e-6)).toBe('max(16.66 µs, 17.52 µs)');
    expect(taken(16.66e-6, 16.66e-6 * (1 + 1e-13))).toBe('max(16.66 µs, 16.66 µs)');
    // What the user wrote stays as it is written.
    expect(stepOf(spread({ x: [], a: micro(2), b: computed(2.00002e-6, 'b') }, 'main')).substituted).toMatch(
      /max\(2 µs, 2\.00002 µs\)$/,
    );
  });

  it.each([
    [9, 1, '(a − b) / 2', 'a − b ≥ 2·b', '(9 µs − 1 µs) / 2'],
    [5, 4, 'a − b', 'a > b', '5 µs − 4 µs'],
    [4, 4, '0·a', undefined, '0·4 µs'],
  ])('shows the case that applies to %i and %i', (a, b, text, when, substituted) => {
    const step = later({ a: micro(a), b: micro(b) }, 'main');
    expect(stepOf(step)).toMatchObject({ text, substituted, ...(when !== undefined && { when }) });
    expect('when' in stepOf(step)).toBe(when !== undefined);
    expect(caseOf(step as Parameters<typeof caseOf>[0])).toBe(applies(later, { a: a * 1e-6, b: b * 1e-6 }));
  });

  it('has a sentence for a method, and no line of values', () => {
    const step = longest({ x: [micro(3), micro(7)] }, 'main');
    expect(stepOf(step)).toMatchObject({ text: 'the largest of x', substituted: '' });
    expect(stepOf(step).inputs[0]?.values.map(({ text }) => text)).toEqual(['3 µs', '7 µs']);
    expect(print(step)).toBe('7 µs');
  });

  it('prints a share in the spelling that the formula asks for', () => {
    const share = formula({
      ...about,
      gives: '1',
      as: '%',
      id: 'networks.test.share',
      title: 'a share',
      text: 'a/b',
      symbols: { a: 's', b: 's' },
      means: { a: 'part', b: 'whole' },
      try: { a: [0, 1], b: [1, 2] },
      of: (a: number, b: number) => a / b,
    });
    expect(shown(share({ a: micro(1), b: micro(8) }, 'main'))).toMatchObject({ value: 0.125, text: '12.5 %' });
  });
});

describe('a working', () => {
  it('is plain data: it can be cloned to another thread and written as JSON', () => {
    const working = workingOf(whole({ d: way, x: [micro(3), later({ a: micro(5), b: micro(4) }, 'main')] }, 'main'));
    expect(structuredClone(working)).toEqual(working);
    expect(JSON.parse(JSON.stringify(working))).toEqual(working);
  });

  /** Each step rests twice on the one before it. */
  const ladder = (steps: number): Quantity<'s'> => {
    let top: Quantity<'s'> = way;
    for (let step = 0; step < steps; step += 1) top = whole({ d: top, x: [top] }, `step_${step}`);
    return top;
  };

  it('holds a number that several steps use as one object, so that 200 steps stay 200', () => {
    const working = workingOf(ladder(200));
    const [d, x] = working.step!.inputs;
    expect(d?.values[0]).toBe(x?.values[0]);
    expect(structuredClone(working).address).toBe('networks.test.whole@step_199');
  });

  it('has each number once when it is flat, the one asked for first, and inputs by their address', () => {
    const flat = flatten(workingOf(ladder(200)));
    expect(flat).toHaveLength(203);
    expect(new Set(flat.map(({ address }) => address)).size).toBe(203);
    expect(flat[0]).toMatchObject({ address: 'networks.test.whole@step_199' });
    expect(flat[0]?.step?.inputs).toEqual([
      { symbol: 'd', means: 'way', from: ['networks.test.whole@step_198'] },
      { symbol: 'x', means: 'exchanges', from: ['networks.test.whole@step_198'] },
    ]);
    expect(flat.find(({ address }) => address === 'runs.a_b.delay')).toEqual(workingOf(perMetre));
    expect(JSON.parse(JSON.stringify(flat))).toEqual(flat);
  });
});

describe('a walk', () => {
  it('visits a number and all that it rests on once each, from the top', () => {
    const list = [micro(3), way];
    const outer = whole({ d: way, x: list }, 'main');
    const visited: Quantity[] = [];
    walk(outer, (quantity) => visited.push(quantity));
    expect(visited).toEqual([outer, way, length, perMetre, list[0]]);
  });
});
