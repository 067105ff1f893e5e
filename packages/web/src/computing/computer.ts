// The page's end of the worker: a promise for each request.
import type { Answer, Request, RequestKind, Requests } from './protocol.ts';

export interface Computer {
  /** Rejects with an Error when the program itself is defective. */
  ask<K extends RequestKind>(kind: K, ask: Requests[K]['ask']): Promise<Requests[K]['answer']>;
}

export function startComputer(): Computer {
  const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
  const waiting = new Map<number, { resolve: (answer: never) => void; reject: (error: Error) => void }>();
  let last = 0;
  worker.addEventListener('message', ({ data }: MessageEvent<Answer>) => {
    const request = waiting.get(data.id);
    waiting.delete(data.id);
    if (data.failed === undefined) request?.resolve(data.answer as never);
    else request?.reject(new Error(data.failed));
  });
  worker.addEventListener('error', ({ message }) => {
    for (const { reject } of waiting.values()) reject(new Error(message));
    waiting.clear();
  });
  return {
    ask: (kind, ask) =>
      new Promise((resolve, reject) => {
        last++;
        waiting.set(last, { resolve, reject });
        worker.postMessage({ id: last, kind, ask } as Request);
      }),
  };
}
