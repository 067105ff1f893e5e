// The asking side: one thread, started when it is first asked, that solves one model after the other. A thread that was
// cancelled or that failed is ended, and the next question starts a new one; a question that waits is cancelled in its turn.
import type { Found, Solution, Solve } from '@layshaft/core/linear-model';
import type { Answer, Ask } from './serve.ts';
import { withEarlier } from './with-earlier.ts';

/** A thread, however it is made. */
export interface Thread {
  readonly ask: (ask: Ask) => void;
  readonly end: () => void;
}

export interface Listener {
  readonly onAnswer: (answer: Answer) => void;
  /** A thread that dies answers nothing any more. */
  readonly onDeath: (error: Error) => void;
}

export function solveOn(start: (listener: Listener) => Thread): Solve {
  let thread: Thread | undefined;
  let listener: Listener | undefined;
  let before: Promise<unknown> = Promise.resolve();

  const end = (): void => {
    thread?.end();
    thread = undefined;
    listener = undefined;
  };
  const started = (): Thread => {
    const own: Thread = start({
      onAnswer: (answer) => own === thread && listener?.onAnswer(answer),
      onDeath: (error) => {
        if (own !== thread) return;
        listener?.onDeath(error);
        end();
      },
    });
    return own;
  };
  const solveNow: Solve = (model, { most_s, signal, enough, onProgress } = {}) =>
    new Promise<Solution>((resolve, reject) => {
      if (signal?.aborted) return reject(signal.reason);
      if (enough?.aborted) return resolve({ status: 'nothing found' });
      const all: Found[] = [];
      let least = -Infinity;
      const finish = (settle: () => void): void => {
        signal?.removeEventListener('abort', cancel);
        enough?.removeEventListener('abort', takeBest);
        listener = undefined;
        settle();
      };
      const fail = (error: unknown): void => {
        finish(() => reject(error));
        end();
      };
      const cancel = (): void => fail(signal?.reason);
      const takeBest = (): void => {
        const [best] = all;
        const bound = Math.min(least, best?.cost ?? 0);
        finish(() =>
          resolve(
            best === undefined
              ? { status: 'nothing found' }
              : { status: 'stopped', ...best, bound, ...withEarlier(all, best.cost) },
          ),
        );
        end();
      };
      signal?.addEventListener('abort', cancel);
      enough?.addEventListener('abort', takeBest);
      listener = {
        onAnswer: (answer) => {
          if ('solution' in answer) finish(() => resolve(answer.solution));
          else if ('failed' in answer) fail(errorOf(answer.failed));
          else if ('better' in answer) all.unshift(answer.better);
          else {
            least = answer.bound ?? least;
            onProgress?.(answer.best, answer.bound);
          }
        },
        onDeath: fail,
      };
      thread ??= started();
      thread.ask({ model, most_s, tells: (onProgress ?? enough) !== undefined, hands: enough !== undefined });
    });

  return (model, options) => {
    const mine = before.then(() => solveNow(model, options));
    before = mine.catch(() => undefined);
    return mine;
  };
}

const errorOf = ({ kind, message }: { kind: string; message: string }): Error =>
  kind === 'RangeError' ? new RangeError(message) : new Error(message);
