/// <reference lib="dom" />
// The sheet in a real browser: everything that a person does with it, on examples and on the files of a real server;
// long because all of it is one page with one set-up.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { demonstration, starter } from '@layshaft/catalogue';
import { type Assessment, assess, explain, printQuantity, read, resolve, type Shown } from '@layshaft/core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { openPage, type ServedFolder, serveExamples, startBrowser } from './support/browser.ts';

const file = 'stations.yaml';
const path = 'networks.drives';

/** Polls for longer than a slow machine needs. */
const soon = <T>(what: () => T | Promise<T>) => expect.poll(what, { timeout: 8000, interval: 25 });

let browser: Browser;
let folder: ServedFolder;
let page: Page;
let errors: string[];

beforeAll(async () => {
  browser = await startBrowser();
});
afterAll(() => browser.close());

beforeEach(async () => {
  folder = await serveExamples('stations', 'labeller', 'print-line', 'open-axis');
  ({ page, errors } = await openPage(browser, folder, file));
});
afterEach(async () => {
  await page.context().close();
  await folder.remove();
  expect(errors).toEqual([]);
});

const assessed = (text: string): Assessment => assess(resolve(read(text, { file }), [demonstration()]));
const margin = (finding: string): Promise<string | null> =>
  page.locator(`[data-finding="${finding}"] .m`).textContent();
const cycle = 'networks.cycle@drives';
const input = (name: string) => page.locator(`[data-input="${path}.${name}"]`);
/** The file has reached the disk. */
const onDisk = () => soon(() => page.locator('.save').textContent()).toBe('on disk');
const noteTitle = () => page.locator('.note h3').textContent();

/** As the report prints a number; a picture prints it in the unit of its scale, with the same digits. */
const textsOf = ({ text, value, unit }: Shown): readonly string[] => [
  text,
  ...(unit === 's' ? ['ns', 'µs', 'ms'].map((as) => printQuantity(value, 's', { as, digits: 4 }).split(' ')[0]!) : []),
];

/** Types a value into an input of the sheet. */
async function type(name: string, value: string): Promise<void> {
  const field = input(name).locator('input');
  await field.fill(value);
  await field.press('Enter');
  await soon(() => field.inputValue()).toBe(value);
}

/** Drags an input's ruler to a place, in so many moves. */
async function drag(name: string, from: number, to: number, moves: number): Promise<void> {
  const box = (await input(name).locator('.ruler').boundingBox())!;
  const y = box.y + box.height / 2;
  await page.mouse.move(box.x + from * box.width, y);
  await page.mouse.down();
  await page.mouse.move(box.x + to * box.width, y, { steps: moves });
  await page.mouse.up();
}

/** What breaks the rules for accessible pages; colour contrast among them. */
async function violations(): Promise<readonly string[]> {
  const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
  // The policy of the page allows no foreign script, so it is put in beside the page.
  const found = await page.evaluate(`${axe}; axe.run(document, { resultTypes: ['violations'] })`);
  return (found as { violations: { id: string; nodes: { html: string }[] }[] }).violations.map(
    ({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 120)).join(' | ')}`,
  );
}

describe('the sheet', () => {
  it('opens with the result, pictures and margins, and every number is that of the report', async () => {
    const assessment = assessed(folder.read(file));
    expect(await page.locator('.result').first().textContent()).toMatch(/^One cycle is .* of it is spoken for/);
    expect(await page.locator('figure svg').count()).toBe(2);
    expect(await page.locator('.line').count()).toBe(assessment.findings.length);
    const shown = await page
      .locator('[data-address]')
      .evaluateAll((all) => all.map((each) => [each.getAttribute('data-address')!, each.textContent!] as const));
    expect(shown.length).toBeGreaterThan(60);
    for (const [address, text] of shown) expect(textsOf(explain(assessment, address)!), address).toContain(text.trim());
  });

  it('follows an edit in the file, with ghosts of what was', async () => {
    const before = await margin(cycle);
    const text = folder.read(file);
    await page.locator('.cm-line', { hasText: 'cycle: 500 µs' }).click();
    await page.keyboard.press('End');
    for (let at = 0; at < '500 µs'.length; at++) await page.keyboard.press('Backspace');
    await page.keyboard.type('1 ms');
    await soon(() => margin(cycle)).toBe(explain(assessed(text.replace('cycle: 500 µs', 'cycle: 1 ms')), cycle)!.text);
    expect(await margin(cycle)).not.toBe(before);
    await soon(() => page.locator(`[data-finding="${cycle}"] .was`).count()).toBe(1);
    await onDisk();
    expect(folder.read(file)).toBe(text.replace('cycle: 500 µs', 'cycle: 1 ms'));
  });

  it('follows an edit on the sheet; the file keeps every other character', async () => {
    const text = folder.read(file);
    await type('repeats', '4');
    await onDisk();
    expect(folder.read(file)).toBe(text.replace(/(repeats: )2/, '$14'));
    expect(await margin(cycle)).toBe(explain(assessed(folder.read(file)), cycle)!.text);
  });

  it('says what is wrong with a typed value, and leaves the file as it was on undo', async () => {
    const text = folder.read(file);
    await type('non_cyclic', '512 mm');
    await soon(() => page.locator('.file-problem').first().textContent()).toContain('is a length');
    await page.locator('.acts button', { hasText: 'Undo' }).click();
    await soon(() => page.locator('.file-problem').count()).toBe(0);
    await onDisk();
    expect(folder.read(file)).toBe(text);
  });

  it('follows a drag; the whole drag is one step of undo', async () => {
    const text = folder.read(file);
    const before = await margin(cycle);
    await drag('non_cyclic', 0.3, 0.9, 20);
    await soon(() => margin(cycle)).not.toBe(before);
    await onDisk();
    const after = folder.read(file);
    expect(after).not.toBe(text);
    expect(await margin(cycle)).toBe(explain(assessed(after), cycle)!.text);
    await page.locator('.acts button', { hasText: 'Undo' }).click();
    await soon(() => margin(cycle)).toBe(before);
    await onDisk();
    expect(folder.read(file)).toBe(text);
    await page.locator('.acts button', { hasText: 'Redo' }).click();
    await onDisk();
    expect(folder.read(file)).toBe(after);
  });

  it('steps an input with the arrow keys', async () => {
    await input('repeats').locator('.ruler').focus();
    await page.keyboard.press('ArrowRight');
    await soon(() => input('repeats').locator('input').inputValue()).toBe('3');
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('ArrowLeft');
    await soon(() => input('repeats').locator('input').inputValue()).toBe('1');
  });

  it('explains a number down to the given, with the address in the URL', async () => {
    await page.locator(`[data-finding="${cycle}"] button`).click();
    await soon(() => page.url()).toContain('?at=networks.cycle@drives');
    await soon(() => page.locator('.note math').count()).toBeGreaterThanOrEqual(2);
    const chain: (string | null)[] = [await noteTitle()];
    for (let depth = 0; depth < 12; depth++) {
      const value = page.locator('.note td.val button').last();
      if ((await value.count()) === 0) break;
      const address = await value.getAttribute('data-address');
      await value.click();
      await soon(() => page.locator('.note').getAttribute('data-note')).toBe(address);
      chain.push(address);
    }
    expect(chain.length).toBeGreaterThan(2);
    expect(await page.locator('.note').textContent()).toMatch(/given at|part \w+:|assumed|measured/);
    expect(await page.locator('.file-lit').count()).toBeGreaterThanOrEqual(0);
    await page.goBack();
    await soon(() => page.locator('.note').getAttribute('data-note')).toBe(chain.at(-2));
  });

  it('draws pictures at the width that they have, also after a working is closed', async () => {
    const fits = () =>
      page
        .locator('figure')
        .first()
        .evaluate((figure) => Math.abs(figure.clientWidth - figure.querySelector('svg')!.clientWidth) < 2);
    await soon(fits).toBe(true);
    await page.locator(`[data-finding="${cycle}"] button`).click();
    await page.locator('.note').waitFor();
    await soon(fits).toBe(true);
    await page.locator(`[data-finding="${cycle}"] button`).click();
    await soon(() => page.locator('.note').count()).toBe(0);
    await soon(fits).toBe(true);
  });

  it('asks once for a catalogue that is not there, however often the text changes', async () => {
    const asked: string[] = [];
    page.on('request', (request) => void (request.url().includes('our_parts') && asked.push(request.url())));
    folder.write(file, `catalogue: [demonstration, our_parts.yaml]\n${folder.read(file)}`);
    await soon(() => page.locator('.file-problem').count()).toBeGreaterThan(0);
    await type('repeats', '3');
    await type('repeats', '4');
    await onDisk();
    expect(asked).toHaveLength(1);
  });

  it('opens at the address that the URL names', async () => {
    const { page: other } = await openPage(browser, folder, `${file}?at=networks.cycle.used@drives`);
    await soon(() => other.locator('.note').getAttribute('data-note')).toBe('networks.cycle.used@drives');
    await other.context().close();
  });

  it('keeps a state and compares: what differs, what moves or flips', async () => {
    await page.getByText('Keep to compare').click();
    await page.getByLabel('Name of the kept state').fill('as built');
    await page.keyboard.press('Enter');
    await soon(() => page.locator('.compared').textContent()).toContain('Nothing differs.');
    await type('repeats', '8');
    const inputs = page.locator('[data-table="inputs-that-differ"] tbody tr');
    await soon(() => inputs.allTextContents()).toEqual([`${path}.repeats28`]);
    expect(await page.locator('[data-table="findings-that-move"]').textContent()).toContain(cycle);
    await page.getByText('Go back to as built').click();
    await soon(() => page.locator('.compared').textContent()).toContain('Nothing differs.');
  });

  it('asks backwards, and the answer just keeps the reserve', async () => {
    await page.locator(`[data-finding="${cycle}"] button`).click();
    await page.locator('.backwards select').selectOption(`${path}.repeats`);
    await page.getByText('Ask backwards').click();
    await soon(() => page.locator('.backwards [role="status"]').textContent()).toMatch(/keeps it/);
    const text = folder.read(file);
    await page.locator('.backwards button', { hasText: 'Write' }).click();
    await soon(() => folder.read(file)).not.toBe(text);
    const at = (repeats: number): string =>
      assessed(folder.read(file).replace(/repeats: \d+/, `repeats: ${repeats}`)).findings.find(
        ({ address }) => address === cycle,
      )!.verdict;
    const repeats = Number(/repeats: (\d+)/.exec(folder.read(file))![1]);
    expect([at(repeats), at(repeats + 1)]).toEqual(['holds', 'thin']);
  });

  it('shows a problem in place and what repairs it', async () => {
    folder.write(file, folder.read(file).replace('repeats: 2', 'repaets: 2'));
    const problem = page.locator('.file-problem').first();
    await soon(() => problem.textContent()).toContain('repaets');
    await soon(() => page.locator('.file header .pr').textContent()).toBe('1 problem');
    await page.locator('.file-problem-write').click();
    await soon(() => page.locator('.file-problem').count()).toBe(0);
    await onDisk();
    expect(folder.read(file)).toMatch(/^ {4}repeats: 2/m);
  });

  it('brings a change by another program together with its own', async () => {
    await page.context().setOffline(true);
    await type('repeats', '3');
    const text = folder.read(file);
    folder.write(file, text.replace('Tin labeller', 'Jar labeller'));
    await page.context().setOffline(false);
    await page.getByText('Bring both together').click();
    await onDisk();
    expect(folder.read(file)).toBe(text.replace('Tin labeller', 'Jar labeller').replace(/(repeats: )2/, '$13'));
  });

  it('loses nothing on reload, the steps of undo among it', async () => {
    const text = folder.read(file);
    await type('repeats', '5');
    await onDisk();
    await page.reload();
    await page.locator('.line').first().waitFor();
    expect(await input('repeats').locator('input').inputValue()).toBe('5');
    await page.locator('.acts button', { hasText: 'Undo' }).click();
    await soon(() => input('repeats').locator('input').inputValue()).toBe('2');
    await onDisk();
    expect(folder.read(file)).toBe(text);
  });

  it('loses nothing when the server is killed, and goes on when it is back', async () => {
    const text = folder.read(file);
    await folder.kill();
    await type('repeats', '6');
    await soon(() => page.locator('.save').textContent()).toContain('kept in this browser');
    await folder.restart();
    await page.reload();
    await page.locator('.line').first().waitFor();
    await soon(() => input('repeats').locator('input').inputValue()).toBe('6');
    await onDisk();
    expect(folder.read(file)).toBe(text.replace(/(repeats: )2/, '$16'));
  });

  it('begins a new machine that holds, and opens it', async () => {
    await page.getByText('New machine').click();
    await page.getByLabel('Name of the new machine file').fill('press');
    await page.keyboard.press('Enter');
    await soon(() => page.locator('h1').textContent()).toBe('press');
    expect(page.url()).toContain('#/press.yaml');
    expect(folder.read('press.yaml')).toBe(starter.replace('My machine', 'press'));
    expect(await page.locator('.line[data-verdict="holds"]').count()).toBe(await page.locator('.line').count());
  });

  it('takes points from a list that is pasted, once it was seen how it is read; one step of undo', async () => {
    const before = folder.read(file);
    await page.getByText('points from a list').click();
    const list = page.getByRole('textbox', { name: 'List of points' });
    const write = page.locator('.paste-points .answers button').first();
    await list.fill('Tag\tType\tLength\nLS-1\tSiren\t3 m\n');
    await soon(() => page.locator('.paste-points .pr').textContent()).toContain("Line 2: 'Siren' is not one of");
    expect(await write.isDisabled()).toBe(true);
    await list.fill('Tag\tType\tLength\tPage\nLS-1\tDI\t3 m\t4\nY-1\tDO\t\t4\n');
    await soon(() => write.textContent()).toBe('write 2 points into the file');
    expect(await page.locator('[data-table="columns"] tbody tr').allInnerTexts()).toEqual([
      expect.stringMatching(/^Tag\s+name\s+LS-1 → ls_1/),
      expect.stringMatching(/^Type\s+kind\s+DI → digital_in/),
      expect.stringMatching(/^Length\s+wire\s+3 m/),
      expect.stringMatching(/^Page\s+left out\s+4/),
    ]);
    expect(await violations()).toEqual([]);
    expect(folder.read(file)).toBe(before);
    await write.click();
    await soon(() => page.locator('.paste-points').count()).toBe(0);
    await onDisk();
    const points = read(folder.read(file)).points.map(({ name, kind }) => [name, kind]);
    expect(points).toEqual([
      ['ls_1', 'digital_in'],
      ['y_1', 'digital_out'],
    ]);
    await page.getByText('Undo').click();
    await soon(() => folder.read(file)).toBe(before);
  });

  it('reads a table that the file names, and again when it changes on disk', async () => {
    folder.write('list.yaml', 'layshaft: 1\npoints_from: [points.csv]\n');
    folder.write('points.csv', 'name,kind\nlid,DI\nlid,DO\n');
    await page.goto(`${folder.url}#/list.yaml`);
    await page.reload();
    const problem = page.locator('.file header .pr');
    await soon(() => problem.textContent()).toBe('1 problem');
    folder.write('points.csv', 'name,kind\nlid,DI\nvalve,DO\n');
    await soon(() => problem.count()).toBe(0);
  });

  it('takes a run that is typed at the end of the file, with pauses', async () => {
    await page.locator('.cm-content').click();
    await page.keyboard.press('Control+End');
    const line = '      - [outfeed, infeed_screw, 1 m, solid]';
    for (const letter of line) {
      await page.keyboard.type(letter);
      if ('-[,]'.includes(letter)) await page.waitForTimeout(150);
    }
    await page.keyboard.press('Escape');
    await onDisk();
    await soon(() => folder.read(file).endsWith(line)).toBe(true);
    await soon(() => page.locator('.file-problem').count()).toBeGreaterThan(0);
  });

  it('gives the file more room when the line beside it is dragged', async () => {
    const width = async (): Promise<number> => (await page.locator('.file').boundingBox())!.width;
    const before = await width();
    await page.mouse.move(before, 500);
    await page.mouse.down();
    await page.mouse.move(before + 150, 500, { steps: 5 });
    await page.mouse.up();
    await soon(width).toBeCloseTo(before + 150, -1);
    await page.keyboard.press('ArrowLeft');
  });

  it('offers what fits while one types', async () => {
    await page.locator('.cm-content').click();
    await page.keyboard.press('Control+End');
    await page.keyboard.type('pl');
    await soon(() => page.locator('.cm-tooltip-autocomplete').textContent()).toContain('planned');
  });

  it('opens again while the server is away, and computes', async () => {
    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await page.reload();
    await page.locator('.line').first().waitFor();
    await folder.kill();
    await page.reload();
    await page.locator('.line').first().waitFor();
    const before = await margin(cycle);
    await type('repeats', '7');
    await soon(() => margin(cycle)).not.toBe(before);
    await soon(() => page.locator('.save').textContent()).toContain('kept in this browser');
    await folder.restart();
    await onDisk();
    expect(folder.read(file)).toMatch(/repeats: 7/);
  });

  it('is accessible in every state, light and dark', async () => {
    expect(await violations()).toEqual([]);
    await page.locator(`[data-finding="${cycle}"] button`).click();
    await page.locator('.note').waitFor();
    await page.locator('.later button').first().click();
    await page.locator('.later table').waitFor();
    expect(await violations()).toEqual([]);
    await page.locator('.acts button', { hasText: 'Dark' }).click();
    expect(await page.evaluate(() => document.documentElement.dataset.theme)).toBe('dark');
    expect(await violations()).toEqual([]);
    await type('non_cyclic', '512 mm');
    await page.locator('.file-problem').first().waitFor();
    expect(await violations()).toEqual([]);
  });

  it('shows what axes demand, every number as the report has it, accessible light and dark', async () => {
    await page.goto(`${folder.url}/#/labeller.yaml`);
    await page.locator('h2', { hasText: 'Axis star_wheel' }).first().waitFor();
    const assessment = assess(
      resolve(read(folder.read('labeller.yaml'), { file: 'labeller.yaml' }), [demonstration()]),
    );
    const shown = await page
      .locator('[data-address]')
      .evaluateAll((all) => all.map((each) => [each.getAttribute('data-address')!, each.textContent!] as const));
    const ofAxes = shown.filter(([address]) => address.startsWith('axes.'));
    expect(ofAxes.length).toBeGreaterThan(150);
    for (const [address, text] of ofAxes)
      expect(textsOf(explain(assessment, address)!), address).toContain(text.trim());
    expect(await violations()).toEqual([]);
    await page.locator('.acts button', { hasText: 'Dark' }).click();
    expect(await violations()).toEqual([]);
  });

  it('takes offered parts into the file with the keyboard, as one step of undo, accessible light, dark and narrow', async () => {
    await page.goto(`${folder.url}/#/open-axis.yaml`);
    const text = folder.read('open-axis.yaml');
    const unknown = page.locator('.line[data-verdict="unknown"]');
    await soon(() => unknown.count()).toBeGreaterThanOrEqual(4);
    await page.locator('.later button', { hasText: 'Parts that hold' }).click();
    const table = page.locator('[data-table="choices"]');
    await table.waitFor();
    const cells = await table.locator('tbody tr').first().locator('th, td').allTextContents();
    const parts = cells.slice(0, 3);
    const take = page.getByRole('button', { name: `Take ${parts.join(', ')}`, exact: true });
    expect(await violations()).toEqual([]);
    await page.setViewportSize({ width: 420, height: 900 });
    await take.click({ trial: true });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(420);
    expect(await violations()).toEqual([]);
    await page.setViewportSize({ width: 1440, height: 900 });
    await page.locator('.acts button', { hasText: 'Dark' }).click();
    expect(await violations()).toEqual([]);

    await table.getByText('copy').focus();
    await page.keyboard.press('Tab');
    expect(await take.evaluate((button) => button.matches(':focus-visible'))).toBe(true);
    await page.keyboard.press('Enter');
    // What presses across the shaft of the gear is said by nobody.
    await soon(() => unknown.count()).toBe(1);
    expect(await unknown.textContent()).toContain('table.2_gear');
    await onDisk();
    const planned = ['motor', 'train.1.gear', 'drive'].map((of, at) => `  axes.table.${of}: ${parts[at]}\n`);
    expect(folder.read('open-axis.yaml')).toBe(`${text}planned:\n${planned.join('')}`);
    expect(await table.count()).toBe(0);

    await page.locator('.acts button', { hasText: 'Undo' }).click();
    await table.waitFor();
    await onDisk();
    expect(folder.read('open-axis.yaml')).toBe(text);
    expect(await unknown.count()).toBeGreaterThanOrEqual(4);
  });

  it('brings into sight what a margin, a name or the contents lead to, wide and narrow; the head stays', async () => {
    await page.goto(`${folder.url}/#/labeller.yaml`);
    await page.locator('h2', { hasText: 'Axis star_wheel' }).first().waitFor();
    /** Whether the head of it is on the sheet. */
    const isSeen = (what: string) => () =>
      page.locator(what).evaluate((element) => {
        const sheet = document.querySelector('.sheet')!.getBoundingClientRect();
        const { top } = element.getBoundingClientRect();
        return top >= sheet.top - 1 && top < sheet.bottom;
      });
    const headStays = async (): Promise<void> => {
      expect(await page.locator('.brand').evaluate((element) => element.getBoundingClientRect().top)).toBeGreaterThan(
        0,
      );
      expect(await page.evaluate(() => [scrollY, document.documentElement.scrollHeight - innerHeight])).toEqual([0, 0]);
    };
    await page.locator('[data-finding="marks.budget@label_gap"] button').click();
    await soon(isSeen('[data-view="marks.label_gap"]')).toBe(true);
    await headStays();
    await page.locator('.contents a', { hasText: 'Network' }).click();
    await soon(isSeen('#networks')).toBe(true);
    await headStays();
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('networks');
    await page
      .locator('[data-view="networks.drives"] [data-table="ways"]')
      .getByRole('button', { name: 'wrap_belt' })
      .click();
    const station = page.locator('[data-view="networks.drives.nodes.wrap_belt"]');
    await soon(isSeen('[data-view="networks.drives.nodes.wrap_belt"]')).toBe(true);
    await headStays();
    await station.getByRole('button', { name: 'close' }).click();
    await soon(() => station.count()).toBe(0);
    await soon(isSeen('[data-view="networks.drives"] [data-table="ways"]')).toBe(true);
    await page.setViewportSize({ width: 390, height: 844 });
    await page.locator('[data-view="marks.label_gap"] [data-table="result"] .num').last().click();
    await soon(isSeen('.note')).toBe(true);
    await headStays();
    expect(await violations()).toEqual([]);
  });

  it('leads the keyboard into a working and back to where it was opened', async () => {
    const where = () =>
      page.evaluate(() =>
        document
          .activeElement!.closest('[data-note], [data-finding]')
          ?.getAttributeNames()
          .find((name) => /note|finding/.test(name)),
      );
    await page.locator(`[data-finding="${cycle}"] button`).focus();
    await page.keyboard.press('Enter');
    await soon(where).toBe('data-note');
    const before = await page.locator('.note').getAttribute('data-note');
    await page.locator('.note td.val button').first().focus();
    await page.keyboard.press('Enter');
    await soon(() => page.locator('.note').getAttribute('data-note')).not.toBe(before);
    await soon(where).toBe('data-note');
    await page.keyboard.press('Escape');
    await soon(() => page.locator('.note').count()).toBe(0);
    await soon(where).toBe('data-finding');
  });

  it('is reached with the keyboard alone', async () => {
    const reached = new Set<string>();
    for (let at = 0; at < 200; at++) {
      await page.keyboard.press('Tab');
      const where = await page.evaluate(() => {
        const element = document.activeElement!;
        if (element.closest('.cm-content')) return 'file';
        if (element.closest('.margins')) return 'margins';
        if (element.closest('.ruler')) return 'ruler';
        if (element.closest('.result')) return 'result';
        return element.closest('.top') ? 'head' : 'other';
      });
      reached.add(where);
      if (where === 'file') await page.keyboard.press('Escape');
      if (where === 'margins') break;
    }
    expect([...reached].sort()).toEqual(expect.arrayContaining(['file', 'head', 'margins', 'result', 'ruler']));
  });
});
