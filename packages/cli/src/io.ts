// What the command needs of the world around it, so that a test can be that world.

import type { LongJob, Solve } from '@layshaft/core';

export interface Output {
  readonly write: (text: string) => unknown;
  readonly isTTY?: boolean;
  readonly columns?: number;
}

export interface RunOptions {
  /** As many as the computer runs at once where nothing is said. */
  readonly threads: number | undefined;
  readonly onProgress: (done: number, all: number) => void;
  /** Is given each result as it comes, by the place of its part. */
  readonly onResult: (place: number, result: unknown) => void;
  readonly signal: AbortSignal;
}

export interface Io {
  readonly stdout: Output;
  readonly stderr: Output;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** Rejects with a `code` such as ENOENT, as Node does. */
  readonly readFile: (path: string) => Promise<Uint8Array>;
  /** Writes a file that is not there yet; rejects with EEXIST when it is. */
  readonly writeNew: (path: string, content: string | Uint8Array) => Promise<void>;
  /** Writes a file, over one that is there. */
  readonly writeFile: (path: string, content: string | Uint8Array) => Promise<void>;
  /** Writes a file that is there already, so that at no time only a part of it stands there. */
  readonly replaceFile: (path: string, text: string) => Promise<void>;
  readonly readStdin: () => Promise<Uint8Array>;
  /** Solves the models that choices are made with. */
  readonly solve: Solve;
  /** Runs the parts of a long work on threads; gives their results in order. */
  readonly runParts: (job: Pick<LongJob, 'task' | 'chunks'>, options: RunOptions) => Promise<readonly unknown[]>;
  /** Resolves when the user ends the program. */
  readonly untilInterrupted: () => Promise<void>;
}

/** Something that the user can put right; it is shown without a stack trace. Says what is wrong, then what to do. */
export class UserError extends Error {}

/** The last is what shells give to what Ctrl+C has ended: 128 and the number of the signal (common practice, no source). */
export const exit = { fine: 0, fails: 1, unusable: 2, unknown: 3, interrupted: 130 } as const;
