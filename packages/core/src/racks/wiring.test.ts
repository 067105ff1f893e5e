// Wires and designations on generated racks: every conductor once, no terminal twice, and nothing moves when points are added.
import { demonstration } from '@layshaft/catalogue';
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../tests/support/seeded.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { Missing } from '../working/missing.ts';
import { addressOf } from '../working/quantity.ts';
import { print } from '../working/working.ts';
import { numberOf } from './designations.ts';
import { planRacks } from './planned.ts';
import { terminalsOf } from './terminals.ts';
import type { Wire } from './wire-list.ts';
import type { WiredPoint } from './wired-point.ts';
import { wiringOf } from './wiring.ts';

const catalogue = demonstration();

const planned = (text: string) => {
  const design = resolve(read(`layshaft: 1\nmachine: { name: Try }\ncatalogue: [demonstration]\n${text}`), [catalogue]);
  expect(design.problems).toEqual([]);
  return planRacks(design.racks);
};

const families = [
  'in_12',
  'in_20',
  'in_source_12',
  'out_12',
  'out_20',
  'out_2a_6',
  'either_20',
  'mixed_12_6',
  'relay_6',
  'fast_6',
  'count_6',
  'analogue_in_6',
  'analogue_out_6',
  'warmth_6',
  'serial_6',
];

interface Generated {
  readonly racks: string;
  /** One line for each point. */
  readonly points: readonly string[];
}

/** Racks at the controller and at a station, and points on some of their channels, each with some of what wiring reads. */
function generated(seed: number): Generated {
  const random = seeded(seed);
  const whole = (below: number): number => Math.floor(random() * below);
  const some = (list: readonly string[]): string => list[whole(list.length)]!;
  const modules = (): string => `[${Array.from({ length: 1 + whole(4) }, () => some(families)).join(', ')}]`;
  const rack = (): string => `rack: rack_14, power: power_ac, modules: ${modules()}`;
  const more = random() < 0.5 ? `, extender: extender_4, further: [{ ${rack()} }]` : '';
  const racks = `controller: controller_m
networks: { io: { profile: polled_100, cycle: 1 ms, runs: [[controller, far, 5 m, solid]], nodes: { far: rack_head } } }
cabinet: { wiring: { colours: ${some(['iec_60204_1', 'nfpa_79'])}, boxes: { box_1: { wire: 20 m } } } }
racks:
  main: { ${rack()}${more} }
  far: { ${rack()} }
`;
  const points = planned(racks.concat('points: {}\n')).locations.flatMap(({ location, racks: all }) =>
    all.flatMap((each) =>
      each.modules.flatMap(({ channels }) =>
        channels.flatMap(({ group, label }) => {
          if (random() < 0.6 || group.kinds instanceof Missing) return [];
          const kind = group.kinds[whole(group.kinds.length)] as string;
          const maybe = (share: number, text: string): string => (random() < share ? `, ${text}` : '');
          const said =
            maybe(0.5, `cabinet: ${some(['box_1', 'box_2', 'main'])}`) +
            maybe(0.5, `wire: ${1 + whole(40)} m`) +
            maybe(0.3, `conductors: ${1 + whole(6)}`) +
            maybe(0.2, `screen: ${some(['none', 'rack', 'both'])}`) +
            maybe(0.3, `function: ${some(['press', 'feeding'])}`) +
            maybe(0.3, `current: 0.${1 + whole(4)} A`) +
            maybe(0.2, `status_of: ${some(['guard', 'emergency_stop'])}`);
          return [
            `  ${location.name}_${label.replace(/\W/g, '_')}: { kind: ${kind}, at: ${location.name}, channel: ${label}${said} }\n`,
          ];
        }),
      ),
    ),
  );
  return { racks, points };
}

const fileOf = ({ racks }: Generated, points: readonly string[]): string =>
  `${racks}${points.length === 0 ? 'points: {}\n' : `points:\n${points.join('')}`}`.replaceAll('at: main, ', '');

const wiredOf = (
  text: string,
): { readonly wires: readonly Wire[]; readonly points: readonly WiredPoint[]; readonly things: readonly unknown[] } => {
  const { locations } = wiringOf(planned(text));
  return {
    wires: locations.flatMap(({ wires }) => wires()),
    points: locations.flatMap(({ points }) => points),
    things: locations.flatMap(({ designated }) => designated().map(({ designation }) => designation)),
  };
};

const plain = (value: unknown): unknown =>
  value instanceof Missing ? value.lacks : typeof value === 'object' && value !== null ? print(value as never) : value;

/** A wire as text, to be compared. */
const told = ({ point, onTerminal: _, ...rest }: Wire): string =>
  JSON.stringify([point?.name, ...Object.values(rest).map(plain)]);

const repeated = (list: readonly unknown[]): readonly unknown[] => list.filter((each, at) => list.indexOf(each) !== at);

/** The supply itself and the bar of protective conductors are not in the file and have no terminals of their own. */
const isTerminal = (end: unknown): boolean => typeof end === 'string' && !/^(24 V supply|protective bar)/.test(end);

const seeds = Array.from({ length: 24 }, (_, at) => 4100 + at);

describe.each(seeds)('generated racks, seed %d', (seed) => {
  const made = generated(seed);
  const { wires, points, things } = wiredOf(fileOf(made, made.points));

  it('have every point, and each of its conductors once all the way', () => {
    expect(points).toHaveLength(made.points.length);
    for (const { point, channel, designation } of points) {
      const own = wires.filter((wire) => wire.point === point && wire.carries !== 'screen');
      const starts = own.filter(({ from }) => String(from).startsWith(`${designation as string}:`));
      const count =
        point.conductors === undefined || point.conductors instanceof Missing ? starts.length : point.conductors.value;
      expect(starts.map(({ from }) => String(from).split(':')[1])).toEqual(
        Array.from({ length: count }, (_, at) => String(at + 1)),
      );
      for (const start of starts) {
        const next = own.filter(({ from }) => from === start.to);
        const end = next[0] ?? start;
        const hasBox = point.cabinet !== undefined && (point.cabinet as { name: string }).name !== point.location;
        expect(next).toHaveLength(hasBox ? 1 : 0);
        expect(String(end.to)).toMatch(
          new RegExp(`^\\+${point.location}-${start.carries === 'signal' ? 'K' : 'X'}\\d+:`),
        );
      }
      const signals = starts.filter(({ carries }) => carries === 'signal').length;
      expect(signals).toBeLessThanOrEqual((channel.group.terminals as { value: number }).value);
    }
  });

  it('have each screen that a point or its channel states, all the way to the strip of its module', () => {
    for (const { point, channel, designation } of points) {
      const own = wires.filter((wire) => wire.point === point && wire.carries === 'screen');
      const screen = point.screen ?? channel.group.screen ?? 'none';
      const hasBox = point.cabinet !== undefined && (point.cabinet as { name: string }).name !== point.location;
      expect(own).toHaveLength(screen === 'none' ? 0 : hasBox ? 2 : 1);
      if (screen === 'none') continue;
      expect(own[0]!.from).toMatch(
        screen === 'both' ? `${designation as string}:SH` : /^\+\w+-W\d+: its far end, left open$/,
      );
      expect(own.at(-1)!.to).toMatch(new RegExp(`^\\+${point.location}-X\\d+:${channel.number}\\.SH$`));
      if (hasBox) expect(own[1]!.from).toBe(own[0]!.to);
    }
  });

  it('have no terminal twice', () => {
    const from = wires.map((wire) => wire.from).filter(isTerminal);
    const to = wires.map((wire) => wire.to);
    expect(repeated(from)).toEqual([]);
    expect(repeated(to)).toEqual([]);
    // A strip has two sides; what is no strip has one.
    const isStrip = (end: unknown): boolean => /-X[^:]*:/.test(String(end));
    expect(repeated([...from, ...to].filter((end) => !isStrip(end)))).toEqual([]);
    expect(from.length).toBeGreaterThan(points.length);
  });

  it('have designations that are unique', () => {
    expect(things.filter((each) => each instanceof Missing)).toEqual([]);
    expect(repeated(things)).toEqual([]);
  });

  it('keep every wire where it is when points are added, wherever in the file', () => {
    const random = seeded(seed + 1);
    const first = made.points.filter(() => random() < 0.5);
    const before = wiredOf(fileOf(made, first));
    const after = new Set(wires.map(told));
    expect(before.points).toHaveLength(first.length);
    expect(before.wires.map(told).filter((each) => !after.has(each))).toEqual([]);
    const now = new Set(things);
    expect(before.things.filter((each) => !now.has(each))).toEqual([]);
  });

  it('have modules whose terminals are counted without a gap, as many as the groups state', () => {
    const { locations } = planned(fileOf(made, made.points));
    for (const module of locations.flatMap(({ racks }) => racks.flatMap(({ modules }) => modules))) {
      const terminals = terminalsOf(module);
      if (terminals instanceof Missing) throw new Error(JSON.stringify(terminals.lacks));
      expect(terminals.map(({ number }) => number)).toEqual(terminals.map((_, at) => at + 1));
      const due = (
        module.module.groups as readonly Record<'count' | 'terminals' | 'commons', { value: number }>[]
      ).reduce((sum, { count, terminals: each, commons }) => sum + count.value * each.value + commons.value, 0);
      expect(terminals).toHaveLength(due);
      for (const terminal of terminals) if (terminal.is === 'common') expect(terminal.line).toMatch(/^(L\+|0 V)$/);
    }
  });

  it('speak of one number for each address', () => {
    const byAddress = new Map<string, unknown>();
    for (const { section } of [...wires, ...points]) {
      if (section === undefined || section instanceof Missing) continue;
      const address = addressOf(section);
      expect(byAddress.get(address) ?? section).toBe(section);
      byAddress.set(address, section);
    }
    expect(byAddress.size).toBeGreaterThan(0);
  });
});

it('numbers of places and channels are never the same, however large they are', () => {
  const seen = new Map<string, string>();
  const values = [1, 2, 9, 10, 11, 12, 21, 99, 100, 104, 110, 999];
  const add = (hook: Parameters<typeof numberOf>[0]): void => {
    const number = numberOf(hook);
    expect(seen.get(number), number).toBeUndefined();
    seen.set(number, hook.join(' '));
  };
  for (const location of [1, 2, 10, 11, 99])
    for (const rack of [1, 2, 10, 99]) {
      add([location, rack]);
      for (const place of values) {
        add([location, rack, place]);
        for (const channel of values) add([location, rack, place, channel]);
      }
    }
  expect(seen.get('110407')).toBeUndefined();
  expect(numberOf([1, 1, 4])).toBe('1104');
  expect(numberOf([1, 1, 4, 7])).toBe('110407');
});
