/// <reference lib="webworker" />
// The worker of the page that asks the solver; it must stay awake while the solver works.
import type { LinearModel } from '@layshaft/core/linear-model';
import { solverInBrowser } from '@layshaft/solver/browser';

export interface Asked {
  readonly model: LinearModel;
  /** Cancelled when so much progress was told. */
  readonly cancelAt?: number;
}

const solve = solverInBrowser();

self.onmessage = async ({ data: { model, cancelAt } }: MessageEvent<Asked>) => {
  const stop = new AbortController();
  let [told, beats] = [0, 0];
  const heart = setInterval(() => beats++, 10);
  const onProgress = (): void => {
    told++;
    if (told === cancelAt) stop.abort(new Error('cancelled'));
  };
  const answer = await solve(model, { signal: stop.signal, onProgress }).catch((error: unknown) => String(error));
  clearInterval(heart);
  self.postMessage({ answer, told, beats });
};
