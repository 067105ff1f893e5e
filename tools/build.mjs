// Bundles the command `layshaft` into one file, packages/cli/dist/layshaft.js, when a source is newer than the bundle.
// `npm run build -- --force` bundles in any case.
import { existsSync, readdirSync, statSync, utimesSync } from 'node:fs';
import { join } from 'node:path';
import { bootstrap, root, whenStarted } from './bootstrap.mjs';

const bundle = join(root, 'packages/cli/dist/layshaft.js');

/**
 * Throws an Error with the bundler's messages when a source does not bundle.
 * @param {{ force?: boolean }} options
 * @returns whether the bundle had to be made
 */
export async function build({ force = false } = {}) {
  const started = new Date();
  if (!force && existsSync(bundle) && newestSource() < statSync(bundle).mtimeMs) return false;
  const esbuild = await import('esbuild');
  await esbuild.build({
    entryPoints: [join(root, 'packages/cli/src/main.ts')],
    outfile: bundle,
    bundle: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    // Identifiers and lines stay as they are, so that a stack trace can be read.
    minifySyntax: true,
    legalComments: 'none',
    loader: { '.yaml': 'text' },
    // The parser's build without Node built-ins: the one that core is tested with, and quicker to load.
    alias: { yaml: join(root, 'node_modules/yaml/browser/index.js') },
    // Commander is CommonJS and asks for Node built-ins by `require`.
    banner: { js: "import { createRequire } from 'node:module';\nconst require = createRequire(import.meta.url);" },
    logLevel: 'silent',
  });
  // A source saved while the bundle was made counts as newer than it.
  utimesSync(bundle, started, started);
  return true;
}

/** The time of the last change to anything that goes into the bundle; a folder's time tells of deleted files. */
function newestSource() {
  let newest = statSync(join(root, 'package-lock.json')).mtimeMs;
  for (const name of readdirSync(join(root, 'packages'))) {
    const sources = join(root, 'packages', name, 'src');
    if (!existsSync(sources)) continue;
    for (const path of ['', ...readdirSync(sources, { recursive: true, encoding: 'utf8' })]) {
      if (!path.endsWith('.test.ts')) newest = Math.max(newest, statSync(join(sources, path)).mtimeMs);
    }
  }
  return Math.max(newest, statSync(join(root, 'tools/build.mjs')).mtimeMs);
}

await whenStarted(import.meta.url, async () => {
  bootstrap();
  const made = await build({ force: process.argv.includes('--force') });
  console.log(made ? 'packages/cli/dist/layshaft.js is made.' : 'packages/cli/dist/layshaft.js is up to date.');
});
