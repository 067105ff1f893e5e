// `npm run accept`: writes the expected results of all examples and the reference pages anew, and says what changed.
// Read the difference (git diff) before it is committed: every change of a number needs a reason.
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { artefacts, leftovers } from '../tests/support/artefacts.ts';

const kept = artefacts();
let changes = 0;
for (const [path, make] of kept) {
  const text = await make();
  if (existsSync(path) && readFileSync(path, 'utf8') === text) continue;
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, text);
  console.log(`written  ${path}`);
  changes++;
}
for (const path of leftovers(kept)) {
  rmSync(path);
  console.log(`removed  ${path}`);
  changes++;
}
console.log(
  changes === 0 ? `${kept.size} files are as they were.` : `${changes} of ${kept.size} files changed: read git diff.`,
);
