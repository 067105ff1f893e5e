// Trials as a long work: its parts anywhere give what one run gives, to the bit, and every number can be computed again.
import { demonstration } from '@layshaft/catalogue';
import { describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { explain } from '../assess/numbers.ts';
import { show } from '../assess/show.ts';
import type { Asked, LongJob, Table } from '../checks/view.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { compute } from '../working/formula.ts';
import { Missing } from '../working/missing.ts';
import { addressOf, isStep, Quantity } from '../working/quantity.ts';
import { runCurvedTrials } from './calc/curved-model.ts';
import { runTrials } from './calc/monte-carlo.ts';

const spreads = '{ x: { rectangular: 10 µm }, y: 4 µm }';
const plainMark = `layshaft: 1\nmarks: { a: { tolerance: 1 mm, spread: ${spreads} } }\n`;
const askew = `layshaft: 1\nmarks: { a: { tolerance: 1 mm, skew: { over: 2 m, angle: 0.1°, spread: 0.2° }, spread: ${spreads} } }\n`;

const squares = `layshaft: 1\nmarks: { a: { tolerance: 1 mm, correlation: [[x, y, 0.4]], products: [[x, x, 10 µm], [y, z, 20 µm]], spread: { x: 10 µm, y: { normal: 4 µm, sensitivity: 0 }, z: 3 µm } } }\n`;

const assessed = (text: string) => assess(resolve(read(text), [demonstration()]));
const viewOf = (text: string) => show(assessed(text), 'marks.a')[0]!;

function jobOf(text: string, asked: Asked): LongJob {
  const job = viewOf(text).works![0]!.job(asked);
  if (job instanceof Missing) throw new Error(job.lacks[0]!.due);
  return job;
}

/** Parts from the last to the first, each as another thread would get it and give its result. */
const runBackwards = ({ task, chunks, merge }: LongJob): Table => {
  const run = { trials: runTrials, curvedTrials: runCurvedTrials }[task as 'trials'] as (chunk: unknown) => unknown;
  return merge(structuredClone([...structuredClone(chunks)].reverse().map(run)).reverse());
};
const numbersIn = ({ rows }: Table): readonly Quantity[] =>
  rows.flat().filter((cell): cell is Quantity => cell instanceof Quantity);
const valuesIn = (table: Table) => numbersIn(table).map(({ value }) => value);

describe.each([
  ['a sum', plainMark],
  ['a web askew', askew],
  ['products', squares],
])('many trials of %s', (_, text) => {
  it('are those of the table, for as many of the same seed', () => {
    const table = viewOf(text)
      .later.find(({ name }) => name === 'trials')!
      .make();
    const long = runBackwards(jobOf(text, { count: 200_000, seed: 1 }));
    expect(valuesIn(long)).toEqual(valuesIn(table));
    expect(valuesIn(long).length).toBeGreaterThan(10);
    expect(runBackwards(jobOf(text, { count: 200_000, seed: 2 })).rows[3]).not.toEqual(table.rows[3]);
  });

  it('are exactly as many as were asked for, and their working says so', () => {
    const table = runBackwards(jobOf(text, { count: 100_003, seed: 7 }));
    const deviation = numbersIn(table).find((each) => addressOf(each) === 'marks.trials.deviation@a')!;
    expect(isStep(deviation) && [deviation.inputs.N, deviation.inputs.s]).toMatchObject([
      { value: 100_003, by: { kind: 'given' } },
      { value: 7, by: { kind: 'given' } },
    ]);
    for (const each of numbersIn(table)) if (isStep(each)) expect(compute(each.by, each.inputs)).toBe(each.value);
  });
});

it('parts hold exactly as many trials as are asked for', () => {
  for (const count of [10_000, 100_003, 123_456_789]) {
    const { chunks } = jobOf(plainMark, { count, seed: 1 });
    expect((chunks as readonly { trials: number }[]).reduce((sum, { trials }) => sum + trials, 0)).toBe(count);
  }
});

it.each([
  ['correlation', 'correlation: [[x, y, 0.5]]'],
  ['coverage', 'coverage: unknown'],
])('what cannot be drawn is told by its place: %s', (path, said) => {
  const text = plainMark.replace('tolerance', `${said}, tolerance`);
  expect(viewOf(text).works![0]!.job({ count: 10_000, seed: 1 })).toMatchObject({
    lacks: [{ path: `marks.a.${path}` }],
  });
});

it('a number of many trials is explained in place of that of the few', () => {
  const table = runBackwards(jobOf(plainMark, { count: 100_000, seed: 9 }));
  const address = 'marks.trials.deviation@a';
  const [few, many] = [[], [table]].map((made) => explain(assessed(plainMark), address, made));
  expect(many!.value).not.toBe(few!.value);
  expect(explain(assessed(plainMark), 'marks.a.trials.seed', [table])!.value).toBe(9);
});

it.each(['0 µm', '1e200 m', '{ rectangular: 0 µm }', '{ sample: [1 µm, 1 µm], of: mean }'])(
  'a mark that scatters by %s has trials that tell something or nothing, and throws nothing',
  (spread) => {
    const view = viewOf(`layshaft: 1\nmarks: { a: { tolerance: 1 mm, spread: { x: ${spread} } } }\n`);
    for (const work of view.works!) {
      const job = work.job({ count: 10_000, seed: 1 });
      if (!(job instanceof Missing)) expect(runBackwards(job).rows.length).toBeGreaterThan(0);
    }
  },
);
