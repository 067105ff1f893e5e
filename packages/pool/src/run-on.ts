// The asking side: hands chunks to threads as they become free, and puts the results in the order of the chunks, so that what is
// merged of them does not depend on the number of threads.
import type { Answer, Ask } from './serve.ts';
import type { ChunkOf, ResultOf, TaskName } from './tasks.ts';

/** A thread, however it is made. */
export interface Thread {
  readonly ask: (ask: Ask) => void;
  readonly onAnswer: (take: (answer: Answer) => void) => void;
  /** A thread that dies answers nothing any more. */
  readonly onDeath: (take: (error: Error) => void) => void;
  /** A promise where it takes a while until nothing runs any more. */
  readonly end: () => unknown;
}

export interface RunOptions {
  /** Is told after each chunk how many are done. */
  readonly onProgress?: ((done: number, all: number) => void) | undefined;
  /** Is given each result as it comes, by the place of its chunk: what is done when somebody stops the rest. */
  readonly onResult?: ((place: number, result: unknown) => void) | undefined;
  /** Ends the threads at once; the promise rejects with the reason of the signal. */
  readonly signal?: AbortSignal | undefined;
}

/** The results in the order of the chunks. Rejects with the first error of a chunk. In any case the threads have ended by then. */
export async function runOn<K extends TaskName>(
  threads: readonly Thread[],
  task: K,
  chunks: readonly ChunkOf<K>[],
  { onProgress, onResult, signal }: RunOptions = {},
): Promise<readonly ResultOf<K>[]> {
  const results: ResultOf<K>[] = Array(chunks.length);
  let [next, done] = [0, 0];
  let stop = (): void => undefined;
  try {
    await new Promise<void>((resolve, reject) => {
      if (signal?.aborted) return reject(signal.reason);
      if (chunks.length === 0) return resolve();
      if (threads.length === 0) return reject(new RangeError('There must be a thread at least.'));
      stop = () => reject(signal?.reason);
      signal?.addEventListener('abort', stop);
      for (const thread of threads) {
        const give = (): void => {
          if (next < chunks.length) thread.ask({ id: next, task, chunk: chunks[next++] });
        };
        thread.onDeath(reject);
        thread.onAnswer((answer) => {
          if ('failed' in answer) return reject(errorOf(answer.failed));
          results[answer.id] = answer.result as ResultOf<K>;
          done++;
          onResult?.(answer.id, answer.result);
          onProgress?.(done, chunks.length);
          if (done === chunks.length) return resolve();
          give();
        });
        give();
      }
    });
    return results;
  } finally {
    signal?.removeEventListener('abort', stop);
    await Promise.all(threads.map((thread) => thread.end()));
  }
}

function errorOf({ name, message, stack }: { name: string; message: string; stack: string | undefined }): Error {
  const error = name === 'RangeError' ? new RangeError(message) : new Error(message);
  if (stack !== undefined) error.stack = stack;
  return error;
}
