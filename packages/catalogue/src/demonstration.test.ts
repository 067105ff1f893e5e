// The demonstration parts: whole, sourced, consistent, and none without a reason to be there.
import type { Part } from '@layshaft/core';
import { describe, expect, it } from 'vitest';
import { figuresOf, textOf } from '../../core/src/reading/figures-of.ts';
import { Quantity } from '../../core/src/working/quantity.ts';
import { demonstration } from './demonstration.ts';

const catalogue = demonstration();
const parts = [...catalogue.parts.values()];
const value = (part: Part, key: string): number => {
  const found = key === 'cost' ? part.cost : part.values[key];
  if (!(found instanceof Quantity)) throw new Error(`${part.name} has no ${key}`);
  return found.value;
};
const words = (part: Part, key: string): readonly string[] => part.values[key] as readonly string[];
const fastest = (part: Part): number =>
  Math.min(...(part.values.cycles as readonly Quantity[]).map((cycle) => cycle.value));
interface ChannelGroup {
  readonly kinds: readonly string[];
  readonly count: Quantity;
  readonly level?: string;
  readonly current?: Quantity;
}
const groups = (part: Part): readonly ChannelGroup[] => part.values.channels as readonly ChannelGroup[];
/** How many channels can be of a kind; of any, where none is named. */
const channels = (part: Part, kind?: string): number =>
  groups(part).reduce(
    (sum, group) => sum + (kind === undefined || group.kinds.includes(kind) ? group.count.value : 0),
    0,
  );
const outputsOf = (part: Part, current_A: number): boolean =>
  groups(part).some(({ kinds, current }) => kinds.includes('digital_out') && current!.value >= current_A);
const states = (part: Part, key: string): boolean => part.values[key] instanceof Quantity;
const ofKind = (kind: string): readonly Part[] => parts.filter((part) => part.kind === kind);

/** What is read as words or a list, which carry no source of their own. */
const wordsOrLists = /^cycles$|^comes_with|(taken_by_the_network|\.type|\.sensors)$/;

describe('the demonstration catalogue', () => {
  it('states title, cost, source and condition of every part', () => {
    for (const part of parts) {
      expect(textOf(part.title), part.name).toBeTruthy();
      expect(value(part, 'cost'), part.name).toBeGreaterThanOrEqual(0);
      for (const { key, source, condition, text } of figuresOf(part)) {
        if (!/\d/.test(text) || wordsOrLists.test(key)) continue;
        expect(source, `${part.name}.${key}`).toBeTruthy();
        expect(condition, `${part.name}.${key}`).toBeTruthy();
      }
    }
  });

  it('says of every figure with another source than the demonstration which one that is', () => {
    const others = new Set(parts.flatMap((part) => figuresOf(part).map(({ source }) => source)));
    expect(
      [...others]
        .filter((source) => source !== undefined && source !== 'demonstration data')
        .every((source) => /IEEE|IEC|common practice|memory/.test(source!)),
    ).toBe(true);
  });

  it('gives a usual value that is within its limit', () => {
    for (const part of parts) {
      for (const figure of Object.values(part.values)) {
        if (!(figure instanceof Quantity) || !('typical' in figure.by) || figure.by.typical === undefined) continue;
        const number = (text: string): number => Number.parseFloat(text);
        const unit = (text: string): string => text.replace(/^[\d.]+ ?/, '');
        if (unit(figure.by.typical) === unit(figure.by.written))
          expect(number(figure.by.typical), part.name).toBeLessThanOrEqual(number(figure.by.written));
      }
    }
  });

  it('names no maker: titles say what a part is and how large', () => {
    for (const part of parts)
      expect(textOf(part.title)!).toMatch(
        /^(Motion controller|Servo drive|Servo motor|Planetary gear|Brake resistor|Remote rack|Rack|Supply of a rack|Joint|Module|Terminals|Eye|Input|Hub|Switch|Branch|Bulkhead|Cable|Polled|One command|Commands|Frames|Timetable)\b/,
      );
  });
});

/** A family from small to large: each member costs more than the one before it, and does more. */
const families: readonly { readonly names: readonly string[]; readonly does: (part: Part) => readonly number[] }[] = [
  {
    names: ['controller_s', 'controller_m', 'controller_l'],
    does: (part) => [
      value(part, 'ports'),
      1 / fastest(part),
      1 / value(part, 'kernel_per_axis'),
      value(part, 'kernel_share'),
    ],
  },
  {
    names: [2, 3, 5, 7, 10, 14, 20, 30, 45, 60, 90, 120].map((current) => `drive_${current}`),
    does: (part) => [
      value(part, 'current'),
      value(part, 'current_peak'),
      value(part, 'capacitance'),
      1 / value(part, 'resistor_at_least'),
      1 / value(part, 'turnaround'),
    ],
  },
  { names: ['rack_small', 'rack_large'], does: (part) => [value(part, 'command'), value(part, 'answer')] },
  {
    names: [4, 7, 9, 14].map((places) => `rack_${places}`),
    does: (part) => [value(part, 'places')],
  },
  { names: ['power_ac', 'power_ac_large'], does: (part) => [value(part, 'gives')] },
  ...[
    ['in_12', 'in_20'],
    ['out_12', 'out_20'],
    ['in_12', 'mixed_12_6', 'either_20'],
    ['out_12', 'mixed_12_6', 'either_20'],
  ].map((names) => ({ names, does: (part: Part) => [channels(part)] })),
  {
    names: ['eye_standard', 'eye_fast', 'eye_mark'],
    does: (part) => ['delay', 'jitter', 'rise_fall_difference', 'hysteresis'].map((key) => 1 / value(part, key)),
  },
  { names: ['hub_6', 'hub_12'], does: (part) => [value(part, 'plugs')] },
  { names: ['switch_8', 'switch_quick_8'], does: (part) => [value(part, 'plugs'), 1 / value(part, 'forwarding')] },
  {
    names: ['summation_100', 'summation_1000'],
    does: (part) => [value(part, 'rate'), value(part, 'stations_at_most'), 1 / value(part, 'cycle_at_least')],
  },
  {
    names: ['slotted_100', 'slotted_1000'],
    does: (part) => [
      value(part, 'rate'),
      value(part, 'stations_at_most'),
      value(part, 'hops_at_most'),
      1 / value(part, 'cycle_at_least'),
    ],
  },
];

it('racks have 4, 7, 9 or 14 places, and groups 6, 10, 12 or 20 channels', () => {
  const sizes = (found: readonly number[]) => [...new Set(found)].sort((one, other) => one - other);
  expect(sizes(ofKind('rack').map((part) => value(part, 'places')))).toEqual([4, 7, 9, 14]);
  expect(sizes(ofKind('module').flatMap((part) => groups(part).map(({ count }) => count.value)))).toEqual([
    6, 10, 12, 20,
  ]);
});

it('a rack is as wide as its places and two ends', () => {
  for (const part of ofKind('rack'))
    expect(value(part, 'width'), part.name).toBeCloseTo(0.031 * value(part, 'places') + 0.024, 9);
});

describe('in a family', () => {
  it.each(families)('$names: bigger costs more and does more', ({ names, does }) => {
    for (let index = 1; index < names.length; index++) {
      const [small, large] = [catalogue.parts.get(names[index - 1]!)!, catalogue.parts.get(names[index]!)!];
      expect(value(large, 'cost')).toBeGreaterThan(value(small, 'cost'));
      const [less, more] = [does(small), does(large)];
      expect(more.every((each, at) => each >= less[at]!)).toBe(true);
      expect(more.some((each, at) => each > less[at]!)).toBe(true);
    }
  });
});

/** For each part a requirement under which it is the cheapest of its kind that holds. */
const requirements: Readonly<Record<string, (part: Part) => boolean>> = {
  controller_s: (part) => value(part, 'ports') >= 1,
  controller_m: (part) => fastest(part) <= 250e-6,
  controller_l: (part) => value(part, 'ports') >= 3,
  drive_2: () => true,
  drive_3: (part) => value(part, 'current') >= 2.5,
  drive_5: (part) => value(part, 'current') >= 4,
  drive_7: (part) => value(part, 'current_peak') >= 20,
  drive_10: (part) => value(part, 'current') >= 8,
  drive_14: (part) => value(part, 'current') >= 12,
  drive_20: (part) => value(part, 'turnaround') <= 2.5e-6,
  drive_30: (part) => value(part, 'current') >= 25,
  drive_45: (part) => value(part, 'current') >= 40,
  drive_60: (part) => value(part, 'current_peak') >= 115,
  drive_90: (part) => value(part, 'resistor_at_least') <= 4,
  drive_120: (part) => value(part, 'current') >= 100,
  eye_standard: () => true,
  eye_fast: (part) => value(part, 'jitter') <= 20e-6,
  eye_mark: (part) => value(part, 'hysteresis') <= 0.05e-3,
  input_polled: () => true,
  input_latching: (part) => 'rearm' in part.values && value(part, 'delay') <= 5e-6,
  input_stamping: (part) => part.values.at_once instanceof Quantity && value(part, 'at_once') >= 2,
  rack_small: (part) => states(part, 'answer') && value(part, 'answer') >= 8 * 20,
  rack_large: (part) => states(part, 'answer') && value(part, 'answer') >= 8 * 60,
  rack_head: () => true,
  terminals_14: () => true,
  terminals_24: ({ title }) => Number(/\d+/.exec(textOf(title)!)![0]) >= 15,
  terminals_36: ({ title }) => Number(/\d+/.exec(textOf(title)!)![0]) >= 25,
  rack_4: () => true,
  rack_7: (part) => value(part, 'places') >= 5,
  rack_9: (part) => value(part, 'places') >= 8,
  rack_14: (part) => value(part, 'places') >= 10,
  power_dc: () => true,
  power_ac: (part) => part.values.feed === 'ac',
  power_ac_large: (part) => value(part, 'gives') >= 3,
  extender_4: () => true,
  in_12: (part) => channels(part, 'digital_in') >= 12,
  in_20: (part) => channels(part, 'digital_in') >= 13,
  in_source_12: (part) => groups(part).some(({ kinds, level }) => kinds.includes('digital_in') && level === 'source'),
  out_12: (part) => channels(part, 'digital_out') >= 8,
  out_20: (part) => channels(part, 'digital_out') >= 13,
  out_2a_6: (part) => outputsOf(part, 1),
  mixed_12_6: (part) => channels(part, 'digital_in') >= 6 && channels(part, 'digital_out') >= 6,
  either_20: (part) => channels(part, 'digital_in') >= 9 && channels(part, 'digital_out') >= 9,
  relay_6: (part) => channels(part, 'relay') >= 1,
  fast_6: (part) => channels(part, 'capture') >= 1,
  count_6: (part) => channels(part, 'encoder') >= 1,
  analogue_in_6: (part) => channels(part, 'analogue_in') >= 1,
  analogue_out_6: (part) => channels(part, 'analogue_out') >= 1,
  warmth_6: (part) => channels(part, 'thermocouple') >= 1,
  serial_6: (part) => channels(part, 'serial') >= 1,
  hub_6: (part) => value(part, 'plugs') >= 5,
  hub_12: (part) => value(part, 'plugs') >= 8,
  switch_8: (part) => value(part, 'plugs') >= 8,
  switch_quick_8: (part) => value(part, 'plugs') >= 8 && value(part, 'forwarding') < 2e-6,
  branch_4: (part) => value(part, 'forwarding') < 0.5e-6,
  bulkhead: () => true,
  solid: () => true,
  flexible: (part) => textOf(part.title)!.includes('moving'),
  shared_10: () => true,
  polled_100: (part) => value(part, 'rate') >= 100e6,
  chained_100: (part) => value(part, 'rate') >= 100e6 && value(part, 'stations_at_most') >= 80,
  pipelined_100: (part) => words(part, 'topologies').includes('ring'),
  summation_100: (part) => value(part, 'stations_at_most') >= 150,
  slotted_100: (part) => words(part, 'topologies').includes('ring') && words(part, 'passes').includes('frame'),
  summation_1000: (part) => value(part, 'stations_at_most') >= 300,
  slotted_1000: (part) => value(part, 'rate') >= 1e9 && words(part, 'passes').includes('start'),
};

describe('a requirement under which it is the cheapest that holds', () => {
  it('is known of every part, and of nothing else; of motors and what goes with them, see demonstration-axes.test.ts', () =>
    expect(Object.keys(requirements).sort()).toEqual(
      parts
        .filter(({ kind }) => !['motor', 'gear', 'brake_resistor'].includes(kind))
        .map(({ name }) => name)
        .sort(),
    ));
  it.each(Object.keys(requirements))('%s has', (name) => {
    const part = catalogue.parts.get(name)!;
    const holding = ofKind(part.kind).filter(requirements[name]!);
    expect(holding).toContain(part);
    expect(holding.toSorted((a, b) => value(a, 'cost') - value(b, 'cost'))[0]?.name).toBe(name);
  });
});
