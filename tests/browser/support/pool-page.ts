/// <reference lib="dom" />
// An empty page with the pool and nothing else: trials on so many threads of the browser.
import { fileURLToPath } from 'node:url';
import type { Asked } from '@layshaft/core';
import type { Outcome, TrialJob } from '@layshaft/core/kernels';
import { build } from 'esbuild';
import type { Browser, Page } from 'playwright-core';

const root = fileURLToPath(new URL('../../..', import.meta.url));

export interface PoolPage {
  readonly page: Page;
  readonly outcomeOf: (job: TrialJob, threads: number) => Promise<Outcome>;
  /** The numbers of many trials of the mark `a` of a file, from its text on. */
  readonly trialsOf: (text: string, asked: Asked, threads: number) => Promise<readonly number[]>;
}

export async function openPoolPage(browser: Browser): Promise<PoolPage> {
  const page = await browser.newPage();
  const script = await bundled("import '@layshaft/pool/browser-worker';");
  await page.addScriptTag({
    content: await bundled(`import { mergeTrials, splitTrials } from '@layshaft/core/kernels';
      import { runInBrowser } from '@layshaft/pool/browser';
      import { assess, cellJson, read, resolve, show } from '@layshaft/core';
      const script = URL.createObjectURL(new Blob([${JSON.stringify(script)}]));
      const makeWorker = () => new Worker(script);
      window.outcomeOf = async (job, threads) =>
        mergeTrials(await runInBrowser('trials', splitTrials(job), { makeWorker, threads }), 0.95);
      window.trialsOf = async (text, asked, threads) => {
        const { task, chunks, merge } = show(assess(resolve(read(text), [])), 'marks.a')[0].works[0].job(asked);
        const { rows } = merge(await runInBrowser(task, chunks, { makeWorker, threads }));
        return rows.flat().flatMap((cell) => cellJson(cell).value ?? []);
      };`),
  });
  type Made = Pick<PoolPage, 'outcomeOf' | 'trialsOf'>;
  return {
    page,
    outcomeOf: (job, threads) =>
      page.evaluate(([asked, count]) => (globalThis as never as Made).outcomeOf(asked, count), [job, threads] as const),
    trialsOf: (text, asked, threads) =>
      page.evaluate((all) => (globalThis as never as Made).trialsOf(...all), [text, asked, threads] as const),
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
