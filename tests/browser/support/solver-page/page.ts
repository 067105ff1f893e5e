/// <reference lib="dom" />
// A page that asks the solver as the sheet does: by way of a worker that computes. A test calls what it puts on the window.
import type { Asked } from './computing-worker.ts';

const computing = new Worker(new URL('./computing-worker.ts', import.meta.url), { type: 'module' });

/** Gives the solution or the message of the error, and how often the worker that computes was awake meanwhile. */
const ask = (asked: Asked): Promise<unknown> =>
  new Promise((resolve) => {
    computing.onmessage = ({ data }) => resolve(data);
    computing.postMessage(asked);
  });

await navigator.serviceWorker.register('/sw.js');
await navigator.serviceWorker.ready;
Object.assign(window, { ask });
document.title = 'ready';
