// The count line of `npm test`: nothing that went wrong may be lost on the way to it.
import { describe, expect, it } from 'vitest';
import { countLine, total } from './count.mjs';
import { countRun, type RanModule } from './count-reporter.ts';

function ran(tests: Record<string, string>, errors: { module?: number; suite?: number } = {}): RanModule {
  const list = (length = 0) => Array.from({ length }, () => 'an error');
  return {
    relativeModuleId: 'a.test.ts',
    errors: () => list(errors.module),
    children: {
      allSuites: () => [{ errors: () => list(errors.suite) }],
      allTests: () => Object.entries(tests).map(([fullName, state]) => ({ fullName, result: () => ({ state }) })),
    },
  };
}

describe('countRun', () => {
  it('counts by state and names what was skipped or never ran', () => {
    expect(countRun([ran({ a: 'passed', b: 'failed', c: 'skipped' }), ran({ d: 'passed', e: 'pending' })])).toEqual({
      passed: 2,
      failed: 1,
      skipped: ['a.test.ts: c', 'a.test.ts: e'],
    });
  });

  it('counts a file that does not load and a suite that breaks outside its tests', () => {
    expect(countRun([ran({}, { module: 2 })]).failed).toBe(1);
    expect(countRun([ran({ a: 'skipped' }, { suite: 1 })]).failed).toBe(1);
  });
});

describe('total', () => {
  const count = { passed: 5, failed: 0, skipped: 1 };

  it('adds the stages to the tests', () => {
    expect(countLine(total([true, true, true], { exitCode: 0, count }))).toBe('8 passed, 0 failed, 1 skipped');
    expect(countLine(total([true, false], { exitCode: 1, count: { ...count, failed: 2 } }))).toBe(
      '6 passed, 3 failed, 1 skipped',
    );
  });

  it('takes a run without a count for a failure', () => {
    expect(total([true], { exitCode: 0, count: undefined })).toEqual({ passed: 1, failed: 1, skipped: 0 });
  });

  it('takes a bad end without a failed test for a failure', () => {
    expect(total([], { exitCode: 1, count }).failed).toBe(1);
    expect(total([], { exitCode: 1, count: { ...count, failed: 3 } }).failed).toBe(3);
  });
});
