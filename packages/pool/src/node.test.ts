// Work on threads of Node: the same results to the bit whatever the number of threads, progress, an end by signal, errors.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { mergeTrials, runTrials, splitTrials, type TrialChunk } from '@layshaft/core/kernels';
import { build } from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { nodeHost } from './node.ts';
import { type Host, runChunks } from './run-chunks.ts';

const folder = mkdtempSync(join(tmpdir(), 'layshaft-pool-'));
const script = pathToFileURL(join(folder, 'node-worker.mjs'));

beforeAll(async () => {
  await build({
    entryPoints: ['packages/pool/src/node-worker.ts'],
    outfile: join(folder, 'node-worker.mjs'),
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    logLevel: 'error',
  });
});
afterAll(() => rmSync(folder, { recursive: true }));

/** Four contributions of JCGM 101:2008, 9.2.3, all rectangular with a standard deviation of 1. */
const chunks = (trials: number, seed: number): readonly TrialChunk[] =>
  splitTrials({
    contributions: ['a', 'b', 'c', 'd'].map((name) => ({
      name,
      sensitivity: 1,
      spread: { shape: 'rectangular', halfWidth: Math.sqrt(3) },
    })),
    trials,
    seed,
  })!;

describe('chunks on threads', () => {
  it('give the same bits on one, two and three threads as without any', async () => {
    const job = chunks(300_000, 11);
    const plain = job.map(runTrials);
    for (const threads of [1, 2, 3]) {
      const results = await runChunks('trials', job, nodeHost(script, threads));
      expect(results).toEqual(plain);
    }
    const { symmetric } = mergeTrials(plain, 0.95);
    // JCGM 101:2008, 9.2.3.3: 2·√3·(2 − (3/5)^¼) = 3.8794.
    expect(Math.abs(symmetric!.most.value - 3.8794)).toBeLessThan(5 * symmetric!.most.error);
  });

  it('tell their progress one by one', async () => {
    const job = chunks(100_000, 3);
    const told: (readonly [number, number])[] = [];
    await runChunks('trials', job, nodeHost(script, 2), { progress: (done, all) => told.push([done, all]) });
    expect(told).toEqual(job.map((_, at) => [at + 1, job.length]));
  });

  it('stop at a signal, before and while they run, with its reason', async () => {
    const job = chunks(50_000_000, 4);
    const before = AbortSignal.abort(new Error('not wanted'));
    await expect(runChunks('trials', job, nodeHost(script, 2), { signal: before })).rejects.toThrow('not wanted');
    const controller = new AbortController();
    let most = 0;
    const run = runChunks('trials', job, nodeHost(script, 2), {
      signal: controller.signal,
      progress: (done) => {
        most = done;
        controller.abort(new Error('enough'));
      },
    });
    await expect(run).rejects.toThrow('enough');
    expect(most).toBe(1);
  });

  it('tell which chunk failed, and why', async () => {
    const [first, second] = chunks(100_000, 5) as [TrialChunk, TrialChunk];
    const broken = { ...second, draws: undefined } as unknown as TrialChunk;
    const run = runChunks('trials', [first, broken, first], nodeHost(script, 2));
    await expect(run).rejects.toThrow(/^chunk 2 of 3 failed: TypeError/);
  });

  it('tell of a thread that does not start or ends by itself', async () => {
    const job = chunks(10_000, 6);
    const file = join(folder, 'ends.mjs');
    writeFileSync(file, 'process.exit(3);\n');
    await expect(runChunks('trials', job, nodeHost(pathToFileURL(file), 1))).rejects.toThrow('ended by itself, with 3');
    await expect(runChunks('trials', job, nodeHost(pathToFileURL(`${file}.none`), 1))).rejects.toThrow('Cannot find');
  });

  it('need no thread where there is nothing to do', async () => {
    const none: Host = {
      threads: 2,
      start: () => {
        throw new Error('a thread was started');
      },
    };
    expect(await runChunks('trials', [], none)).toEqual([]);
  });
});
