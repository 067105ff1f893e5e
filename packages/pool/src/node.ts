// Threads of Node.
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { Host } from './run-chunks.ts';
import type { Answer } from './work.ts';

/** `script` is the bundled node-worker.ts; as many threads as the computer runs at once unless said. */
export function nodeHost(script: URL, threads: number = availableParallelism()): Host {
  return {
    threads,
    start: (listener) => {
      const worker = new Worker(script);
      let stopped = false;
      worker.on('message', (answer: Answer) => listener.answer(answer));
      worker.on('error', (error) => listener.fail(error instanceof Error ? error.message : String(error)));
      worker.on('exit', (code) => {
        if (!stopped) listener.fail(`a thread ended by itself, with ${code}`);
      });
      return {
        send: (task) => worker.postMessage(task),
        stop: () => {
          stopped = true;
          void worker.terminate();
        },
      };
    },
  };
}
