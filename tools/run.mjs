// `node tools/run.mjs FILE.ts [arguments]`: runs a TypeScript tool, which Node 20 cannot do by itself.
// The tool and the workspace packages are bundled; packages from npm stay outside. A .yaml import is its text.
import { readFileSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { bootstrap, root, whenStarted } from './bootstrap.mjs';

/** @type {import('esbuild').Plugin} */
const keepPackagesOutside = {
  name: 'keep packages outside',
  setup(build) {
    build.onResolve({ filter: /^[^./]/ }, ({ path, kind }) =>
      kind === 'entry-point' || path.startsWith('@layshaft/') ? null : { path, external: true },
    );
  },
};

/**
 * A tool that asks for its own place (import.meta.url) gets that of its source, not that of the bundle.
 * @type {import('esbuild').Plugin}
 */
const keepPlaces = {
  name: 'keep places',
  setup(build) {
    build.onLoad({ filter: /\.ts$/ }, ({ path }) => ({
      contents: readFileSync(path, 'utf8').replaceAll('import.meta.url', JSON.stringify(pathToFileURL(path).href)),
      loader: 'ts',
    }));
  },
};

await whenStarted(import.meta.url, async () => {
  const [file, ...args] = process.argv.slice(2);
  if (file === undefined) throw new Error('Which tool? Say: node tools/run.mjs FILE.ts [arguments]');
  bootstrap();
  const esbuild = await import('esbuild');
  const outfile = join(root, 'node_modules/.cache/layshaft', `${basename(file, '.ts')}.mjs`);
  await esbuild.build({
    entryPoints: [file],
    outfile,
    bundle: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    sourcemap: 'inline',
    loader: { '.yaml': 'text' },
    plugins: [keepPackagesOutside, keepPlaces],
    logLevel: 'silent',
  });
  process.setSourceMapsEnabled(true);
  process.argv = [process.execPath, resolve(file), ...args];
  await import(pathToFileURL(outfile).href).catch((error) => {
    console.error(error);
    process.exitCode = 1;
  });
});
