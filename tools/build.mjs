// Bundles the command `layshaft` into packages/cli/dist/layshaft.js, with its server, its threads and its solver beside it, and
// builds the sheet for the browser into packages/web/dist, each when a source is newer. `npm run build -- --force` makes both.
import { copyFileSync, existsSync, readdirSync, rmSync, statSync, utimesSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { bootstrap, root, whenStarted } from './bootstrap.mjs';

/** What is built, by a file of it that is written last. */
const products = [
  { file: 'packages/cli/dist/layshaft.js', make: bundleCommand },
  { file: 'packages/web/dist/index.html', make: buildSheet },
];

/**
 * Throws an Error with the bundler's messages when a source does not bundle.
 * @param {{ force?: boolean }} options
 * @returns the files that had to be made
 */
export async function build({ force = false } = {}) {
  const newest = newestSource();
  const old = products.filter(({ file }) => {
    const path = join(root, file);
    return force || !existsSync(path) || newest >= statSync(path).mtimeMs;
  });
  for (const { file, make } of old) {
    const started = new Date();
    await make(join(root, file));
    // A source saved while the bundle was made counts as newer than it.
    utimesSync(join(root, file), started, started);
  }
  return old.map(({ file }) => file);
}

/** @param {string} outfile */
async function bundleCommand(outfile) {
  const esbuild = await import('esbuild');
  const outdir = dirname(outfile);
  // Each whole by itself: a thread reads no more than what it runs.
  await esbuild.build({
    ...bundling,
    entryPoints: { thread: join(root, 'packages/pool/src/node-worker.ts') },
    outdir,
  });
  await esbuild.build({
    ...bundling,
    entryPoints: { solver: join(root, 'packages/solver/src/node-worker.ts') },
    outdir,
  });
  // The solver's library looks for its own file beside the bundle.
  copyFileSync(join(root, 'node_modules/highs/build/highs.wasm'), join(outdir, 'highs.wasm'));
  const { metafile } = await esbuild.build({
    ...bundling,
    // The server is a file of its own, so that every other command starts without reading it.
    entryPoints: {
      layshaft: join(root, 'packages/cli/src/main.ts'),
      server: join(root, 'packages/server/src/index.ts'),
    },
    outdir,
    splitting: true,
    // Two parts that are shared can have one name.
    chunkNames: 'part-[hash]',
    metafile: true,
    loader: { '.yaml': 'text' },
    // The parser's build without Node built-ins: the one that core is tested with, and quicker to load.
    alias: { yaml: join(root, 'node_modules/yaml/browser/index.js') },
    // Commander is CommonJS and asks for Node built-ins by `require`.
    banner: { js: "import { createRequire } from 'node:module';\nconst require = createRequire(import.meta.url);" },
  });
  // Parts of earlier builds.
  const made = new Set(Object.keys(metafile.outputs).map((path) => basename(path)));
  for (const name of readdirSync(outdir)) if (/^part-.*\.js$/.test(name) && !made.has(name)) rmSync(join(outdir, name));
}

/** @type {import('esbuild').BuildOptions} */
const bundling = {
  bundle: true,
  format: 'esm',
  platform: 'node',
  target: 'node20',
  // Identifiers and lines stay as they are, so that a stack trace can be read.
  minifySyntax: true,
  legalComments: 'none',
  logLevel: 'silent',
};

async function buildSheet() {
  const vite = await import('vite');
  // While tests run, the environment asks for what is built for tests; what is served is the same at all times.
  const { NODE_ENV } = process.env;
  process.env.NODE_ENV = 'production';
  try {
    await vite.build({ configFile: join(root, 'packages/web/vite.config.ts') });
  } finally {
    if (NODE_ENV === undefined) delete process.env.NODE_ENV;
    else process.env.NODE_ENV = NODE_ENV;
  }
}

/** The time of the last change to anything that goes into the bundle; a folder's time tells of deleted files. */
function newestSource() {
  let newest = statSync(join(root, 'package-lock.json')).mtimeMs;
  for (const name of readdirSync(join(root, 'packages'))) {
    for (const folder of ['src', 'public']) {
      const sources = join(root, 'packages', name, folder);
      if (!existsSync(sources)) continue;
      for (const path of ['', ...readdirSync(sources, { recursive: true, encoding: 'utf8' })]) {
        if (!path.endsWith('.test.ts')) newest = Math.max(newest, statSync(join(sources, path)).mtimeMs);
      }
    }
  }
  const others = ['tools/build.mjs', 'packages/web/index.html', 'packages/web/vite.config.ts'];
  return Math.max(newest, ...others.map((file) => statSync(join(root, file)).mtimeMs));
}

await whenStarted(import.meta.url, async () => {
  bootstrap();
  const made = await build({ force: process.argv.includes('--force') });
  console.log(made.length === 0 ? 'All is up to date.' : `Made: ${made.join(', ')}.`);
});
