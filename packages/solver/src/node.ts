// The solver in Node: a thread of worker_threads, so that the program stays awake and can be stopped while it works.
import { Worker } from 'node:worker_threads';
import type { Solve } from '@layshaft/core/linear-model';
import type { Answer } from './serve.ts';
import { type Listener, solveOn, type Thread } from './solve-on.ts';

export interface NodeOptions {
  /** The bundle of `node-worker.ts`, with highs.wasm beside it. */
  readonly script: URL;
}

/** Nothing is loaded before the first question; a thread that waits for the next keeps no program from ending. */
export const solverInNode = ({ script }: NodeOptions): Solve =>
  solveOn((listener) => threadOf(new Worker(script), listener));

function threadOf(worker: Worker, { onAnswer, onDeath }: Listener): Thread {
  worker.on('message', (answer: Answer) => {
    if ('solution' in answer) worker.unref();
    onAnswer(answer);
  });
  worker.on('error', onDeath);
  worker.on('exit', (code) => onDeath(new Error(`The solver's thread ended with ${code} before its work was done.`)));
  return {
    ask: (ask) => {
      worker.ref();
      worker.postMessage(ask);
    },
    end: () => void worker.terminate(),
  };
}
