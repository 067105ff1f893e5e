// `npm test`: builds the command, then lint, types and all tests; its last line is the count of what passed.
// Build, lint and types count as one each. `npm test -- path` runs the tests that fit and leaves lint and types out.
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { bootstrap, root, runNode, whenStarted } from './bootstrap.mjs';
import { build } from './build.mjs';
import { countFile, countLine, total } from './count.mjs';

await whenStarted(import.meta.url, async () => {
  const filter = process.argv.slice(2);
  const count = await run(filter);
  if (filter.length > 0) console.log('Lint and types were left out, because a path was given.');
  console.log(countLine(count));
  if (count.failed > 0) process.exitCode = 1;
});

/** @param {readonly string[]} filter */
async function run(filter) {
  try {
    bootstrap();
  } catch (error) {
    console.error(error instanceof Error ? error.message : error);
    return { passed: 0, failed: 1, skipped: 0 };
  }
  const stages = [await built()];
  if (filter.length === 0) {
    stages.push(runNode('node_modules/@biomejs/biome/bin/biome', ['check', '--error-on-warnings', '.']) === 0);
    stages.push(runNode('tools/types.mjs', []) === 0);
  }
  const left = join(root, countFile);
  rmSync(left, { force: true });
  const exitCode = runNode('node_modules/vitest/vitest.mjs', ['run', ...filter]);
  if (!existsSync(left)) console.error('The tests ended without a count: see what vitest said above.');
  return total(stages, { exitCode, count: existsSync(left) ? JSON.parse(readFileSync(left, 'utf8')) : undefined });
}

async function built() {
  try {
    await build();
    return true;
  } catch (error) {
    console.error(error instanceof Error ? error.message : error);
    return false;
  }
}
