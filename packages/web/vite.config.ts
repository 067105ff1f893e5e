// How the sheet is built: one page, one worker with the computing library, no file from elsewhere.
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin } from 'vite';

const yamlAsText = (): Plugin => ({
  name: 'yaml as text',
  enforce: 'pre',
  load: (id) => (id.endsWith('.yaml') ? `export default ${JSON.stringify(readFileSync(id, 'utf8'))};` : null),
});

/** What the solver's library asks of Node, and never in a browser. */
const noNode = (): Plugin => ({
  name: 'no node',
  enforce: 'pre',
  resolveId: (id) => (id === 'node:module' ? '\0no-node' : null),
  load: (id) => (id === '\0no-node' ? 'export const createRequire = undefined;' : null),
});

/** The script that keeps the built sheet in the browser, so that it opens while the server is away. */
const keepOffline = (): Plugin => ({
  name: 'keep offline',
  apply: 'build',
  generateBundle(_, bundle) {
    const assets = Object.keys(bundle)
      .filter((name) => /\.(js|css|wasm)$/.test(name))
      .map((name) => `/${name}`);
    const source = readFileSync(new URL('./src/offline/service-worker.js', import.meta.url), 'utf8');
    const version = createHash('sha256').update(assets.join()).digest('hex').slice(0, 12);
    this.emitFile({
      type: 'asset',
      fileName: 'sw.js',
      source: source.replace('%version%', version).replace("['%assets%']", JSON.stringify(assets)),
    });
  },
});

export default defineConfig({
  root: import.meta.dirname,
  plugins: [yamlAsText(), react(), keepOffline()],
  worker: { format: 'es', plugins: () => [yamlAsText(), noNode()] },
  build: {
    target: 'es2022',
    outDir: 'dist',
    emptyOutDir: true,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
    chunkSizeWarningLimit: 1000,
    // The policy of the page allows no data in place of a file.
    assetsInlineLimit: 0,
  },
  logLevel: 'warn',
});
