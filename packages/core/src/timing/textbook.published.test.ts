// Textbook sets of tasks as whole machine files, from the text to the findings. Their times are plain numbers; here they
// are milliseconds.
import { describe, expect, it } from 'vitest';
import { type Assessment, assess } from '../assess/assess.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { known, q } from '../working/testing.support.ts';

const assessed = (text: string): Assessment => {
  const machine = read(`layshaft: 1\n${text}`);
  expect(machine.problems).toEqual([]);
  return assess(resolve(machine, []));
};

type Row = readonly [T: number, C: number, D?: number | undefined, blocks?: number];

/** Tasks, the more urgent first, as a file. */
const tasks = (...rows: readonly Row[]): string =>
  `tasks:\n${rows
    .map(([T, C, D, blocks], priority) => {
      const more = `${D === undefined ? '' : `, deadline: ${D} ms`}${blocks === undefined ? '' : `, blocks: ${blocks} ms`}`;
      return `  t${priority}: { every: ${T} ms, takes: ${C} ms, takes_at_least: ${C} ms, offset: 0 ms, priority: ${priority}${more} }\n`;
    })
    .join('')}`;

const responses = ({ timing }: Assessment): readonly number[] =>
  timing.cores[0]!.tasks.map(({ response }) => Number((known(response) * 1e3).toPrecision(12)));

const verdictOf = ({ findings }: Assessment, address: string) =>
  findings.find((each) => each.address === address)?.verdict;

describe('the classic set of Burns and Wellings (7,3) (12,3) (20,5) as a file', () => {
  const classic = assessed(tasks([7, 3], [12, 3], [20, 5]));

  it('RT1 as a file: R 3, 6, 20, the last just in time, and the sums 5, 11, 14, 17, 20; load 0.928571', () => {
    expect(responses(classic)).toEqual([3, 6, 20]);
    expect(verdictOf(classic, 'timing.response@t2')).toBe('holds');
    const sums = classic.timing.cores[0]!.tasks[2]!.sums();
    expect('lacks' in sums ? sums : sums.map((sum) => Math.round(sum.value * 1e3))).toEqual([5, 11, 14, 17, 20]);
    expect(known(classic.timing.cores[0]!.load)).toBeCloseTo(0.928571, 6);
  });

  it('RT3 as a file: blocked by 1 the third misses with 21; the fourth is followed past its deadline to 59', () => {
    const more = assessed(tasks([7, 3], [12, 3], [20, 5], [50, 5, undefined, 1]));
    expect(responses(more).slice(2)).toEqual([21, 59]);
    for (const task of ['t2', 't3']) expect(verdictOf(more, `timing.response@${task}`)).toBe('fails');
    const says = more.findings.find(({ address }) => address === 'timing.response@t3')?.says;
    expect(says).toContain('more is asked of the core than all of its time: not done before 59 ms');
    expect(known(more.timing.cores[0]!.load)).toBeCloseTo(1.029, 3);
    expect(verdictOf(more, 'timing.load@main')).toBe('fails');
  });
});

it('RT2 as a file: R 1, 3, 16 (4,1) (8,2) (16,8), validation set of an open repository', () =>
  expect(responses(assessed(tasks([4, 1], [8, 2], [16, 8])))).toEqual([1, 3, 16]));

it('RT4 as a file: R 5, 9, the longer period the more urgent by its deadline of 10', () =>
  expect(responses(assessed(tasks([50, 5, 10], [20, 4])))).toEqual([5, 9]));

it('RT5 as a file: R 300, 1500, 4000 and the product 1.9448, firmware scheduling notes of an open repository', () => {
  const found = assessed(tasks([1000, 300], [2500, 900], [10000, 1000]));
  expect(responses(found)).toEqual([300, 1500, 4000]);
  expect(known(found.timing.cores[0]!.product)).toBeCloseTo(1.9448, 4);
});

it('RT9 as a file: R 2.5, 7.5, 19: over both bounds, and in time all the same', () => {
  const found = assessed(tasks([10, 2.5], [20, 5], [30, 9]));
  expect(responses(found)).toEqual([2.5, 7.5, 19]);
  const [core] = found.timing.cores;
  expect(known(core!.load)).toBeGreaterThan(core!.bound.value);
  expect(known(core!.product)).toBeGreaterThan(2);
  expect(known(core!.growth())).toBeGreaterThan(1);
});

it.each([
  [
    'B',
    [
      [16, 4],
      [40, 5],
      [80, 32],
    ],
    [4, 9, 58],
  ],
  [
    'C',
    [
      [20, 5],
      [40, 10],
      [80, 40],
    ],
    [5, 15, 80],
  ],
] as const)('RT10 as a file: Burns and Wellings, process set %s (from memory)', (_, rows, expected) =>
  expect(responses(assessed(tasks(...rows)))).toEqual(expected),
);

it('RT12 as a file: Lehoczky 1990, (70,26) (100,62): 118, of a job that is not the first, with a deadline beyond the period', () => {
  const found = assessed(tasks([70, 26], [100, 62, 120]));
  expect(responses(found)).toEqual([26, 118]);
  expect(verdictOf(found, 'timing.response@t1')).toBe('holds');
});

// ── chains ───────────────────────────────────────────────────────────────────────────────────────────────────────────

const chain = (through: string, ends = 'from: { delay: 0 ms }, to: { delay: 0 ms }'): string =>
  `chains: { it: { ${ends}, through: [${through}] } }\n`;

const delays = (text: string) => {
  const { times } = assessed(text).timing.chains[0]!;
  if ('lacks' in times) throw new Error(JSON.stringify(times));
  const ms = (value: { readonly value: number }): number => Number((value.value * 1e3).toPrecision(9));
  return {
    most: ms(times.most),
    least: ms(times.least),
    safe: ms(times.safe),
    reaction: ms(times.reaction),
    isWalked: times.isWalked,
  };
};

describe('Davare 2007, Dürr 2019 and the exact value of ECRTS 2023 as files', () => {
  const three: readonly Row[] = [
    [5, 1],
    [10, 2],
    [20, 3],
  ];
  const two: readonly Row[] = [
    [2, 1],
    [5, 2],
  ];
  it.each([
    ['CE1 as a file', three, 't0, t1, t2', 46, 42, 27],
    ['CE2 as a file', three, 't2, t1, t0', 46, 46, 33],
    ['CE3 as a file', three, 't0, t2', 33, 32, 27],
    ['CE4 as a file', two, 't0, t1', 12, 11, 10],
    ['CE5 as a file', two, 't1, t0', 12, 12, 10],
  ] as const)('%s', (_, rows, order, safe, reaction, most) =>
    expect(delays(tasks(...rows) + chain(order))).toMatchObject({ safe, reaction, most, isWalked: true }),
  );

  it('CE1 as a file: 7 ms at best, a 0 to 1, b 1 to 3, c 3 to 7; no share of all causes takes longer than 27 ms (derived)', () => {
    const { times } = assessed(tasks(...three) + chain('t0, t1, t2')).timing.chains[0]!;
    if ('lacks' in times) throw new Error(JSON.stringify(times));
    expect(times.least.value).toBeCloseTo(7e-3, 12);
    expect(times.varies.value).toBeCloseTo(20e-3, 12);
    const upTo = [0, 0.5, 1].map((share) => times.upTo(q(share, '1'))!.value * 1e3);
    // Of each 20 ms, the causes of one look of a that reaches c wait for up to a whole period of it.
    expect(upTo).toEqual([7, 17, 27]);
  });

  it('CE1 as a file between a sensor and a valve: 27 ms through the tasks, their delays on top', () => {
    const ends = 'from: { delay: 2 ms }, to: { delay: 9 ms, jitter: 1 ms }';
    expect(delays(tasks(...three) + chain('t0, t1, t2', ends))).toMatchObject({ most: 39, isWalked: true });
  });

  it('is only walked where all tasks start together, each always as long', () => {
    const text = tasks(...three) + chain('t0, t1, t2');
    for (const [from, to] of [
      ['offset: 0 ms, priority: 1', 'offset: 1 ms, priority: 1'],
      ['takes_at_least: 2 ms, offset: 0 ms', 'offset: 0 ms'],
      ['offset: 0 ms, priority: 1', 'offset: 0 ms, jitter: 0.5 ms, priority: 1'],
    ] as const) {
      const found = delays(text.replace(from, to));
      expect(found.isWalked).toBe(false);
      expect(found.most).toBeGreaterThanOrEqual(27);
      expect(found.most).toBeLessThanOrEqual(found.safe);
    }
  });
});

describe('a scanned controller as a file, by the formula of a controller manual', () => {
  it('PLC1 as a file: 1.5 ms, a scan of 20 ms, 15 ms: 36.5 ms at best, 56.5 ms at worst', () => {
    const ends = 'from: { delay: 1.5 ms }, to: { delay: 15 ms }';
    const scan = '{ name: scan, every: 20 ms, takes: 20 ms, takes_at_least: 20 ms }';
    expect(delays(chain(scan, ends))).toMatchObject({ least: 36.5, most: 56.5 });
  });
});

it('RT3 as a file: a chain through a task without a longest response is not known, nor is what a watchdog on it hears', () => {
  const text = tasks([7, 3], [12, 3], [20, 5], [50, 5]).replace(
    'priority: 3',
    'priority: 3, watchdog: { after: 10 s }',
  );
  const found = assessed(text + chain('t3').replace('] }', '], within: 10 s }'));
  for (const address of ['timing.chain@it', 'timing.watchdog@t3']) expect(verdictOf(found, address)).toBe('unknown');
  const says = found.findings.find(({ address }) => address === 'timing.chain@it')?.says;
  expect(says).toContain('less work than core main has time for');
});

describe('question 16 as a file (derived): a mark that moves with the speed', () => {
  const file = (seen: string, more = ''): string =>
    chain('{ every: 40 ms, takes: 20 ms }', `from: { delay: 20 ms }, to: { delay: 0 ms }, seen: ${seen}${more}`);
  const finding = (text: string) => assessed(text).findings.find(({ address }) => address === 'timing.seen@it')!;

  it('0.472 mm between 100 and 400 mm/min are 94 ms, 14 ms more than the file knows of', () => {
    const found = finding(file('{ moved: 0.472 mm, lower: 100 mm/min, higher: 400 mm/min }'));
    expect(found.demand!.value).toBeCloseTo(94e-3, 3);
    expect(found.capacity!.value).toBeCloseTo(80e-3, 12);
    expect(found.verdict).toBe('fails');
    const lead = finding(file('{ moved: 0.25 mm, lower: 100 mm/min, higher: 400 mm/min }', ', lead: constant_part'));
    expect([lead.verdict, lead.capacity!.value]).toEqual(['holds', expect.closeTo(60e-3, 12)]);
  });

  it('angles go with speeds of turning, and the higher speed is the higher one', () => {
    expect(finding(file('{ moved: 18°, lower: 10 rpm, higher: 60 rpm }')).demand!.value).toBeCloseTo(0.06, 12);
    for (const [seen, key] of [
      ['{ moved: 18°, lower: 10 rpm, higher: 1 m/s }', 'higher'],
      ['{ moved: 1 mm, lower: 10 rpm, higher: 1 m/s }', 'lower'],
      ['{ moved: 1 mm, lower: 1 m/s, higher: 1 m/s }', 'higher'],
    ])
      expect(finding(file(seen!)).lacks.map(({ path }) => path)).toEqual([`chains.it.seen.${key}`]);
  });
});

describe('what a chain may take', () => {
  const ends = 'from: { delay: 1.5 ms }, to: { delay: 15 ms, jitter: 4 ms }';
  const with_ = (more: string): string =>
    `chains: { it: { ${ends}, through: [{ every: 20 ms, takes: 20 ms, takes_at_least: 20 ms }]${more} } }\n`;
  const finding = (more: string, before = '') =>
    assessed(before + with_(more)).findings.find(({ address }) => address === 'timing.chain@it')!;

  it('is a time, or a way at a speed; behind a lead only what varies counts', () => {
    expect(finding(', within: 60.5 ms').demand!.value).toBeCloseTo(60.5e-3, 12);
    expect(finding(', within: 130 mm, speed: 2 m/s').demand!.value).toBeCloseTo(0.121, 12);
    expect(finding(', within: 130 mm, speed: 2 m/s, lead: constant_part').demand!.value).toBeCloseTo(0.048, 12);
    expect(
      finding(', within: 20°, lead: constant_part', 'masters: { a: { speed: 60 rpm } }\n').demand!.value,
    ).toBeCloseTo(0.024 * 2 * Math.PI, 12);
  });

  it('is unknown without a speed, and where a way does not fit it', () => {
    for (const [more, before, path] of [
      [', within: 30 mm', '', 'chains.it.speed'],
      [', within: 30 mm, speed: 60 rpm', '', 'chains.it.within'],
    ] as const) {
      const { verdict, lacks } = finding(more, before);
      expect(verdict).toBe('unknown');
      expect(lacks[0]!.path).toBe(path);
    }
  });
});
