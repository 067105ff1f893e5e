// The solver in the browser: a worker of its own, so that the page and the worker that asks stay quick while it works.
import type { Solve } from '@layshaft/core/linear-model';
import type { Answer } from './serve.ts';
import { type Listener, solveOn, type Thread } from './solve-on.ts';

/** Nothing is loaded before the first question. */
export const solverInBrowser = (): Solve =>
  solveOn((listener) =>
    threadOf(new Worker(new URL('./browser-worker.ts', import.meta.url), { type: 'module' }), listener),
  );

function threadOf(worker: Worker, { onAnswer, onDeath }: Listener): Thread {
  worker.onmessage = ({ data }: MessageEvent<Answer>) => onAnswer(data);
  worker.onerror = ({ message }) => onDeath(new Error(message || 'The solver could not be started.'));
  return { ask: (ask) => worker.postMessage(ask), end: () => worker.terminate() };
}
