// Whether a program that a test compares with is on this machine; a test asks by `describe.runIf(hasForeignProgram(…))`.
import { spawnSync } from 'node:child_process';

/** With the environment variable LAYSHAFT_FOREIGN=required the run fails when a test was skipped for want of one. */
export function hasForeignProgram(name: string): boolean {
  return spawnSync(name, ['--version'], { stdio: 'ignore' }).error === undefined;
}
