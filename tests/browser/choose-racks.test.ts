/// <reference lib="dom" />
// Racks chosen on the sheet in a real browser, as a person does it: by a solver that runs in a worker of the page.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { thousandPoints } from '../support/thousand-points.ts';
import { openPage, type ServedFolder, serveExamples, startBrowser } from './support/browser.ts';

const soon = <T>(what: () => T | Promise<T>) => expect.poll(what, { timeout: 20_000, interval: 25 });

/** So many points of so many kinds that the solver is busy for longer than the test. */
const long = `  a_[1..130]: { kind: digital_in, type: 3 }
  b_[1..90]: { kind: digital_out, current: 0.5 A }
  c_[1..60]: { kind: digital_out, current: 1.6 A }
  d_[1..40]: { kind: analogue_in, range: [4 mA, 20 mA] }
  team_[1..9]: { kind: digital_in, together: team }
  pump_[1..5]: { kind: digital_out, current: 0.4 A, apart: pumps }
  brake_[1..7]: { kind: digital_out, current: 0.2 A, potential: brakes }
`;

/** Remembers the longest time between two frames of the page. */
function watchFrames(): void {
  const watch = globalThis as unknown as { longest_ms: number };
  watch.longest_ms = 0;
  let last = performance.now();
  const look = (): void => {
    const now = performance.now();
    watch.longest_ms = Math.max(watch.longest_ms, now - last);
    last = now;
    requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
}
const longestFrame = (): number => (globalThis as unknown as { longest_ms: number }).longest_ms;

let browser: Browser;
beforeAll(async () => {
  browser = await startBrowser();
});
afterAll(() => browser.close());

describe('racks on the sheet', () => {
  let folder: ServedFolder;
  let page: Page;
  let errors: string[];
  beforeEach(async () => {
    folder = await serveExamples('open-racks');
  });
  afterEach(async () => {
    await page.context().close();
    await folder.remove();
    expect(errors).toEqual([]);
  });
  const file = () => folder.read('open-racks.yaml');
  const opened = async (text = file()): Promise<void> => {
    folder.write('open-racks.yaml', text);
    ({ page, errors } = await openPage(browser, folder, 'open-racks.yaml'));
    await form().waitFor();
  };
  const view = () => page.locator('[data-view="racks"]');
  const form = (name = 'chosen_racks') => view().locator(`[data-work="${name}"]`);
  const became = (name = 'chosen_racks') => form(name).locator('[role="status"]').textContent();
  const table = (name = 'chosen_racks') => view().locator(`[data-table="${name}"]`);
  const cells = (name = 'chosen_racks') => table(name).locator('tbody td').allTextContents();
  const start = (name = 'chosen_racks') => form(name).getByRole('button', { name: 'Start' }).click();
  const solvers = (): number => page.workers().filter((each) => each.url().includes('/browser-worker-')).length;
  /** Of twenty, one after another. */
  const longestFrame_ms = (): Promise<number> =>
    page.evaluate(async () => {
      let [longest, last] = [0, performance.now()];
      for (let nth = 0; nth < 20; nth++) {
        const now = await new Promise<number>((resolve) => requestAnimationFrame(() => resolve(performance.now())));
        longest = Math.max(longest, now - last);
        last = now;
      }
      return longest;
    });
  const violations = async (): Promise<readonly string[]> => {
    const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
    const found = await page.evaluate(`${axe}; axe.run(document, { resultTypes: ['violations'] })`);
    return (found as { violations: { id: string }[] }).violations.map(({ id }) => id);
  };

  it('are chosen at the least cost, taken as one edit, and taken back as one', async () => {
    await opened();
    const before = file();
    expect(solvers()).toBe(0);
    await start();
    await soon(() => became()).toBe(
      '16 points get their channels; points that have one stay there. It is proven that nothing has a smaller cost.',
    );
    expect(await cells()).toEqual(['rack_7', 'power_dc', 'in_20, out_12', '531', 'the same']);
    await start('one_more');
    await soon(() => became('one_more')).toBe('Each kind was tried with one more point.');
    expect(await cells('one_more')).toEqual([
      ...['digital input', '0', 'nothing: a channel is free', ''],
      ...['digital output', '0', 'nothing: a channel is free', ''],
    ]);
    expect(await violations()).toEqual([]);
    await page.locator('.acts button', { hasText: 'Dark' }).click();
    expect(await violations()).toEqual([]);
    await table().getByRole('button', { name: 'Take all of this into the file' }).click();
    await soon(() => page.locator('.notice').textContent()).toBe(
      'Taken into the file, under planned. Undo takes it back.',
    );
    await soon(file).toMatch(/\nplanned:\n {2}racks: .*\n( {2}points\.\w+\.channel: main\.\d+\.\d+\n){16}$/);
    expect(file().startsWith(before)).toBe(true);
    expect(await view().locator('.result').textContent()).toMatch(/^1 rack carries 16 points/);
    // The name of a module on the face leads to its terminals.
    await view().locator('svg [data-about="racks.main.modules.0"]').first().click();
    const module = page.locator('[data-view="racks.main.modules.0"]');
    await soon(() => module.locator('svg').textContent()).toMatch(
      /channel 1: lid_1, signal, blue 0.75 mm², from \+main-B\d+:1/,
    );
    expect(await violations()).toEqual([]);
    // Nothing is left to choose, and nothing is told of it.
    expect(await form().count()).toBe(0);
    expect(await table().count()).toBe(0);
    expect(await page.locator('.line.unknown, .line.fails').count()).toBe(0);
    expect(await violations()).toEqual([]);
    await page.locator('.acts button', { hasText: 'Undo' }).click();
    await soon(file).toBe(before);
    await form().waitFor();
  });

  it('are as narrow as can be where that is asked, with the keyboard alone', async () => {
    await opened();
    await form().getByLabel('of the least').focus();
    await page.keyboard.press('w');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await soon(() => became()).toContain('16 points get their channels');
    expect(await table().locator('caption').textContent()).toContain('Racks of the least width');
    expect((await cells()).at(-2)).toMatch(/mm$/);
  });

  it('are told how far they are, and stopped; the page stays awake, and begins anew', async () => {
    await opened(file() + long);
    await start();
    await soon(() => form().locator('.far').textContent()).toMatch(/^main: .*none is below \d+/);
    expect(await form().getByRole('progressbar').getAttribute('aria-label')).toBe('Choose racks, Racks: how far');
    expect(await violations()).toEqual([]);
    expect(solvers()).toBe(1);
    expect(await longestFrame_ms()).toBeLessThan(500);
    await soon(() => form().locator('.far').textContent()).toMatch(/^main: the best so far has a cost of \d+/);
    await form().getByRole('button', { name: 'Stop' }).click();
    // What was found by then is not lost: it can be taken, and says that it is not proven.
    await soon(() => became()).toMatch(
      /points get their channels.* At main it is not proven that nothing is better: the cost is \d+, none is below [\d.]+, a gap of [\d.]+ %\.$/,
    );
    await soon(solvers).toBe(0);
    expect(await table().getByRole('button', { name: 'Take all of this into the file' }).count()).toBe(1);
    expect(await violations()).toEqual([]);
    await start();
    await soon(solvers).toBe(1);
    // An edit stops it as well.
    await page.locator('.cm-line', { hasText: 'racks: open' }).click();
    await page.keyboard.press('End');
    await page.keyboard.type(' and more');
    await soon(() => became()).toMatch(/^Stopped \(the file has changed\): main/);
    await soon(solvers).toBe(0);
  });

  it('of a thousand points are read, chosen, taken and wired with the page awake all the time', {
    timeout: 120_000,
  }, async () => {
    await opened(thousandPoints());
    await page.evaluate(watchFrames);
    await start();
    await soon(() => form().locator('.far').textContent()).toMatch(/^s_\d \(\d of 4\)/);
    const later = (what: () => Promise<string | null>) => expect.poll(what, { timeout: 90_000, interval: 50 });
    await later(() => became()).toMatch(/^1000 points get their channels/);
    await table().getByRole('button', { name: 'Take all of this into the file' }).click();
    await later(() => view().locator('.result').textContent()).toMatch(/^12 racks carry 1000 points/);
    const wiring = page.locator('[data-view="racks.s_1.wiring"]');
    await wiring.locator('button', { hasText: /^Wires$/ }).click();
    await wiring.locator('[data-table="wires"] tbody tr').nth(5).waitFor();
    // Others may use the computer meanwhile; it would be seconds if the page itself did the work.
    expect(await page.evaluate(longestFrame)).toBeLessThan(1500);
  });

  it('that cannot be are told in words, and nothing is to be taken', async () => {
    await opened(file().replace(/racks: open.*/, 'racks: { main: { rack: rack_4, power: power_ac, modules: open } }'));
    await start();
    await soon(() => became()).toMatch(/^At main these cannot be had together: the 4 places of rack_4 at main; /);
    expect(await became()).toMatch(/Nothing can be taken before this is settled\.$/);
    expect(await table().count()).toBe(0);
    expect(await violations()).toEqual([]);
    folder.write('open-racks.yaml', file().replace('rack_4', 'rack_7'));
    await soon(() => became()).toBe('The file has changed since: this was of the text before.');
    await start();
    await soon(() => became()).toContain('16 points get their channels');
  });

  it('are chosen while the server is away', async () => {
    await opened();
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await page.reload();
    await form().waitFor();
    await folder.kill();
    await page.reload();
    await form().waitFor();
    await start();
    await soon(() => became()).toContain('16 points get their channels');
  });
});
