// The pool in a browser: Web Workers, which the page makes of `browser-worker.ts` in the way of its bundler.
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
  onDeath: (take) => worker.addEventListener('error', ({ message }) => take(new Error(message))),
  end: () => worker.terminate(),
});
