// A quantity knows where it comes from and by which address it is explained; its unit is part of its type.
import { describe, expect, it } from 'vitest';
import { formula } from './formula.ts';
import type { Origin } from './origin.ts';
import { addressOf, isLeaf, isStep, leaf, type Quantity } from './quantity.ts';

const origin: Origin = {
  kind: 'given',
  path: 'axes.print_2.gain',
  via: ['like print_1'],
  writtenAt: 'axes.print_1.gain',
  written: '250 µs',
  writtenUnit: 'µs',
};
const time = leaf(250e-6, 's', origin);

const twice = formula({
  id: 'networks.test.twice',
  title: 'twice a time',
  text: '2*t',
  gives: 's',
  symbols: { t: 's' },
  means: { t: 'a time' },
  try: { t: [0, 1] },
  source: 'definition',
  proof: 'twice by hand',
  of: (t: number) => 2 * t,
});

describe('a quantity', () => {
  it('is a leaf with an origin, addressed by the path at which it counts, not by the one at which it is written', () => {
    expect([isLeaf(time), isStep(time)]).toEqual([true, false]);
    expect(addressOf(time)).toBe('axes.print_2.gain');
    expect(time).toMatchObject({ value: 250e-6, unit: 's', by: origin, inputs: null });
  });

  it('is a step with its formula and inputs, addressed by the formula and its subject', () => {
    const step = twice({ t: time }, 'print_2');
    expect([isLeaf(step), isStep(step)]).toEqual([false, true]);
    expect(addressOf(step)).toBe('networks.test.twice@print_2');
    expect(step).toMatchObject({ value: 500e-6, unit: 's', about: 'print_2' });
    expect(step.by).toBe(twice);
    expect(step.inputs).toEqual({ t: time });
  });

  it('fits where any unit does, and nowhere where another is due', () => {
    const any: Quantity = time;
    const one: Quantity<'s' | 'm'> = time;
    // @ts-expect-error a time is no length
    const other: Quantity<'m'> = time;
    // @ts-expect-error of any unit is not of this unit
    const narrow: Quantity<'s'> = any;
    // @ts-expect-error a value is not changed afterwards
    const change = () => (time.value = 1);
    // @ts-expect-error rpm is no unit inside: it ends at the reader
    const inside = () => leaf(1, 'rpm', origin);
    expect([any, one, other, narrow]).toEqual([time, time, time, time]);
    expect([change, inside].map((call) => typeof call)).toEqual(['function', 'function']);
  });
});
