// Baselines in plain C: a source of this folder, compiled with -O2 for as long as it is used.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export interface PlainC {
  /** Somewhere to write input to. */
  readonly folder: string;
  /** The numbers that the program prints. */
  readonly run: (...args: readonly (string | number)[]) => readonly number[];
}

/** What `use` makes of the program; where there is no C compiler, says so and gives nothing. Throws when one of both fails. */
export function inPlainC<T>(source: string, use: (program: PlainC) => T): T | undefined {
  const folder = mkdtempSync(join(tmpdir(), 'layshaft-bench-'));
  try {
    const program = join(folder, 'program');
    const compiled = spawnSync('cc', ['-O2', '-o', program, `tools/bench/${source}`, '-lm'], { encoding: 'utf8' });
    if (compiled.error !== undefined) {
      console.log(`There is no C compiler here, so nothing is compared with ${source}.`);
      return undefined;
    }
    if (compiled.status !== 0) throw new Error(compiled.stderr);
    const run = (...args: readonly (string | number)[]): readonly number[] => {
      const { status, stdout } = spawnSync(program, args.map(String), { encoding: 'utf8' });
      if (status !== 0) throw new Error(`${source} ended with ${status}`);
      return stdout.trim().split(' ').map(Number);
    };
    return use({ folder, run });
  } finally {
    rmSync(folder, { recursive: true });
  }
}
