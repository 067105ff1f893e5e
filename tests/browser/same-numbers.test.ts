// Node and Chromium give the same report for every example, rounded to promised digits.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { demonstration } from '@layshaft/catalogue';
import { assess, read, reportJson, resolve } from '@layshaft/core';
import { build } from 'esbuild';
import { expect, it } from 'vitest';
import { startBrowser } from './support/browser.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** Nine digits: more than anything shows (our judgement). */
const rounded = (report: unknown): string =>
  JSON.stringify(report, (_, value) => (typeof value === 'number' ? Number(value.toPrecision(9)) : value));

it('Node and Chromium agree on every example', async () => {
  const examples = readdirSync(join(root, 'examples'))
    .filter((name) => name !== 'problems')
    .map((name) => readFileSync(join(root, 'examples', name, 'machine.yaml'), 'utf8'));
  expect(examples.length).toBeGreaterThanOrEqual(4);
  const { outputFiles } = await build({
    stdin: {
      contents: `import { assess, read, reportJson, resolve } from '@layshaft/core';
        import { demonstration } from '@layshaft/catalogue';
        window.reportOf = (text) => reportJson(assess(resolve(read(text), [demonstration()])));`,
      resolveDir: root,
    },
    bundle: true,
    write: false,
    format: 'iife',
    platform: 'browser',
    loader: { '.yaml': 'text' },
    logLevel: 'silent',
  });
  const browser = await startBrowser();
  try {
    const page = await browser.newPage();
    await page.addScriptTag({ content: outputFiles[0]!.text });
    for (const text of examples) {
      const there = await page.evaluate(
        (each) => (globalThis as never as { reportOf(t: string): unknown }).reportOf(each),
        text,
      );
      expect(rounded(there)).toBe(rounded(reportJson(assess(resolve(read(text), [demonstration()])))));
    }
  } finally {
    await browser.close();
  }
});
