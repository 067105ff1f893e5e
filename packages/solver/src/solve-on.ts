// The asking side: one thread, started when it is first asked, that solves one model after the other. A thread that was
// cancelled or that failed is ended, and the next question starts a new one; a question that waits is cancelled in its turn.
import type { Solution, Solve } from '@layshaft/core/linear-model';
import type { Answer, Ask } from './serve.ts';

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
  const solveNow: Solve = (model, { most_s, signal, onProgress } = {}) =>
    new Promise<Solution>((resolve, reject) => {
      if (signal?.aborted) return reject(signal.reason);
      const finish = (settle: () => void): void => {
        signal?.removeEventListener('abort', cancel);
        listener = undefined;
        settle();
      };
      const fail = (error: unknown): void => {
        finish(() => reject(error));
        end();
      };
      const cancel = (): void => fail(signal?.reason);
      signal?.addEventListener('abort', cancel);
      listener = {
        onAnswer: (answer) => {
          if ('solution' in answer) finish(() => resolve(answer.solution));
          else if ('failed' in answer) fail(errorOf(answer.failed));
          else onProgress?.(answer.best, answer.bound);
        },
        onDeath: fail,
      };
      thread ??= started();
      thread.ask({ model, most_s, tells: onProgress !== undefined });
    });

  return (model, options) => {
    const mine = before.then(() => solveNow(model, options));
    before = mine.catch(() => undefined);
    return mine;
  };
}

const errorOf = ({ kind, message }: { kind: string; message: string }): Error =>
  kind === 'RangeError' ? new RangeError(message) : new Error(message);
