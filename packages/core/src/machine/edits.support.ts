// Machine files in every layout that an edit can meet, and edits drawn at random that a user might ask for.
import { readdirSync, readFileSync } from 'node:fs';
import type { Edit } from './change.ts';
import type { Machine } from './machine.ts';

type Named = readonly [name: string, text: string];

export const examples: readonly Named[] = readdirSync('examples', { withFileTypes: true })
  .filter((entry) => entry.isDirectory() && entry.name !== 'problems')
  .map(({ name }) => [name, readFileSync(`examples/${name}/machine.yaml`, 'utf8')]);

/** One file for each kind of problem. */
export const withProblems: readonly Named[] = readdirSync('examples/problems')
  .filter((name) => name.endsWith('.yaml'))
  .map((name) => [name, readFileSync(`examples/problems/${name}`, 'utf8')]);

const small = `# A small machine.
# Two lines of head.

layshaft: 1

# What it is called.
machine:
  name: Small one   # and good

axes:                       # all of them
  a: { drive: drive_5, cycle_at_most: 1 ms }   # leads
  # Below: like a.
  b: { like: a }            # follows
  c: { like: b, drive: { turnaround: 2 µs } }
  d_[1..3]: { drive: { part: drive_10, every: 2 cycles } }   # a range

  e_[01..02]: { like: d_1, cycle_at_most: 2 ms }

# The end of the axes.

networks:
  n:
    port: 1
    cycle: 500 µs           # the period
    repeats:   2            # re-polls
    non_cyclic: 512 octets
    runs: [[controller, h, 1 m, solid], [h, a, 2 m, solid], [a, b, 0.5 m, { part: solid, delay: 5 ns/m }]]
    nodes: { h: hub_6 }     # one hub
`;

const blocks = `layshaft: 1
axes:
    first:
        # its drive
        drive:
            part: drive_5       # small
            turnaround:         # was measured
                measured: 2 µs
                date: 2026-01-02
                count: 100
            # after the measurement
            every: 2 cycles

        cycle_at_most: 4 ms
    second:
        like: first
        drive:
            every: 4 cycles

    # nothing known yet
    third: {}
    fourth:
        drive: open   # to be planned
controller:
    part: controller_m
    cycles:
        - 250 µs
        - 500 µs    # usual
        # no more
    ports: 2
set:
    # for all
    - { path: axes.*.cycle_at_most, value: 2 ms }   # slow
    - path: axes.third.drive
      # a bigger one
      value:
          part: drive_20
          turnaround: 3 µs
planned:
    # chosen on a Monday
    axes.fourth.drive: drive_10    # the cheapest
catalogue:
    - demonstration
networks:
    n:
        cycle: open
        runs:
            - [controller, first, 1 m, solid]

            # the long one
            - [first, second, 20 m, solid]   # through the wall
            - - second
              - third
              - 3 m
              - solid
            - [third, fourth, 1 m, solid]
        nodes:
`;

const brackets = `layshaft: 1
reserves: { networks.cycle: 20 %, "networks.kernel": '15 %' }
axes: {
  a: { drive: { part: drive_5, turnaround: 2 µs },   # with a comma
       cycle_at_most: 1 ms },
  b: { like: a },   # a follower
  # the last
  c: { drive: drive_10, cycle_at_most: '2 ms' }   # without a comma
  }
networks: { n: { cycle: 1 ms, profile: polled_100, repeats: 1, nodes: { h: hub_6, r: { part: rack_small } },
    runs: [ [controller, h, 1 m, solid], [h, r, 2 m, solid],
      [r, a, 3 m, solid],   # the way back
      [a, b, 3 m, solid] ] } }   # all on one line
planned: {}
`;

const many = `layshaft: 1
controller: controller_m
axes:
  x_[1..2]:        { drive: drive_5, cycle_at_most: 1 ms }
  long_name_[1..2]: { like: x_1 }
  y:               { like: long_name_2, drive: { every: 2 cycles } }
  z:               { drive: open }
set:
  - { path: axes.y.drive.turnaround, value: 2 µs }
  - { path: axes.x_*.drive, value: drive_20 }
  - { path: networks.*.repeats, value: 3 }
planned: { axes.z.drive: { part: drive_20, every: 2 cycles } }
networks:
  one: { cycle: 1 ms, runs: [[controller, x_1, 1 m, solid]] }
  two:
    cycle: 2 ms
    runs:
      - [controller, x_2, 1 m, solid]
      - [x_2, y, 1 m, solid]
    nodes:
      r_[1..4]: { part: rack_small }   # not wired
`
  .replace('set:\n- ', 'set:\n  - ')
  .replaceAll('\n- ', '\n  - ');

const bare = 'axes:\n  only: { drive: drive_5 }';

export const layouts: readonly Named[] = [
  ['small', small],
  ['small with CRLF', small.replaceAll('\n', '\r\n')],
  ['blocks', blocks],
  ['blocks with CRLF', blocks.replaceAll('\n', '\r\n')],
  ['brackets', brackets],
  ['ranges and settings', many],
  ['without a line break at the end', bare],
  ['empty', ''],
  ['comments alone', '# Nothing yet.\n\n# Really.\n'],
];

const values = [
  ...['1 ms', '500 µs', '2', '3 cycles', '1.5 m', '512 octets', '20 %', 'drive_5', 'hub_6', 'rack_small', 'open'],
  ...['unknown', 'a', 'controller', 'solid', '0 s', '-1 ms', '5 kg', '7', 'a: b', 'it is # odd', "it's", '- x', 'x, y'],
  ...[
    '[x',
    'tab\there',
    ' lead',
    '{ part: drive_10 }',
    '{ drive: drive_20 }',
    '{}',
    '[]',
    '[controller, a, 2 m, solid]',
  ],
  ...['{ part: rack_large, every: 2 cycles }', '{ measured: 2 µs, date: 2026-02-03, count: 10 }', '{ like: a }'],
  ...['{ path: axes.*.drive, value: drive_5 }', 'polled_100', '"quoted"', '1,5 ms', 'ein Motor mit Umlaut: ä', '😀'],
];

const below = [
  ...['drive', 'drive.turnaround', 'drive.part', 'cycle_at_most', 'like', 'every', 'part', 'turnaround', 'delay'],
  ...[
    'turnaround.count',
    '0',
    '1',
    '2',
    '3',
    '4',
    'nodes.h',
    'nodes.new',
    'runs',
    'runs.0',
    'cycle',
    'repeats',
    'x_1',
    'x_3',
  ],
  ...['new', 'new.drive', 'new_[1..3].drive', 'foo', 'networks.cycle', 'networks.kernel', 'value', 'path', 'Bad Name'],
];

const anywhere = [
  ...['layshaft', 'machine', 'machine.name', 'reserves.networks.cycle', 'reserves.networks.kernel', 'controller'],
  ...[
    'controller.ports',
    'axes.new.drive',
    'axes.new',
    'networks.new.cycle',
    'networks.new.nodes.hub',
    'networks.n.nodes',
  ],
  ...[
    'set.0',
    'set',
    'planned.axes.a.drive',
    'catalogue.0',
    'catalogue',
    'axes',
    'networks',
    'no_such.thing',
    'axes.b.drive',
  ],
];

/** An edit at a path that the machine has, below one, or anywhere. */
export function drawEdit(machine: Machine, random: () => number): Edit {
  const of = <T>(from: readonly T[]): T => from[Math.floor(random() * from.length)]!;
  const places = [...machine.reading.places.values()];
  const place = places.length === 0 || random() < 0.15 ? undefined : of(places);
  const path = place === undefined ? of(anywhere) : random() < 0.35 ? `${place.path}.${of(below)}` : place.path;
  const leaves = places.flatMap(({ node }) => (node.kind === 'leaf' ? [node.text] : []));
  const old = place?.node.kind === 'leaf' && path === place.path ? place.node.text : 'drive_20';
  const kind = random();
  const value =
    kind < 0.2
      ? undefined
      : kind < 0.5
        ? old.replace(/\d+/, () => String(1 + Math.floor(random() * 50)))
        : kind < 0.7 && leaves.length > 0
          ? of(leaves)
          : of(values);
  const at = of([undefined, 'here', 'source'] as const);
  return { path, value, ...(at ? { at } : {}) };
}
