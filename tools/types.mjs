// Checks the types of every project. The one of core knows neither Node nor a browser, so core cannot lean on either.
import { bootstrap, runNode, whenStarted } from './bootstrap.mjs';

const projects = [
  'packages/core',
  'packages/catalogue',
  'packages/cli',
  'packages/pool',
  'packages/server',
  'packages/solver',
  'packages/web',
  'packages/web/tsconfig.test.json',
  'tsconfig.json',
];

await whenStarted(import.meta.url, () => {
  bootstrap();
  const wrong = projects.filter((project) => runNode('node_modules/typescript/bin/tsc', ['-p', project]) !== 0);
  if (wrong.length > 0) throw new Error(`Types are wrong in: ${wrong.join(', ')}`);
});
