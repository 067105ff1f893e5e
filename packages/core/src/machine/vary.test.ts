// A machine varied without text against the text that says the same.
import { describe, expect, it } from 'vitest';
import { type Machine, read } from './machine.ts';
import { saidBy } from './said.support.ts';
import { vary } from './vary.ts';

const text = `layshaft: 1
reserves: { networks.cycle: 20 %, networks.kernel: 15 % }
axes:
  a: { drive: drive_5, cycle_at_most: 1 ms }
  b: { like: a }
  c: { like: a, drive: { every: 2 cycles } }
networks:
  n:
    cycle: 1 ms
    nodes: { h: hub_6 }
    runs: [[controller, h, 1 m, solid], [h, a, 2 m, solid], [a, b, 2 m, solid]]
`;
const machine = read(text);

type Step = readonly [path: string, value: string | undefined, at?: 'here' | 'source'];
const varied = (steps: readonly Step[], from: Machine | undefined = machine): Machine | undefined =>
  steps.reduce<Machine | undefined>(
    (at, [path, value, where]) => at && vary(at, path, value, where ? { at: where } : {}),
    from,
  );

const rows: readonly (readonly [name: string, steps: readonly Step[], from: string, to: string])[] = [
  ['keeps the name of an entry whose part is another', [['networks.n.nodes.h', 'hub_12']], 'hub_6', 'hub_12'],
  ['changes what others take from it as a map', [['axes.a.drive', 'drive_10']], 'drive_5', 'drive_10'],
  ['removes one key that has points', [['reserves.networks.kernel', undefined]], ', networks.kernel: 15 %', ''],
  [
    'adds a key that has points',
    [
      ['reserves.networks.cycle', undefined],
      ['reserves.networks.cycle', '20 %'],
    ],
    '{ networks.cycle: 20 %, networks.kernel: 15 % }',
    '{ networks.kernel: 15 %, networks.cycle: 20 % }',
  ],
  [
    'keeps like when an entry gets a key',
    [
      ['axes.b.drive.turnaround', '2 µs'],
      ['axes.a.cycle_at_most', '2 ms'],
    ],
    'cycle_at_most: 1 ms }\n  b: { like: a }',
    'cycle_at_most: 2 ms }\n  b: { like: a, drive: { turnaround: 2 µs } }',
  ],
  [
    'tells apart what was added before',
    [
      ['axes.d', 'drive_1'],
      ['axes.e', 'drive_1'],
      ['axes.d', '{ drive: drive_2 }'],
    ],
    'networks:\n',
    '  d: { drive: drive_2 }\n  e: drive_1\nnetworks:\n',
  ],
  [
    'takes brackets for a map',
    [['axes.a.drive', '{ part: drive_5, every: 2 cycles }']],
    'drive: drive_5,',
    'drive: { part: drive_5, every: 2 cycles },',
  ],
  ['removes a run', [['networks.n.runs.a_b', undefined]], ', [a, b, 2 m, solid]', ''],
  [
    'is what it was after a change back',
    [
      ['networks.n.cycle', '2 ms'],
      ['networks.n.cycle', '1 ms'],
    ],
    '',
    '',
  ],
];

describe('a varied machine', () => {
  it.each(rows)('%s', (_name, steps, from, to) => {
    const edited = text.replace(from, to);
    expect(saidBy(varied(steps)!)).toBe(saidBy(read(edited)));
  });

  it('is nothing where a path leads into something that has no keys', () => {
    expect(varied([['axes.a.cycle_at_most.x', '1 ms']])).toBe(undefined);
  });

  it('is not taken for the text that it was read from', () => {
    const added = varied([['axes.a.foo', '1']])!;
    expect(added.problems.map(({ code }) => code)).toEqual(['key-unknown']);
    expect(read(text, { previous: added }).problems).toEqual([]);
  });

  it('has a place for a problem of what is new, behind the text', () => {
    const [problem] = varied([['axes.a', '{ drive: drive_5, foo: 1 }']])!.problems;
    expect(problem!.place).toMatchObject({ column: 19, excerpt: '{ drive: drive_5, foo: 1 }' });
  });
});
