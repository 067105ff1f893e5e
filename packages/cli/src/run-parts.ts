// The parts of long work on threads, how far it is in the terminal, and a stop by Ctrl+C.
import { doneOf } from '@layshaft/core';
import type { Io } from './io.ts';
import { progressLine } from './progress-line.ts';

export interface Amount {
  /** What is counted: 'trials'. */
  readonly counts: string;
  readonly count: number;
  /** As many as the computer runs at once where nothing is said. */
  readonly threads: number | undefined;
}

export interface PartsDone {
  /** Of the first parts, up to the first one that was not done; of all where nobody has stopped it. */
  readonly results: readonly unknown[];
  readonly isWhole: boolean;
  /** How far it was: '400 of 20 000 trials, 2 %'. */
  readonly says: string;
}

export async function runParts(
  job: Parameters<Io['runParts']>[0],
  { threads, ...amount }: Amount,
  io: Pick<Io, 'runParts' | 'untilInterrupted' | 'stderr' | 'env'>,
): Promise<PartsDone> {
  const stop = new AbortController();
  const progress = progressLine(io);
  const done = new Map<number, unknown>();
  let says = '';
  const onProgress = (count: number, all: number): void => {
    says = doneOf(amount, count / all);
    progress.show(says);
  };
  onProgress(0, job.chunks.length);
  void io.untilInterrupted().then(() => stop.abort());
  try {
    const results = await io.runParts(job, {
      threads,
      signal: stop.signal,
      onProgress,
      onResult: (place, result) => done.set(place, result),
    });
    return { results, isWhole: true, says };
  } catch (error) {
    if (!stop.signal.aborted) throw error;
    const undone = job.chunks.findIndex((_, at) => !done.has(at));
    const results = job.chunks.slice(0, undone).map((_, at) => done.get(at));
    return { results, isWhole: false, says };
  } finally {
    progress.clear();
  }
}
