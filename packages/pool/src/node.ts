// The pool in Node: threads of worker_threads that run `node-worker.ts`, bundled into a file of its own.
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import { type RunOptions, runOn, type Thread } from './run-on.ts';
import type { ChunkOf, ResultOf, TaskName } from './tasks.ts';

export interface NodeOptions extends RunOptions {
  /** The bundle of `node-worker.ts`. */
  readonly script: URL;
  /** As many as the machine runs at once where nothing is said. */
  readonly threads?: number | undefined;
}

/** See `runOn`. */
export async function runInNode<K extends TaskName>(
  task: K,
  chunks: readonly ChunkOf<K>[],
  { script, threads = availableParallelism(), ...options }: NodeOptions,
): Promise<readonly ResultOf<K>[]> {
  const count = Math.min(threads, chunks.length);
  return runOn(
    Array.from({ length: count }, () => threadOf(new Worker(script))),
    task,
    chunks,
    options,
  );
}

export type { ResultOf } from './tasks.ts';

const threadOf = (worker: Worker): Thread => ({
  ask: (ask) => worker.postMessage(ask),
  onAnswer: (take) => worker.on('message', take),
  onDeath: (take) => {
    worker.on('error', take);
    worker.on('exit', (code) => take(new Error(`A thread ended with ${code} before its work was done.`)));
  },
  end: () => worker.terminate(),
});
