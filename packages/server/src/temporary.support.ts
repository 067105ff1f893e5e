// A folder of a test, with files in it, that is gone when the test is.
import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { onTestFinished } from 'vitest';

/** Makes the folder; files by path with their texts. Gives its real path. */
export function temporaryFolder(files: Readonly<Record<string, string>> = {}): string {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'layshaft-server-')));
  onTestFinished(() => rmSync(folder, { recursive: true }));
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  return folder;
}

/** The text of a file that lies beside the sheet and must never be given out. */
export const secret = 'nobody may read this';
export const serviceWorker = '// A service worker.';

/** The folder of a sheet as the build leaves it, as far as the server knows it. */
export function temporarySheet(): string {
  const around = temporaryFolder({
    'secret.txt': secret,
    'dist/index.html': '<!doctype html><html><head><title>Sheet</title></head><body></body></html>',
    'dist/assets/index-Bx3_fq-9.js': 'export {};',
    'dist/sw.js': serviceWorker,
  });
  return join(around, 'dist');
}
