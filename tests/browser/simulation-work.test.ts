/// <reference lib="dom" />
// The simulation beside the noise of a network, on the sheet: started, watched, stopped, and explained, with the numbers of Node.
import { demonstration } from '@layshaft/catalogue';
import { assess, cellJson, read, resolve, show, type Table } from '@layshaft/core';
import { answerTo } from '@layshaft/pool/serve';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { openPage, type ServedFolder, serveExamples, startBrowser } from './support/browser.ts';

const soon = <T>(what: () => T | Promise<T>) => expect.poll(what, { timeout: 20_000, interval: 25 });

let browser: Browser;
beforeAll(async () => {
  browser = await startBrowser();
});
afterAll(() => browser.close());

describe('a simulation on the sheet', () => {
  let folder: ServedFolder;
  let page: Page;
  let errors: string[];
  beforeEach(async () => {
    folder = await serveExamples('labeller');
    ({ page, errors } = await openPage(browser, folder, 'labeller.yaml'));
    await long().waitFor();
  });
  afterEach(async () => {
    await page.context().close();
    await folder.remove();
    expect(errors).toEqual([]);
  });

  const view = () => page.locator('[data-view="networks.drives.noise"]');
  const long = () => view().locator('[data-work="simulation"]');
  const became = () => long().locator('[role="status"]').textContent();
  const threads = (): number => page.workers().filter((each) => each.url().includes('/thread-')).length;
  const start = async (count: string, seed: string): Promise<void> => {
    await long().getByLabel('cycles', { exact: true }).fill(count);
    await long().getByLabel('seed').fill(seed);
    await long().getByRole('button', { name: 'Start' }).click();
  };

  /** The table of so many cycles as Node makes it. */
  const tableOf = (count: number, seed: number): Table => {
    const assessment = assess(resolve(read(folder.read('labeller.yaml')), [demonstration()]));
    const job = show(assessment, 'networks.drives.noise')[0]!.works![0]!.job({ count, seed });
    if (!('merge' in job)) throw new Error('no simulation');
    const { task, chunks, merge } = job;
    return merge(chunks.map((chunk, id) => (answerTo({ id, task, chunk }) as { result: unknown }).result));
  };

  it('has the numbers of Node, and each tells how many cycles it is of, and which seed', async () => {
    expect(await long().getByLabel('cycles', { exact: true }).inputValue()).toBe('1e6');
    await start('100 000', '3');
    await soon(() => became()).toBe('100 000 cycles are done.');
    const { rows } = tableOf(100_000, 3);
    const cells = await view().locator('[data-table="simulation"] tbody td').allTextContents();
    expect(cells).toEqual(rows.flatMap((row) => row.slice(1).map((cell) => cellJson(cell).text)));
    await view().locator('[data-address="networks.simulation.lost@drives.outfeed"]').click();
    const note = page.locator('.note');
    await soon(() => note.locator('[data-address="networks.drives.simulation.cycles"]').textContent()).toBe('100000');
    expect(await note.locator('[data-address="networks.drives.simulation.seed"]').textContent()).toBe('3');
    await soon(threads).toBe(0);
  });

  it('shows how far it is, and is stopped', async () => {
    await start('1e9', '1');
    await soon(threads).toBeGreaterThan(0);
    await soon(() => long().locator('.far').textContent()).toMatch(/^[\d ]+ of 1 000 000 000 cycles, \d+ %$/);
    await long().getByRole('button', { name: 'Stop' }).click();
    await soon(() => became()).toMatch(/^Stopped \(as you said\): [\d ]+ of 1 000 000 000 cycles, \d+ %\.$/);
    await soon(threads).toBe(0);
    expect(await view().locator('[data-table="simulation"]').count()).toBe(0);
    await start('12', '1');
    await soon(() => became()).toBe('The number of cycles is a whole one from 1 000 to 1 000 000 000.');
  });
});
