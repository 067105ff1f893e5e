// How the tests run: Node, two workers, short output; a .yaml import is its text, as in the bundle.
import { readFileSync } from 'node:fs';
import { defineConfig } from 'vitest/config';
import { CountReporter } from './tools/count-reporter.ts';

export default defineConfig({
  plugins: [
    {
      name: 'yaml as text',
      enforce: 'pre',
      load: (id) => (id.endsWith('.yaml') ? `export default ${JSON.stringify(readFileSync(id, 'utf8'))};` : null),
    },
  ],
  test: {
    include: ['packages/*/src/**/*.test.ts', 'tests/**/*.test.ts', 'tools/**/*.test.ts'],
    environment: 'node',
    pool: 'threads',
    maxWorkers: 2,
    testTimeout: 30_000,
    hookTimeout: 30_000,
    reporters: ['minimal', new CountReporter()],
  },
});
