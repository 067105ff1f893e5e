// Hands the chunks of a job to threads, one after another, and puts the results in the order of the chunks: whatever the
// number of threads and whichever of them is quicker, the results are the same.
import type { Answer, Kind, Kinds, Task } from './work.ts';

/** A thread of the host: it answers each task that it is sent. */
export interface Thread {
  send(task: Task): void;
  /** May be called after the thread has ended by itself. */
  stop(): void;
}

export interface Listener {
  answer(answer: Answer): void;
  /** The thread itself failed: its file does not load, its memory is full. */
  fail(message: string): void;
}

export interface Host {
  readonly threads: number;
  start(listener: Listener): Thread;
}

export interface RunOptions {
  /** Is told how many of all chunks are done; called in the order in which they get done. */
  readonly progress?: (done: number, all: number) => void;
  /** Stops all threads at once; the promise then rejects with the signal's reason. */
  readonly signal?: AbortSignal;
}

/**
 * The results in the order of the chunks. Rejects with an Error that says which chunk failed, or with the reason of the
 * signal; all threads have been stopped then.
 */
export function runChunks<K extends Kind>(
  kind: K,
  chunks: readonly Kinds[K]['chunk'][],
  host: Host,
  { progress, signal }: RunOptions = {},
): Promise<readonly Kinds[K]['result'][]> {
  return new Promise((resolve, reject) => {
    const results = new Array<Kinds[K]['result']>(chunks.length);
    const threads: Thread[] = [];
    let [next, done, over] = [0, 0, false];

    const end = (finish: () => void): void => {
      if (over) return;
      over = true;
      signal?.removeEventListener('abort', cancel);
      for (const thread of threads) thread.stop();
      finish();
    };
    const cancel = (): void => end(() => reject(signal!.reason));
    const fail = (message: string): void => end(() => reject(new Error(message)));
    const feed = (thread: Thread): void => {
      if (over || next >= chunks.length) return;
      const index = next++;
      thread.send({ kind, index, chunk: chunks[index] });
    };

    if (signal?.aborted) return cancel();
    signal?.addEventListener('abort', cancel);
    if (chunks.length === 0) return end(() => resolve(results));
    const count = Math.max(1, Math.min(Math.floor(host.threads), chunks.length));
    for (let at = 0; at < count; at++) {
      const thread = host.start({
        answer: (answer) => {
          if (over) return;
          if ('failed' in answer) return fail(`chunk ${answer.index + 1} of ${chunks.length} failed: ${answer.failed}`);
          results[answer.index] = answer.result as Kinds[K]['result'];
          done++;
          progress?.(done, chunks.length);
          if (done === chunks.length) end(() => resolve(results));
          else feed(thread);
        },
        fail,
      });
      threads.push(thread);
      feed(thread);
    }
  });
}
