/// <reference lib="dom" />
// The solver in a real browser, built and served as the sheet is: under its policy, in workers, and without the server.
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { serve } from '@layshaft/server';
import { solveHere } from '@layshaft/solver/here';
import type { Browser } from 'playwright-core';
import { build } from 'vite';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { drawnInstance, rackModel } from '../../packages/solver/src/instances.support.ts';
import { seeded } from '../support/seeded.ts';
import { startBrowser } from './support/browser.ts';
import type { Asked } from './support/solver-page/computing-worker.ts';

let browser: Browser;
let folder: string;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'layshaft-solver-page-'));
  browser = await startBrowser();
  await build({
    configFile: 'packages/web/vite.config.ts',
    root: 'tests/browser/support/solver-page',
    build: { outDir: join(folder, 'web'), emptyOutDir: true },
  });
}, 60_000);
afterAll(async () => {
  await browser.close();
  rmSync(folder, { recursive: true });
});

const easy = rackModel(drawnInstance(seeded(3), { kinds: 4, modules: 6, racks: 3, points: 40 }));
const long = rackModel(drawnInstance(seeded(5), { kinds: 6, modules: 12, racks: 12, points: 500 }));

it('solves, cancels and stays awake in the browser, first asked for when the server is gone', {
  timeout: 60_000,
}, async () => {
  const errors: unknown[] = [];
  const served = await serve({ folder, web: join(folder, 'web'), port: 0, onError: (error) => errors.push(error) });
  const page = await browser.newPage();
  page.on('pageerror', (error) => errors.push(error));
  page.on('console', (message) => message.type() === 'error' && errors.push(message.text()));
  try {
    await page.goto(served.url);
    await expect.poll(() => page.title(), { timeout: 20_000 }).toBe('ready');
    expect(readdirSync(join(folder, 'web/assets')).filter((name) => name.endsWith('.wasm'))).toHaveLength(1);
    // Nothing of the solver is compiled for a page that does not ask it.
    expect(page.workers()).toHaveLength(1);
  } finally {
    await served.close();
  }
  const ask = (asked: Asked): Promise<{ answer: unknown; told: number; beats: number }> =>
    page.evaluate((asked) => (window as unknown as { ask: (asked: Asked) => Promise<never> }).ask(asked), asked);
  expect((await ask({ model: easy })).answer).toEqual(await solveHere(easy));
  const cancelled = await ask({ model: long, cancelAt: 2 });
  expect(cancelled).toMatchObject({ answer: 'Error: cancelled', told: 2 });
  expect(cancelled.beats).toBeGreaterThan(0);
  expect((await ask({ model: easy })).answer).toEqual(await solveHere(easy));
  expect(errors).toEqual([]);
});
