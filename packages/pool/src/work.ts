// What a thread can do: each kind of work takes a chunk and gives a result, both plain data.
import { runTrials, type TrialChunk, type TrialResult } from '@layshaft/core/kernels';

/** By the name that a chunk is sent under. */
export interface Kinds {
  readonly trials: { readonly chunk: TrialChunk; readonly result: TrialResult };
}
export type Kind = keyof Kinds;

export const work: { readonly [K in Kind]: (chunk: Kinds[K]['chunk']) => Kinds[K]['result'] } = {
  trials: runTrials,
};

export interface Task {
  readonly kind: Kind;
  /** Which of the job's chunks it is. */
  readonly index: number;
  readonly chunk: unknown;
}

export type Answer =
  | { readonly index: number; readonly result: unknown }
  | { readonly index: number; readonly failed: string };

/** Runs a task; what goes wrong is told, not thrown, since errors lose much on their way to another thread. */
export function answerTo({ kind, index, chunk }: Task): Answer {
  try {
    return { index, result: work[kind](chunk as never) };
  } catch (error) {
    return { index, failed: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}
