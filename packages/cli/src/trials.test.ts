// layshaft trials: the table, what is told while it runs, how it is stopped, and what is said to those who ask wrongly.
import { spawn } from 'node:child_process';
import { EventEmitter, once } from 'node:events';
import { join } from 'node:path';
import { answerTo } from '@layshaft/pool/serve';
import { beforeAll, describe, expect, it } from 'vitest';
import { build } from '../../../tools/build.mjs';
import { layshaft as inWorld, type World } from './fake-io.ts';
import type { Io } from './io.ts';

const machine = `layshaft: 1
marks: { eye: { tolerance: 1 mm, spread: { x: { rectangular: 10 µm }, y: 4 µm } }, other: { tolerance: 1 mm, spread: { x: 1 µm } },
  tied: { correlation: [[x, y, 0.5]], spread: { x: { rectangular: 10 µm }, y: 4 µm } }, bare: { tolerance: 1 mm } }
`;
const never = new Promise<never>(() => undefined);

/** Parts one after the other, each as a thread does it; a stop is seen between two. */
const runHere: Io['runParts'] = async ({ task, chunks }, { onProgress, signal }) => {
  const results: unknown[] = [];
  for (const [id, chunk] of chunks.entries()) {
    await Promise.resolve();
    signal.throwIfAborted();
    const answer = answerTo({ id, task, chunk });
    if ('failed' in answer) throw new Error(answer.failed.message);
    results.push(answer.result);
    onProgress(results.length, chunks.length);
  }
  return results;
};
const layshaft = (line: string, world: World = {}) =>
  inWorld(line, { files: { 'm.yaml': machine }, runParts: runHere, interrupted: never, ...world });

describe('layshaft trials', () => {
  it('prints what layshaft show prints, for as many trials of the same seed', async () => {
    const rows = (out: string) => out.split('\n').filter((line) => /µm|marks\./.test(line));
    const few = await layshaft('show m.yaml marks.eye --table trials --addresses');
    const many = await layshaft('trials m.yaml marks.eye --trials 200000 --addresses');
    expect(many.status).toBe(0);
    const toMark = (line: string) => line.replace('marks.eye.trials', 'marks.trials');
    expect(rows(many.out).map(toMark)).toEqual(rows(few.out));
    expect(rows(few.out).length).toBeGreaterThan(12);
    expect((await layshaft('trials m.yaml marks.eye --trials 2e5 --seed 2')).out).not.toBe(
      (await layshaft('trials m.yaml marks.eye --trials 2e5 --seed 1')).out,
    );
  });

  it('tells how far it is where somebody watches, and nothing where nobody does', async () => {
    const { err } = await layshaft('trials m.yaml marks.eye --trials 20000', { terminal: 80 });
    const told = err.split('\r\x1b[K');
    expect(told.slice(0, 3)).toEqual(['', '0 of 20 000 trials, 0 %', '400 of 20 000 trials, 2 %']);
    expect(told.slice(-2)).toEqual(['20 000 of 20 000 trials, 100 %', '']);
    expect((await layshaft('trials m.yaml marks.eye --trials 20000')).err).toBe('');
    const dumb = await layshaft('trials m.yaml marks.eye --trials 20000', { terminal: 80, env: { TERM: 'dumb' } });
    expect(dumb.err).toBe('');
  });

  it('stops when the user ends it, and says how much was done', async () => {
    const halfway = new EventEmitter();
    const slow: Io['runParts'] = (job, options) =>
      runHere(job, {
        ...options,
        onProgress: (done, all) => {
          options.onProgress(done, all);
          if (done === 20) halfway.emit('reached');
        },
      });
    const { status, out, err } = await layshaft('trials m.yaml marks.eye --trials 20000', {
      runParts: slow,
      interrupted: once(halfway, 'reached').then(() => undefined),
    });
    expect([status, out]).toEqual([130, '']);
    expect(err).toMatch(/^Stopped after [\d ]+ of 20 000 trials, 4\d %\. Nothing is printed for a part of a run\.\n$/);
  });

  it('hands on what goes wrong in a part', async () => {
    const broken: Io['runParts'] = async () => {
      throw new Error('a part is broken');
    };
    await expect(layshaft('trials m.yaml marks.eye --trials 20000', { runParts: broken })).rejects.toThrow(
      'a part is broken',
    );
  });

  it.each([
    [
      'marks.eye --trials 12',
      '--trials 12 cannot be done. The number of trials is a whole one from 10 000 to 1 000 000 000.',
    ],
    ['marks.eye --trials 1e10', '--trials 1e10 cannot be done.'],
    ['marks.eye --seed -1', '--seed -1 cannot be done. A seed is a whole number from 0 to 4 294 967 295.'],
    ['marks.eye --threads 0', 'Write a whole number from 1 to 256.'],
    ['marks', 'There are several at marks. Give the address of one: marks.eye, marks.other, marks.tied.'],
    ['marks.bare', 'marks.bare has no trials. Give one of: marks.eye, marks.other, marks.tied.'],
    ['marks.eyes', 'Nothing is shown at marks.eyes. Did you mean marks.eye?'],
    ['marks.tied', 'marks.tied can have no trials: marks.tied.correlation has a problem: correlations among normal'],
  ])('says to %s what can be asked', async (line, said) => {
    const { status, out, err } = await layshaft(`trials m.yaml ${line}`);
    expect([status, out]).toEqual([2, '']);
    expect(err).toContain(said);
  });
});

it('says who has trials where nobody has', async () => {
  const { status, err } = await layshaft('trials n.yaml tasks.a', {
    files: { 'n.yaml': 'layshaft: 1\ntasks: { a: { every: 10 ms, takes: 1 ms, priority: 1 } }\n' },
  });
  expect([status, err]).toEqual([2, 'Nothing in this file has trials: a mark whose budget is known has.\n']);
});

describe('the built command', () => {
  beforeAll(async () => void (await build()));
  const started = (...args: readonly string[]) => {
    const command = join(process.cwd(), 'packages/cli/bin/layshaft.js');
    const child = spawn(process.execPath, [command, 'trials', '-', 'marks.eye', '--addresses', ...args]);
    child.stdin.end(machine);
    return child;
  };
  const ended = (child: ReturnType<typeof started>) => {
    const said = { out: '', err: '' };
    child.stdout.on('data', (chunk) => {
      said.out += chunk;
    });
    child.stderr.on('data', (chunk) => {
      said.err += chunk;
    });
    return new Promise<{ status: number | null; out: string; err: string }>((resolve) =>
      child.on('close', (status) => resolve({ status, ...said })),
    );
  };

  it('prints the same with one thread, two and three', async () => {
    const outcomes = await Promise.all(
      ['1', '2', '3'].map((threads) => ended(started('--trials', '100000', '--json', '--threads', threads))),
    );
    expect(outcomes[0]!.out).toContain('"value": 100000');
    for (const outcome of outcomes) expect(outcome).toEqual({ ...outcomes[0]!, status: 0, err: '' });
  });

  it('is ended by Ctrl+C, with its threads, long before it is done', async () => {
    const child = started('--trials', '1e9', '--threads', '2');
    const end = ended(child);
    setTimeout(() => child.kill('SIGINT'), 4000);
    const { status, out, err } = await end;
    expect([status, out]).toEqual([130, '']);
    expect(err).toMatch(/^Stopped after [\d ]+ of 1 000 000 000 trials, \d+ %\./);
  });
});
