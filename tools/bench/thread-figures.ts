// Figures of the bench about threads: the same trials on one thread and on as many as there are processors, in Node and Chromium.
import { availableParallelism } from 'node:os';
import { pathToFileURL } from 'node:url';
import { mergeTrials, type Outcome, splitTrials, type TrialJob } from '@layshaft/core/kernels';
import { runInNode } from '@layshaft/pool/node';
import { startBrowser } from '../../tests/browser/support/browser.ts';
import { openPoolPage } from '../../tests/browser/support/pool-page.ts';
import type { Figure } from './figures.ts';
import { budgetTerms } from './mark-figures.ts';
import { median, three } from './measure.ts';

const trials = 50_000_000;
const rounds = 5;
/** Of what as many threads could at best be quicker. */
const least = 0.8;

/** `script` is what a thread of Node runs. */
export async function* threadFigures(script: string): AsyncGenerator<Figure> {
  const job: TrialJob = { contributions: budgetTerms, trials, seed: 1 };
  const url = pathToFileURL(script);
  yield await scaling('Node', async (threads) =>
    mergeTrials(await runInNode('trials', splitTrials(job)!, { script: url, threads }), 0.95),
  );
  const browser = await startBrowser();
  try {
    const { outcomeOf } = await openPoolPage(browser);
    yield await scaling('headless Chromium', (threads) => outcomeOf(job, threads));
  } finally {
    await browser.close();
  }
}

/** One thread and all in turn, after once that does not count; both must come to the same bits. */
async function scaling(where: string, run: (threads: number) => Promise<Outcome>): Promise<Figure> {
  const all = availableParallelism();
  const taken = new Map<number, number[]>([
    [1, []],
    [all, []],
  ]);
  const { deviation } = await run(all);
  for (let round = 0; round < rounds; round++) {
    for (const [threads, seconds] of taken) {
      const start = performance.now();
      const outcome = await run(threads);
      seconds.push((performance.now() - start) / 1000);
      if (outcome.deviation.value !== deviation.value)
        throw new Error(`trials come to ${outcome.deviation.value} with ${threads} threads, not to ${deviation.value}`);
    }
  }
  const [one_s, all_s] = [1, all].map((threads) => median(taken.get(threads)!)) as [number, number];
  return {
    what: `${trials / 1e6} million trials of ${budgetTerms.length} terms on ${all} threads of ${where}, which start and end with them`,
    measured: `${three(all_s * 1e3)} ms`,
    baseline: 'on one thread',
    ratio: all_s / one_s,
    aim: { text: `${three(least * all)} times as quick`, kept: one_s / all_s >= least * all },
  };
}
