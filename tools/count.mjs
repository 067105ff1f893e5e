// The last line of `npm test` and what goes into it.

/** @typedef {{ passed: number, failed: number, skipped: number }} Count */

/** Where a run of vitest leaves its count, as a path from the root. */
export const countFile = 'node_modules/.cache/layshaft/count.json';

/** @param {Count} count */
export function countLine({ passed, failed, skipped }) {
  return `${passed} passed, ${failed} failed, ${skipped} skipped`;
}

/**
 * The count of a whole run. A run of vitest that left no count, or ended badly though no test failed, is one failure.
 * @param {readonly boolean[]} stages whether each stage before the tests went well
 * @param {{ exitCode: number, count: Count | undefined }} tests
 * @returns {Count}
 */
export function total(stages, { exitCode, count }) {
  const { passed, failed, skipped } = count ?? { passed: 0, failed: 0, skipped: 0 };
  const unexplained = count === undefined || (exitCode !== 0 && failed === 0) ? 1 : 0;
  const good = stages.filter(Boolean).length;
  return { passed: passed + good, failed: failed + unexplained + stages.length - good, skipped };
}
