// Edits of a text as patches: `-` is what stood there, `+` what stands there after the edit, the rest stays.
// The file is long because every case shows its text.
import { describe, expect, it } from 'vitest';
import { read } from './machine.ts';
import { saidBy } from './said.support.ts';
import { splice } from './splice.ts';
import { vary } from './vary.ts';

type Case = readonly [what: string, path: string, value: string | undefined, patch: string, at?: 'here' | 'source'];

const change: readonly Case[] = [
  [
    'a value among others',
    'networks.n.cycle',
    '1 ms',
    `
    | networks:
    -   n: { cycle: 500 µs, repeats: 2 }
    +   n: { cycle: 1 ms, repeats: 2 }
  `,
  ],
  [
    'a longer value, the comment keeps its column',
    'networks.n.repeats',
    '12',
    `
    | networks:
    |   n:
    |     cycle: 500 µs   # the period
    -     repeats: 2      # in the same cycle
    +     repeats: 12     # in the same cycle
  `,
  ],
  [
    'a shorter value, the comment keeps its column',
    'axes.a.drive',
    'drive_5',
    `
    | axes:
    -   a: { drive: drive_10, cycle_at_most: 1 ms } # leads
    +   a: { drive: drive_5, cycle_at_most: 1 ms }  # leads
  `,
  ],
  [
    'a value that pushes the comment away',
    'networks.n.cycle',
    '500 µs',
    `
    | networks:
    |   n:
    -     cycle: 1 ms # fast
    +     cycle: 500 µs # fast
  `,
  ],
  [
    'the length of a run that its ends address',
    'networks.n.runs.hub_a.length',
    '9 m',
    `
    | networks:
    |   n:
    |     runs:
    |       - [controller, hub, 1 m, solid]
    -       - [hub, a, 12 m, flexible]   # through the chain
    +       - [hub, a, 9 m, flexible]    # through the chain
  `,
  ],
  [
    'the value of a line of set',
    'set.0.value',
    '2 ms',
    `
    | set:
    -   - { path: axes.p_*.cycle_at_most, value: 1 ms }   # for all
    +   - { path: axes.p_*.cycle_at_most, value: 2 ms }   # for all
  `,
  ],
  [
    'what the planner chose',
    'axes.a.drive',
    'drive_10',
    `
    | axes:
    |   a: { drive: open }
    | planned:
    -   axes.a.drive: drive_5   # the cheapest
    +   axes.a.drive: drive_10  # the cheapest
  `,
    'source',
  ],
  [
    'open to an own value; the planned one stays',
    'axes.a.drive',
    'drive_10',
    `
    | axes:
    -   a: { drive: open }
    +   a: { drive: drive_10 }
    | planned:
    |   axes.a.drive: drive_5
  `,
    'here',
  ],
  [
    'a block to one value',
    'axes.a.drive',
    'drive_10',
    `
    | axes:
    |   a:
    -     drive:            # small
    -       part: drive_5
    -       every: 2 cycles # seldom
    +     drive: drive_10   # small
    |     cycle_at_most: 1 ms
  `,
  ],
  [
    'a value to a map',
    'axes.a.drive',
    '{part: drive_5, every: 2 cycles}',
    `
    | axes:
    -   a: { drive: drive_5 }
    +   a: { drive: { part: drive_5, every: 2 cycles } }
  `,
  ],
  [
    'a text to one that needs quotes',
    'machine.name',
    "Labeller: the 'small' one # 2",
    `
    | machine:
    -   name: Labeller
    +   name: 'Labeller: the ''small'' one # 2'
  `,
  ],
  [
    'a text to one that needs quotes in brackets alone',
    'machine.name',
    'Labeller, small',
    `
    - machine: { name: Labeller }
    + machine: { name: 'Labeller, small' }
  `,
  ],
];

const add: readonly Case[] = [
  [
    'a key to the name of a part',
    'axes.x.drive.turnaround',
    '2 µs',
    `
    | axes:
    -   x: { drive: drive_5 }
    +   x: { drive: { part: drive_5, turnaround: 2 µs } }
  `,
  ],
  [
    'the one key in which a follower differs',
    'axes.y.drive.turnaround',
    '2 µs',
    `
    | axes:
    |   x: { drive: drive_5 }
    -   y: { like: x }
    +   y: { like: x, drive: { turnaround: 2 µs } }
  `,
  ],
  [
    'a key in the order of the format',
    'networks.n.cycle',
    '1 ms',
    `
    | networks:
    |   n:
    |     # where it is plugged in
    |     port: 1         # the left one
    +     cycle: 1 ms
    |     repeats: 2      # in the same cycle
  `,
  ],
  [
    'an entry in the columns of its siblings, before what follows',
    'axes.brake.drive',
    'drive_5',
    `
    | axes:
    |   infeed:      { drive: drive_5 }
    |   star_wheel:  { drive: drive_10 }   # two stars
    |                                      # of nylon
    +   brake:       { drive: drive_5 }
    |
    | # The network.
    | networks: {}
  `,
  ],
  [
    'an entry with lines of its own, as its siblings have',
    'axes.brake.cycle_at_most',
    '1 ms',
    `
    | axes:
    |     infeed:
    |         drive: drive_5
    +     brake:
    +         cycle_at_most: 1 ms
  `,
  ],
  [
    'an entry to brackets over many lines',
    'axes.c.like',
    'b',
    `
    | axes: {
    |   a: { drive: drive_5 },  # leads
    -   b: { like: a }          # follows
    +   b: { like: a },         # follows
    +   c: { like: b }
    |   }
  `,
  ],
  [
    'a run',
    'networks.n.runs.1',
    '[a, b, 2 m, solid]',
    `
    | networks:
    |   n:
    |     runs:
    |       - [controller, a, 1 m, solid]   # short
    +       - [a, b, 2 m, solid]
    |       # the end
    |     nodes: {}
  `,
  ],
  [
    'the first entry of a group',
    'networks.n.nodes.hub',
    'hub_6',
    `
    | networks:
    |   n:
    |     nodes:   # none yet
    +       hub: hub_6
    |     cycle: 1 ms
  `,
  ],
  [
    'the first entry to empty brackets',
    'axes.a.drive',
    'drive_5',
    `
    - axes: {}   # none yet
    + axes:      # none yet
    +   a: { drive: drive_5 }
  `,
  ],
  [
    'a section in the order of the format',
    'reserves.networks.cycle',
    '25 %',
    `
    | layshaft: 1
    |
    | machine:
    |   name: A   # invented
    |
    + reserves:
    +   networks.cycle: 25 %
    +
    | # All axes.
    | axes: {}
  `,
  ],
  [
    'the first section under the head of the file',
    'layshaft',
    '1',
    `
    | # A machine.
    |
    + layshaft: 1
    +
    | # All axes.
    | axes: {}
  `,
  ],
  [
    'the first line of set',
    'set.0',
    '{ path: axes.*.drive, value: drive_5 }',
    `
    | layshaft: 1
    | axes: {}
    | networks: {}
    + set:
    +   - { path: axes.*.drive, value: drive_5 }
  `,
  ],
  [
    'a planned value under its whole path',
    'planned.axes.a.drive',
    'drive_10',
    `
    | axes: { a: { drive: open } }
    | planned:
    |   axes.b.drive: drive_5
    +   axes.a.drive: drive_10
  `,
  ],
  [
    'a network to an empty file',
    'networks.n.nodes.hub',
    'hub_6',
    `
    + networks:
    +   n:
    +     nodes:
    +       hub: hub_6
  `,
  ],
  [
    'a range to brackets',
    'axes.b_[1..2].like',
    'a',
    `
    - axes: { a: { drive: drive_5 } }
    + axes: { a: { drive: drive_5 }, 'b_[1..2]': { like: a } }
  `,
  ],
];

const remove: readonly Case[] = [
  [
    'a line with its comments, not those above',
    'networks.n.cycle',
    undefined,
    `
    | networks:
    |   n:
    |     # about both
    -     cycle: 500 µs   # the period
    -                     # of all
    |     repeats: 2      # in the same cycle
  `,
  ],
  [
    'an entry of brackets, the comment keeps its column',
    'axes.a.cycle_at_most',
    undefined,
    `
    | axes:
    -   a: { drive: drive_5, cycle_at_most: 1 ms }   # leads
    +   a: { drive: drive_5 }                        # leads
  `,
  ],
  [
    'the first entry of brackets',
    'axes.a',
    undefined,
    `
    - axes: { a: { drive: drive_5 }, b: { drive: drive_10 } }
    + axes: { b: { drive: drive_10 } }
  `,
  ],
  [
    'a run',
    'networks.n.runs.a_b',
    undefined,
    `
    | networks:
    |   n:
    |     runs:
    |       - [controller, a, 1 m, solid]
    |       # the long one
    -       - [a, b, 20 m, solid]   # through the wall
  `,
  ],
  [
    'the only entry of a section, other comments stay',
    'reserves.networks.cycle',
    undefined,
    `
    - reserves:      # wanted
    + reserves: {}   # wanted
    |   # of the cycle
    -   networks.cycle: 25 %
    | axes: {}
  `,
  ],
  [
    'a section, and one of two blank lines that meet',
    'reserves',
    undefined,
    `
    | layshaft: 1
    |
    - reserves:
    -   networks.cycle: 25 %
    -
    | axes: {}
  `,
  ],
  [
    'what the planner chose',
    'axes.b.drive',
    undefined,
    `
    | axes:
    |   a: { drive: open }
    |   b: { drive: open }
    | planned:
    |   axes.a.drive: drive_5
    -   axes.b.drive: drive_10
  `,
    'source',
  ],
  [
    'the first entry of an item',
    'set.0.path',
    undefined,
    `
    | set:
    -   - path: axes.*.drive
    -     value: drive_5
    +   - value: drive_5
  `,
  ],
];

/** The text before or after a patch. */
const side = (patch: string, mark: '-' | '+'): string =>
  patch
    .split('\n')
    .filter((line) => line[4] === '|' || line[4] === mark)
    .map((line) => `${line.slice(6)}\n`)
    .join('');

const spliced = (text: string, path: string, value?: string, at?: 'here' | 'source') =>
  splice(read(text), { path, value, ...(at ? { at } : {}) });

describe.each([
  ['changes', change],
  ['adds', add],
  ['removes', remove],
] as const)('an edit %s', (_does, cases) => {
  for (const [what, path, value, patch, at] of cases) {
    it(what, () => {
      const found = spliced(side(patch, '-'), path, value, at);
      expect(found.kind === 'edit' ? found.text : found).toBe(side(patch, '+'));
    });
  }
});

describe('an edit', () => {
  it('reports the range that it changed', () => {
    const text = 'layshaft: 1\naxes:\n  a: { drive: drive_5 }\n';
    const found = spliced(text, 'axes.a.drive', 'drive_10');
    expect(found).toMatchObject({ kind: 'edit', from: 32, to: 39, insert: 'drive_10' });
    expect(text.slice(32, 39)).toBe('drive_5');
  });

  it('keeps the line breaks of the file', () => {
    const text = 'axes:\r\n  a: { drive: drive_5 }   # one\r\n';
    expect(spliced(text, 'axes.b.like', 'a')).toMatchObject({ text: `${text}  b: { like: a }\r\n` });
  });

  it('leaves the end of the file without a line break where it has none', () => {
    const text = 'axes:\n  a: { drive: drive_5 }';
    expect(spliced(text, 'axes.b.like', 'a')).toMatchObject({ text: `${text}\n  b: { like: a }` });
  });
});

describe('an odd edit', () => {
  const text = 'layshaft: 1\naxes:\n  a: { drive: drive_5 }\n';
  const deep = Array.from({ length: 40 }, () => 'x').join('.');

  it.each([
    '__proto__.x',
    'constructor',
    'axes.__proto__.drive',
    'axes.constructor',
    'planned.a.b',
    'a b',
    '#',
    'axes.- x',
  ])('at the path %s reads as the varied machine', (path) => {
    for (const value of [
      '\u0000\u2028\ufeff\ud800',
      'a\r\nb',
      '---',
      '*x',
      '&x',
      '!x',
      '? x',
      '',
      '~',
      '%x',
      '@',
      '{ a: b, a: c }',
    ]) {
      const found = spliced(text, path, value);
      if (found.kind !== 'edit') expect.fail(JSON.stringify(found));
      expect(saidBy(read(found.text))).toBe(saidBy(vary(read(text), path, value)!));
    }
  });

  it.each(['', '.', deep, `axes.${deep}`])('at the path "%s" is refused', (path) => {
    expect(spliced(text, path, 'x')).toMatchObject({ kind: 'refused', remedy: expect.stringMatching(/\S/) });
  });
});

describe('an inherited value', () => {
  const text = `axes:
  a: { drive: drive_5 }
  b: { like: a }
  c: { like: b, drive: { every: 2 cycles } }
  p_[1..2]: { drive: drive_10 }
set:
  - { path: axes.p_*.cycle_at_most, value: 1 ms }
  - { path: axes.b.drive, value: drive_20 }
`;

  it.each([
    ['like', 'axes.c.drive.part', 'axes.a.drive.part', ['axes.a.drive', 'axes.c.drive.part']],
    ['a range', 'axes.p_2.drive', 'axes.p_[1..2].drive', ['axes.p_1.drive', 'axes.p_2.drive']],
    ['set', 'axes.p_1.cycle_at_most', 'set.0.value', ['axes.p_1.cycle_at_most', 'axes.p_2.cycle_at_most']],
  ])('is a choice where it comes from %s', (_from, path, source, shared) => {
    expect(spliced(text, path, 'x')).toEqual({ kind: 'choice', here: path, source, shared });
  });

  it.each([
    ['one name of a range', 'axes.p_2.drive', 'drive_5', 'take p_2 out of the range first'],
    ['a key below what set gives', 'axes.b.drive.every', '2 cycles', 'Change it at set.1.value'],
    ['nothing where nothing stands', 'axes.a.cycle_at_most', undefined, 'nothing to remove'],
    ['what is written elsewhere', 'axes.b.drive', undefined, 'Remove it at set.1.value'],
    ['keys below a number', 'set.0.value.x', '1', 'Write the whole of set.0.value anew'],
    ['an item beyond the end of a list', 'set.7', '{}', 'Write set.2 to add to it'],
    ['a path that is none', 'axes..drive', 'x', 'Write names with points between them'],
  ])('is refused with a remedy: %s', (_what, path, value, remedy) => {
    const found = spliced(text, path, value, 'here');
    expect(found).toMatchObject({ kind: 'refused', remedy: expect.stringContaining(remedy) });
  });
});

describe('a text that is not as the machine says', () => {
  it('is left alone in a section with a mistake, and edited in the others', () => {
    const broken = 'axes:\n  a: { drive: drive_5\nmachine:\n  name: A\n';
    expect(spliced(broken, 'axes.a.drive', 'x')).toMatchObject({ kind: 'refused' });
    expect(spliced(broken, 'machine.name', 'B')).toMatchObject({ kind: 'edit', insert: 'B' });
  });

  it('is left alone where the machine was varied', () => {
    const machine = read('layshaft: 1\naxes:\n  a: { drive: drive_5, cycle_at_most: 1 ms }\n');
    for (const value of ['2 ms', 'open']) {
      const varied = vary(machine, 'axes.a.cycle_at_most', value)!;
      expect(splice(varied, { path: 'axes.a.drive', value: 'x' })).toMatchObject({ kind: 'refused' });
    }
  });
});
