// Baselines in C and C++: a source of this folder, compiled with -O2 for as long as it is used.
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
export const inPlainC = <T>(source: string, use: (program: PlainC) => T): T | undefined =>
  compiled(['cc', '-O2', `tools/bench/${source}`, '-lm'], source, undefined, use);

/** The same in C++ with a library, of which a header tells whether it is there. */
export const inCpp = <T>(
  source: string,
  library: { readonly link: string; readonly header: string },
  use: (program: PlainC) => T,
): T | undefined => compiled(['c++', '-O2', `tools/bench/${source}`, library.link], source, library.header, use);

function compiled<T>(
  [compiler, ...asked]: readonly [string, ...string[]],
  source: string,
  header: string | undefined,
  use: (program: PlainC) => T,
): T | undefined {
  const folder = mkdtempSync(join(tmpdir(), 'layshaft-bench-'));
  try {
    const program = join(folder, 'program');
    const { error, status, stderr } = spawnSync(compiler, ['-o', program, ...asked], { encoding: 'utf8' });
    if (error !== undefined || (header !== undefined && stderr.includes(`${header}: No such file`))) {
      console.log(
        `There is no ${error === undefined ? header : compiler} here, so nothing is compared with ${source}.`,
      );
      return undefined;
    }
    if (status !== 0) throw new Error(stderr);
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
