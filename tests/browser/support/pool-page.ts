/// <reference lib="dom" />
// An empty page with the pool and nothing else: trials on so many threads of the browser.
import { fileURLToPath } from 'node:url';
import type { Outcome, TrialJob } from '@layshaft/core/kernels';
import { build } from 'esbuild';
import type { Browser, Page } from 'playwright-core';

const root = fileURLToPath(new URL('../../..', import.meta.url));

export interface PoolPage {
  readonly page: Page;
  readonly outcomeOf: (job: TrialJob, threads: number) => Promise<Outcome>;
}

export async function openPoolPage(browser: Browser): Promise<PoolPage> {
  const page = await browser.newPage();
  const script = await bundled("import '@layshaft/pool/browser-worker';");
  await page.addScriptTag({
    content: await bundled(`import { mergeTrials, splitTrials } from '@layshaft/core/kernels';
      import { runInBrowser } from '@layshaft/pool/browser';
      const script = URL.createObjectURL(new Blob([${JSON.stringify(script)}]));
      const makeWorker = () => new Worker(script);
      window.outcomeOf = async (job, threads) =>
        mergeTrials(await runInBrowser('trials', splitTrials(job), { makeWorker, threads }), 0.95);`),
  });
  return {
    page,
    outcomeOf: (job, threads) =>
      page.evaluate(([asked, count]) => (globalThis as never as Pick<PoolPage, 'outcomeOf'>).outcomeOf(asked, count), [
        job,
        threads,
      ] as const),
  };
}

async function bundled(contents: string): Promise<string> {
  const { outputFiles } = await build({
    stdin: { contents, resolveDir: root },
    bundle: true,
    write: false,
    format: 'iife',
    platform: 'browser',
    logLevel: 'silent',
  });
  return outputFiles[0]!.text;
}
