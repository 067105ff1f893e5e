/// <reference lib="dom" />
// Long work in a real browser: the same bits on any number of threads as in Node, and what a person sees of it on the sheet.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { demonstration } from '@layshaft/catalogue';
import { assess, cellJson, read, resolve, show, type Table } from '@layshaft/core';
import { mergeTrials, runTrials, splitTrials, type TrialJob } from '@layshaft/core/kernels';
import { answerTo } from '@layshaft/pool/serve';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { openPage, type ServedFolder, serveExamples, startBrowser } from './support/browser.ts';
import { openPoolPage } from './support/pool-page.ts';

const soon = <T>(what: () => T | Promise<T>) => expect.poll(what, { timeout: 20_000, interval: 25 });

let browser: Browser;
beforeAll(async () => {
  browser = await startBrowser();
});
afterAll(() => browser.close());

const contributions: TrialJob['contributions'] = [
  { name: 'a', sensitivity: 1, spread: { shape: 'normal', deviation: 2 } },
  { name: 'b', sensitivity: 1, spread: { shape: 'rectangular', halfWidth: 1 } },
  { name: 'c', sensitivity: -2, spread: { shape: 'triangular', halfWidth: 1 } },
  { name: 'd', sensitivity: 0.5, spread: { shape: 'arcsine', halfWidth: 3 } },
  { name: 'e', sensitivity: 1, spread: { shape: 'sample', values: [1, 2, 4], of: 'one' } },
];
it('Chromium gives trials the same bits with one thread, two and three, and those of Node', async () => {
  const { page, outcomeOf } = await openPoolPage(browser);
  const job = { trials: 300_000, seed: 5, contributions };
  const here = mergeTrials(splitTrials(job)!.map(runTrials), 0.95);
  expect(here.shortest).toBeDefined();
  for (const threads of [1, 2, 3]) {
    expect(await outcomeOf(job, threads), `${threads} threads`).toEqual(here);
    expect(page.workers(), 'all threads have ended').toHaveLength(0);
  }
  await page.close();
});

describe('every distribution, from the text of a file on', () => {
  const asked = { count: 200_000, seed: 3 };
  it.each([
    ['normal', 'spread: { x: 3 µm }'],
    ['rectangular', 'spread: { x: { rectangular: 7 µm } }'],
    ['triangular', 'spread: { x: { triangular: 7 µm } }'],
    ['arcsine', 'spread: { x: { arcsine: 7 µm } }'],
    ['sample', 'spread: { x: { sample: [1 µm, 2.3 µm, 7 µm] } }'],
    ['mean of a sample', 'spread: { x: { sample: [1 µm, 2.3 µm, 7 µm], of: mean } }'],
    ['Student, few degrees', 'spread: { x: { normal: 3 µm, degrees: 1.5 } }'],
    ['Student, many degrees', 'spread: { x: { normal: 3 µm, degrees: 40 }, y: { normal: 1 µm, degrees: 7 } }'],
    ['correlated', 'spread: { x: 3 µm, y: 5 µm, z: 4 µm }, correlation: [[x, y, 0.7], [y, z, -0.3]]'],
    ['askew', 'skew: { over: 2 m, angle: 0.3°, spread: 0.4° }, spread: { x: { normal: 3 µm, degrees: 9 } }'],
    [
      'what the speed, a roll and a web make lengths',
      `speed: 3.3 m/s, length: 0.31 m, capture: { stamped: 0.7 µs, sample: 1.1 ms, acceleration: 7 m/s² },
      roll: { diameter: 97 mm, eccentricity: 15 µm, expansion: 11.7 ppm, temperature: 9 K, slip: 0.03 % },
      web: { between: 2.1 m, tension: 7 N, width: 0.41 m, thickness: 91 µm, modulus: 2100 N/mm² }`,
    ],
    [
      'products',
      'spread: { x: 3 µm, y: 5 µm, z: { arcsine: 4 µm } }, correlation: [[x, y, 0.7]], products: [[x, y, 9 µm], [z, z, 7 µm]]',
    ],
    ['far askew', 'skew: { over: 2 m, angle: 80°, spread: 50° }, spread: { x: { triangular: 3 µm } }'],
  ])('%s: Chromium draws the bits of Node', async (_, mark) => {
    const text = `layshaft: 1\nmarks: { a: { tolerance: 1 mm, ${mark} } }\n`;
    const job = show(assess(resolve(read(text), [])), 'marks.a')[0]!.works![0]!.job(asked);
    if (!('merge' in job)) throw new Error('no trials');
    const { task, chunks, merge } = job;
    const { rows } = merge(chunks.map((chunk, id) => (answerTo({ id, task, chunk }) as { result: unknown }).result));
    const here = rows.flat().flatMap((cell) => {
      const told = cellJson(cell);
      return 'value' in told ? [told.value] : [];
    });
    expect(here.length).toBeGreaterThan(5);
    const { page, trialsOf } = await openPoolPage(browser);
    expect(await trialsOf(text, asked, 2)).toEqual(here);
    await page.close();
  });
});

describe('many trials on the sheet', () => {
  let folder: ServedFolder;
  let page: Page;
  let errors: string[];
  beforeEach(async () => {
    folder = await serveExamples('eye', 'stations');
    ({ page, errors } = await openPage(browser, folder, 'eye.yaml'));
  });
  afterEach(async () => {
    await page.context().close();
    await folder.remove();
    expect(errors).toEqual([]);
  });

  const view = (of = 'eye') => page.locator(`[data-view="marks.${of}"]`);
  const long = (of = 'eye') => view(of).locator('[data-work="trials"]');
  const became = (of = 'eye') => long(of).locator('[role="status"]').textContent();
  const opened = async (of = 'eye'): Promise<void> => {
    await view(of).locator('.later button', { hasText: 'Trials beside the budget' }).click();
    await long(of).waitFor();
  };
  const start = async (count: string, seed = '1', of = 'eye'): Promise<void> => {
    await long(of).getByLabel('trials', { exact: true }).fill(count);
    await long(of).getByLabel('seed').fill(seed);
    await long(of).getByRole('button').click();
  };
  /** Without the worker with the computing library. */
  const threads = (): number => page.workers().filter((each) => each.url().includes('/thread-')).length;
  const cells = (of = 'eye') => view(of).locator('[data-table="trials"] tbody td').allTextContents();

  /** The table of so many trials as Node makes it. */
  const tableOf = (count: number, seed: number): Table => {
    const assessment = assess(resolve(read(folder.read('eye.yaml')), [demonstration()]));
    const job = show(assessment, 'marks.eye')[0]!.works![0]!.job({ count, seed });
    if (!('merge' in job)) throw new Error('no trials');
    const { task, chunks, merge } = job;
    return merge(chunks.map((chunk, id) => (answerTo({ id, task, chunk }) as { result: unknown }).result));
  };
  const violations = async (): Promise<readonly string[]> => {
    const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
    const found = await page.evaluate(`${axe}; axe.run(document, { resultTypes: ['violations'] })`);
    return (found as { violations: { id: string }[] }).violations.map(({ id }) => id);
  };

  it('stand in the table of the few, with the numbers of Node, and explain themselves', async () => {
    await opened();
    const few = await cells();
    await start('1e6', '3');
    await soon(() => became()).toBe('1 000 000 trials are done.');
    const { rows } = tableOf(1_000_000, 3);
    expect(await cells()).toEqual(rows.flatMap((row) => row.slice(1).map((cell) => cellJson(cell).text)));
    expect(await cells()).not.toEqual(few);
    await view().locator('[data-address="marks.trials.deviation@eye"]').click();
    const note = page.locator('.note');
    await soon(() => note.locator('[data-address="marks.eye.trials.count"]').textContent()).toBe('1000000');
    expect(await note.locator('[data-address="marks.eye.trials.seed"]').textContent()).toBe('3');
    await soon(threads).toBe(0);
    // Closed and opened again they are still there; after an edit the few are, and it is said why.
    await page.keyboard.press('Escape');
    const many = await cells();
    const title = view().locator('.later button', { hasText: 'Trials beside the budget' });
    await title.click();
    await title.click();
    await soon(() => cells()).toEqual(many);
    folder.write('eye.yaml', folder.read('eye.yaml').replace('encoder: 8 µm', 'encoder: 9 µm'));
    await soon(() => became()).toContain('The file has changed since');
    await soon(async () => (await cells())[0]).toBe('200000');
  });

  it('are started and stopped with the keyboard, and the threads end with them', async () => {
    await opened();
    await long().getByLabel('trials', { exact: true }).fill('1e9');
    await page.keyboard.press('Enter');
    await soon(threads).toBeGreaterThan(0);
    await soon(() => long().locator('.far').textContent()).toMatch(/^[\d ]+ of 1 000 000 000 trials, \d+ %$/);
    expect(await long().getByRole('progressbar').getAttribute('aria-label')).toBe(
      'Many more trials, Mark eye: how far',
    );
    expect(await violations()).toEqual([]);
    await page.locator('.acts button', { hasText: 'Dark' }).click();
    expect(await violations()).toEqual([]);
    const few = await cells();
    await long().getByRole('button', { name: 'Stop' }).focus();
    await page.keyboard.press('Enter');
    await soon(() => became()).toMatch(/^Stopped \(as you said\): [\d ]+ of 1 000 000 000 trials, \d+ %\.$/);
    await soon(threads).toBe(0);
    expect(await cells()).toEqual(few);
    expect(await violations()).toEqual([]);
  });

  it('are stopped by an edit of the file, and by another file', async () => {
    await opened();
    await start('1e9');
    await soon(threads).toBeGreaterThan(0);
    await page.locator('.cm-line', { hasText: 'encoder: 8 µm' }).click();
    await page.keyboard.press('End');
    await page.keyboard.type(' # as bought');
    await soon(() => became()).toContain('Stopped (the file has changed)');
    await soon(threads).toBe(0);
    await start('1e9');
    await soon(threads).toBeGreaterThan(0);
    await page.goto(`${folder.url}/#/stations.yaml`);
    await soon(() => page.locator('[data-view="networks.drives"]').count()).toBe(1);
    await soon(threads).toBe(0);
  });

  it('run for two marks at once, each with its own numbers', async () => {
    await opened('eye');
    await opened('other');
    await start('1e9', '1', 'eye');
    await start('1e6', '2', 'other');
    await soon(() => became('other')).toBe('1 000 000 trials are done.');
    expect([(await cells('eye'))[0], (await cells('other'))[0]]).toEqual(['200000', '1000000']);
    expect(await became('eye')).toBe('It runs.');
    expect(await violations()).toEqual([]);
    await long('eye').getByRole('button', { name: 'Stop' }).click();
    await soon(() => became('eye')).toContain('Stopped (as you said)');
    expect(await became('other')).toBe('1 000 000 trials are done.');
  });

  it('that cannot be are refused, with what can', async () => {
    await opened();
    await start('12');
    await soon(() => became()).toBe('The number of trials is a whole one from 10 000 to 1 000 000 000.');
    await start('1e6', '-1');
    await soon(() => became()).toBe('A seed is a whole number from 0 to 4 294 967 295.');
    expect(await violations()).toEqual([]);
  });

  it('that fail in a part say so, and all else stays as it was', async () => {
    await page.context().close();
    // From the cache of the page no script can be put aside.
    ({ page, errors } = await openPage(browser, folder, 'eye.yaml', { serviceWorkers: 'block' }));
    await page.route('**/assets/thread-*.js', (route) =>
      route.fulfill({
        contentType: 'text/javascript',
        headers: { 'Cross-Origin-Embedder-Policy': 'require-corp' },
        body: `self.onmessage = ({ data: { id } }) => postMessage(
          id < 3 ? { id, result: {} } : { id, failed: { name: 'RangeError', message: 'a part is broken' } });`,
      }),
    );
    await opened();
    const few = await cells();
    await start('1e6');
    await soon(() => became()).toBe('It failed: a part is broken');
    await soon(threads).toBe(0);
    expect(await cells()).toEqual(few);
    expect(await page.locator('.save').textContent()).toBe('on disk');
    expect(await violations()).toEqual([]);
  });

  it('run while the server is away', async () => {
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await page.reload();
    await page.locator('.line').first().waitFor();
    await folder.kill();
    await page.reload();
    await opened();
    await start('1e6');
    await soon(() => became()).toBe('1 000 000 trials are done.');
  });
});
