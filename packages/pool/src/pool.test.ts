// Work on threads of Node: the same bits for any number of threads, progress, a stop, and errors that come back.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { Worker } from 'node:worker_threads';
import {
  curvedModel,
  mergeSimulation,
  mergeTrials,
  runCurvedTrials,
  type SimulationPlan,
  splitModelTrials,
  splitSimulation,
  splitTrials,
} from '@layshaft/core/kernels';
import { build } from 'esbuild';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { runInNode } from './node.ts';

let folder: string;
let script: URL;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'layshaft-pool-'));
  const outfile = join(folder, 'worker.mjs');
  const [entry] = ['packages/pool/src/node-worker.ts'];
  await build({ entryPoints: [entry!], outfile, bundle: true, format: 'esm', platform: 'node', logLevel: 'silent' });
  script = pathToFileURL(outfile);
});
afterAll(() => rmSync(folder, { recursive: true }));

const plan: SimulationPlan = {
  cycle_ps: 1e9,
  runs: 1,
  stations: [{ every: 1, tripAfter: 2 }],
  pulses: [],
  cycles: [
    {
      branches: [],
      repeatsFrom_ps: [],
      exchanges: [
        {
          stations: [0],
          behind: -1,
          hops: [{ run: 0, from_ps: 0, lasts_ps: 1e6, open_ps: 1e6, spoils: 0.01 }],
          again: [],
        },
      ],
    },
  ],
};
const chunks = splitSimulation({ plan, cycles: 200_000, seed: 9 });

describe('the pool', () => {
  it('counts the same with one thread, two and three', async () => {
    const [one, ...more] = await Promise.all(
      [1, 2, 3].map(async (threads) => mergeSimulation(await runInNode('simulation', chunks, { script, threads }))),
    );
    expect(one!.stations[0]!.lost).toBeGreaterThan(0);
    for (const other of more) expect(other).toEqual(one);
  });

  it('gives trials the same bits with one thread, two and three', async () => {
    const trials = splitTrials({
      contributions: [{ name: 'a', sensitivity: 1, spread: { shape: 'rectangular', halfWidth: 1 } }],
      trials: 100_000,
      seed: 4,
    });
    const [one, ...more] = await Promise.all(
      [1, 2, 3].map(async (threads) => mergeTrials(await runInNode('trials', trials!, { script, threads }), 0.95)),
    );
    expect(one!.deviation.value).toBeCloseTo(1 / Math.sqrt(3), 2);
    for (const other of more) expect(other).toEqual(one);
  });

  it('tells its progress, chunk by chunk', async () => {
    const told: number[] = [];
    await runInNode('simulation', chunks, { script, threads: 2, onProgress: (done) => told.push(done) });
    expect(told).toEqual(chunks.map((_, at) => at + 1));
  });

  it('stops when it is told to, before it is done', async () => {
    const stop = new AbortController();
    const run = runInNode('simulation', chunks, {
      script,
      threads: 2,
      signal: stop.signal,
      onProgress: () => stop.abort(new Error('stopped')),
    });
    await expect(run).rejects.toThrow('stopped');
    await expect(runInNode('simulation', chunks, { script, signal: stop.signal })).rejects.toThrow('stopped');
  });

  it('hands back when its threads have ended, also in the midst of a long chunk', async () => {
    const ends = vi.spyOn(Worker.prototype, 'terminate');
    const [trials] = splitTrials({
      contributions: [{ name: 'a', sensitivity: 1, spread: { shape: 'normal', deviation: 1 } }],
      trials: 1e6,
      seed: 4,
    })!;
    // Alone they would take minutes.
    const endless = [trials!, trials!].map((chunk) => ({ ...chunk, trials: 1e11 }));
    const stop = new AbortController();
    setTimeout(() => stop.abort(new Error('stopped')), 300);
    await expect(runInNode('trials', endless, { script, threads: 2, signal: stop.signal })).rejects.toThrow('stopped');
    const left = Symbol('still running');
    const codes = ends.mock.results.map(({ value }) => Promise.race([value, Promise.resolve(left)]));
    expect(await Promise.all(codes)).toEqual([1, 1]);
    ends.mockRestore();
  });

  it('runs trials of a web that runs askew and of a square, which are a model, as any thread does', async () => {
    const model = { offset: 1e-5, factors: [0, 1], askew: { length: 2, angleAt: 0 }, products: [[1, 1, 3]] } as const;
    const job = {
      trials: 50_000,
      seed: 2,
      inputs: [
        { value: 0.01, spread: { shape: 'normal', deviation: 0.003 } },
        { value: 0, spread: { shape: 'rectangular', halfWidth: 1e-5 } },
      ],
    } as const;
    const parts = splitModelTrials(job, curvedModel(model))!.map((chunk) => ({ chunk, model }));
    const here = mergeTrials(parts.map(runCurvedTrials), 0.95);
    for (const threads of [1, 3])
      expect(mergeTrials(await runInNode('curvedTrials', parts, { script, threads }), 0.95)).toEqual(here);
  });

  it('hands over the error of a chunk', async () => {
    const wrong = [{ ...chunks[0]!, plan: { ...plan, cycles: [] } }];
    await expect(runInNode('simulation', wrong, { script, threads: 1 })).rejects.toThrow(/every|undefined/);
  });

  it('says so when a thread dies', async () => {
    const nothing = pathToFileURL(join(folder, 'no-such-worker.mjs'));
    await expect(runInNode('simulation', chunks, { script: nothing, threads: 1 })).rejects.toThrow();
  });
});
