// The vitest reporter that leaves the count for `npm test` and refuses skipped tests where every one must run.
import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import type { Reporter, TestModule } from 'vitest/node';
import { countFile } from './count.mjs';

/** With LAYSHAFT_FOREIGN=required every foreign program must be there, so a skipped test makes the run fail. */
export class CountReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], unhandledErrors: readonly unknown[]): void {
    const { passed, failed, skipped } = countRun(modules);
    const count = { passed, failed: failed + unhandledErrors.length, skipped: skipped.length };
    mkdirSync(dirname(countFile), { recursive: true });
    writeFileSync(countFile, JSON.stringify(count));
    if (process.env.LAYSHAFT_FOREIGN === 'required' && skipped.length > 0) {
      console.error(['LAYSHAFT_FOREIGN=required, but these tests were skipped:', ...skipped].join('\n  '));
      process.exitCode = 1;
    }
  }
}

/** What `countRun` needs of a vitest module; a test of it needs no more. */
export interface RanModule {
  readonly relativeModuleId: string;
  errors(): readonly unknown[];
  readonly children: {
    allSuites(): Iterable<{ errors(): readonly unknown[] }>;
    allTests(): Iterable<{ readonly fullName: string; result(): { readonly state: string } }>;
  };
}

/** A file that cannot be loaded, or a suite that breaks outside its tests, is one failure; a test that never ran is skipped. */
export function countRun(modules: Iterable<RanModule>): { passed: number; failed: number; skipped: string[] } {
  const count = { passed: 0, failed: 0, skipped: [] as string[] };
  for (const module of modules) {
    for (const group of [module, ...module.children.allSuites()]) if (group.errors().length > 0) count.failed += 1;
    for (const test of module.children.allTests()) {
      const { state } = test.result();
      if (state === 'passed') count.passed += 1;
      else if (state === 'failed') count.failed += 1;
      else count.skipped.push(`${module.relativeModuleId}: ${test.fullName}`);
    }
  }
  return count;
}
