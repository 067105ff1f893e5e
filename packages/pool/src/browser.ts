// The pool in a browser: web workers that run `browser-worker.ts`; the page makes them in the way of its bundler.
import { type RunOptions, runOn, type Thread } from './run-on.ts';
import type { Answer } from './serve.ts';
import type { ChunkOf, ResultOf, TaskName } from './tasks.ts';

export interface BrowserOptions extends RunOptions {
  readonly makeWorker: () => Worker;
  /** As many as the machine runs at once where nothing is said. */
  readonly threads?: number | undefined;
}

/** See `runOn`. */
export async function runInBrowser<K extends TaskName>(
  task: K,
  chunks: readonly ChunkOf<K>[],
  { makeWorker, threads = navigator.hardwareConcurrency, ...options }: BrowserOptions,
): Promise<readonly ResultOf<K>[]> {
  const count = Math.min(threads, chunks.length);
  return runOn(
    Array.from({ length: count }, () => threadOf(makeWorker())),
    task,
    chunks,
    options,
  );
}

const threadOf = (worker: Worker): Thread => ({
  ask: (ask) => worker.postMessage(ask),
  onAnswer: (take) => worker.addEventListener('message', ({ data }: MessageEvent<Answer>) => take(data)),
  onDeath: (take) => {
    // A script that cannot be loaded says no more than that it failed.
    worker.addEventListener('error', ({ message }) => take(new Error(message || 'A thread could not be started.')));
    worker.addEventListener('messageerror', () => take(new Error('What a thread answered cannot be read.')));
  },
  end: () => worker.terminate(),
});
