// Long work of the sheet: one run of a name at a time, what an edit does to it, and what is told of parts that fail.
import type { Solve } from '@layshaft/core';
import { answerTo } from '@layshaft/pool/serve';
import { solveHere } from '@layshaft/solver/here';
import { describe, expect, it } from 'vitest';
import { openDesk } from '../computing/desk.ts';
import type { RequestKind, Requests } from '../computing/protocol.ts';
import type { runParts } from '../computing/threads.ts';
import { emptyState, type SheetState } from './state.ts';
import { Works } from './works.ts';

const text = 'layshaft: 1\nmarks: { eye: { tolerance: 1 mm, spread: { x: 3 µm, y: { rectangular: 4 µm } } } }\n';
const looking = { address: undefined, width_px: 720 };
const work = { name: 'trials', counts: 'trials' };
const key = 'marks.eye trials';

/** A sheet on a desk; parts wait at a gate where the test has one. */
function opened({ gate, broken }: { readonly gate?: Promise<void>; readonly broken?: number } = {}) {
  const desk = openDesk();
  desk.read({ file: 'm.yaml', text, looking });
  let state: SheetState = emptyState;
  const told: string[] = [];
  const run: typeof runParts = async ({ task, chunks }, { signal, onProgress }) => {
    const results: unknown[] = [];
    for (const [id, chunk] of chunks.entries()) {
      if (id === 10) await gate;
      signal?.throwIfAborted();
      if (id === broken) throw new RangeError('a part is broken');
      const answer = answerTo({ id, task, chunk });
      if ('failed' in answer) throw new Error(answer.failed.message);
      results.push(answer.result);
      onProgress?.(results.length, chunks.length);
    }
    return results;
  };
  const ask = async <K extends RequestKind>(kind: K, asked: Requests[K]['ask']) =>
    (desk[kind] as (each: Requests[K]['ask']) => Requests[K]['answer'])(asked);
  const works = new Works(
    { ask },
    (change) => {
      state = { ...state, ...change(state) };
      told.push(state.works[key]?.says ?? '');
    },
    { run },
  );
  const change = (): void => {
    works.textChanged();
    desk.read({ file: 'm.yaml', text: text.replace('3 µm', '5 µm'), looking });
  };
  const count = () => state.tables[key]?.rows[0]?.[1]?.text;
  return { works, desk, told, change, count, state: () => state.works[key] };
}

describe('long work of the sheet', () => {
  it('tells how far it is, then makes its table, of which the numbers are explained', async () => {
    const { works, desk, told, count, state } = opened();
    await works.start('marks.eye', work, '20 000', '4');
    expect(told.slice(0, 3)).toEqual(['begins', '400 of 20 000 trials, 2 %', '800 of 20 000 trials, 4 %']);
    expect([state(), count()]).toEqual([{ kind: 'done', says: '20 000 trials are done.' }, '20000']);
    expect(desk.table({ address: 'marks.eye', name: 'trials' })!.rows[0]![1]).toMatchObject({ text: '20000' });
    const note = desk.explain({ address: 'marks.trials.deviation@eye' })!;
    expect(note.step!.inputs.find(({ symbol }) => symbol === 's')!.values[0]).toMatchObject({
      value: 4,
      told: 'given',
    });
  });

  it('of a text that has changed since is said to be, and the table is that of the new text', async () => {
    const { works, desk, change, state } = opened();
    await works.start('marks.eye', work, '20000', '1');
    change();
    expect(state()).toMatchObject({ kind: 'stopped', says: expect.stringContaining('The file has changed since') });
    expect(desk.table({ address: 'marks.eye', name: 'trials' })!.rows[0]![1]).toMatchObject({ text: '200000' });
  });

  it('is stopped by an edit, and never told of the text after it', async () => {
    let open = (): void => undefined;
    const gate = new Promise<void>((resolve) => {
      open = resolve;
    });
    const { works, change, count, state } = opened({ gate });
    const run = works.start('marks.eye', work, '20000', '1');
    await Promise.resolve();
    change();
    open();
    await run;
    expect(state()).toEqual({ kind: 'stopped', says: 'Stopped (the file has changed): 4 000 of 20 000 trials, 20 %.' });
    expect(count()).toBeUndefined();
  });

  it('is refused by a desk that has another text by now, whatever the page thinks', () => {
    const { desk, change } = opened();
    const job = desk.work({ address: 'marks.eye', name: 'trials', count: '20000', seed: '1' });
    if (job === undefined || 'refused' in job) throw new Error('no job');
    change();
    expect(desk.merge({ id: job.id, results: [] })).toMatchObject({ refused: expect.stringContaining('changed') });
  });

  it('ends the run before it of the same name', async () => {
    const { works, count, told } = opened();
    const first = works.start('marks.eye', work, '1e6', '1');
    await works.start('marks.eye', work, '30000', '1');
    await first;
    expect([count(), told.at(-1)]).toEqual(['30000', '30 000 trials are done.']);
  });

  it('says what is wrong with a part and goes on as before; what was there stays', async () => {
    const { works, count, state } = opened({ broken: 7 });
    await works.start('marks.eye', work, '20000', '1');
    expect(state()).toEqual({ kind: 'failed', says: 'It failed: a part is broken' });
    expect(count()).toBeUndefined();
    await works.start('marks.eye', work, '12', '1');
    expect(state()).toMatchObject({ kind: 'refused', says: expect.stringContaining('from 10 000') });
    await works.start('marks.nobody', work, '20000', '1');
  });
});

describe('racks chosen by a solver of the page', () => {
  const racks = `layshaft: 1
machine: { name: Try }
catalogue: [demonstration]
controller: controller_m
racks: open
points:
  a_[1..8]: { kind: digital_in }
  b_[1..8]: { kind: digital_out, current: 0.2 A }
`;
  const choosing = { name: 'chosen_racks', title: 'Choose', oneMore: { name: 'one_more', title: 'One more' } };
  const cost = { what: 'racks', prefer: 'cost' } as const;
  const solved: Solve = async (model, options) => {
    options?.onProgress?.(undefined, 12);
    options?.onProgress?.(500, 12);
    return solveHere(model, options);
  };
  /** Never answers, and ends when it is told to. */
  const endless: Solve = (_, options) =>
    new Promise((resolve, reject) => {
      options?.signal?.addEventListener('abort', () => reject(options.signal?.reason));
      options?.enough?.addEventListener('abort', () => resolve({ status: 'nothing found' }));
    });

  function openedRacks(solve: Solve) {
    const desk = openDesk();
    const read = (text: string) => desk.read({ file: 'm.yaml', text, looking });
    read(racks);
    let state: SheetState = emptyState;
    const told: string[] = [];
    const works = new Works(
      {
        ask: async <K extends RequestKind>(kind: K, asked: Requests[K]['ask']) =>
          (desk[kind] as (each: Requests[K]['ask']) => Requests[K]['answer'])(asked),
      },
      (change) => {
        state = { ...state, ...change(state) };
        told.push(state.works['racks chosen_racks']?.says ?? '');
      },
      { solve },
    );
    const edit = (): void => {
      works.textChanged();
      read(racks.replace('0.2 A', '0.3 A'));
    };
    const of = (name: string) => ({ state: state.works[`racks ${name}`], table: state.tables[`racks ${name}`] });
    return { works, told, edit, of };
  }

  it('tell the best and the bound as they come, then are there to be taken', async () => {
    const { works, told, of } = openedRacks(solved);
    await works.choose('racks', choosing, cost, 60);
    expect(told.slice(1, 5)).toEqual([
      'begins',
      'main',
      'main: none is below 12',
      'main: the best so far has a cost of 500, none is below 12',
    ]);
    expect(of('chosen_racks').state).toMatchObject({ kind: 'done', says: expect.stringContaining('16 points') });
    expect(of('chosen_racks').table!.takesAll).toHaveLength(17);
    await works.choose('racks', choosing, { what: 'one more' });
    expect(of('one_more').table!.rows).toHaveLength(2);
    // Another choice makes what was asked beside the first one void.
    await works.choose('racks', choosing, { ...cost, prefer: 'width' });
    expect([of('one_more'), of('chosen_racks').table!.title]).toEqual([
      { state: undefined, table: undefined },
      'Racks of the least width',
    ]);
  });

  it('are stopped by whoever asked, by an edit and by the next', async () => {
    const { works, edit, of } = openedRacks(endless);
    const [first, second] = [works.choose('racks', choosing, cost), works.choose('racks', choosing, cost)];
    await first;
    expect(of('chosen_racks').state?.kind).toBe('runs');
    works.stop('racks', 'chosen_racks');
    await second;
    expect(of('chosen_racks')).toEqual({
      state: { kind: 'refused', says: 'Nothing was found for main before the search ended; it stays open.' },
      table: undefined,
    });
    const third = works.choose('racks', choosing, cost);
    edit();
    await third;
    expect(of('chosen_racks').state).toMatchObject({ says: expect.stringContaining('the file has changed') });
  });

  it('that are stopped by hand are the best so far, to be taken, with their gap', async () => {
    const { works, of } = openedRacks(
      (model, options) =>
        new Promise((resolve) => {
          options?.enough?.addEventListener('abort', async () => {
            const best = await solveHere(model);
            if (best.status === 'optimal') resolve({ ...best, status: 'stopped', bound: best.cost / 2 });
          });
        }),
    );
    const chosen = works.choose('racks', choosing, cost);
    await expect.poll(() => of('chosen_racks').state?.says).toBe('main');
    works.stop('racks', 'chosen_racks');
    await chosen;
    expect(of('chosen_racks').state).toMatchObject({ kind: 'done', says: expect.stringContaining('a gap of 50 %') });
    expect(of('chosen_racks').table!.takesAll).toHaveLength(17);
  });

  it('of a text that has changed since are said to be', async () => {
    const { works, edit, of } = openedRacks(solved);
    await works.choose('racks', choosing, cost);
    edit();
    expect(of('chosen_racks').state).toMatchObject({
      kind: 'stopped',
      says: expect.stringContaining('has changed since'),
    });
  });

  it('say that the solver failed, and can be asked again', async () => {
    let broken = true;
    const { works, of } = openedRacks((model, options) => {
      if (broken) return Promise.reject(new Error('The solver could not be started.'));
      return solved(model, options);
    });
    await works.choose('racks', choosing, cost);
    expect(of('chosen_racks').state).toEqual({ kind: 'failed', says: 'It failed: The solver could not be started.' });
    broken = false;
    await works.choose('racks', choosing, cost);
    expect(of('chosen_racks').state?.kind).toBe('done');
  });
});
