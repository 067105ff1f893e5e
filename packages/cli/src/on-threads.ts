// Parts of long work on threads of this computer, with progress in a terminal, until they are done or Ctrl-C stops them.
import type { Simulation } from '@layshaft/core';
import type { ResultOf } from '@layshaft/pool/node';
import type { Io } from './io.ts';

type Counts = ResultOf<'simulation'>;

/** Seen from the bundle and from the source alike. */
const threadScript = new URL('../dist/thread.js', import.meta.url);

export interface OnThreads {
  readonly threads: number | undefined;
  /** What is being done, for the line of progress: 'simulating'. */
  readonly doing: string;
}

/** The results of the first parts, up to the first one that was not done. */
export async function onThreads(
  chunks: Simulation['chunks'],
  { threads, doing }: OnThreads,
  io: Pick<Io, 'stderr' | 'untilInterrupted'>,
): Promise<readonly Counts[]> {
  const results: (Counts | undefined)[] = chunks.map(() => undefined);
  const stop = new AbortController();
  void io.untilInterrupted().then(() => stop.abort());
  const isShown = io.stderr.isTTY === true;
  try {
    // Loaded only here: the other commands start without threads.
    const { runInNode } = await import('@layshaft/pool/node');
    await runInNode('simulation', chunks, {
      script: threadScript,
      threads,
      signal: stop.signal,
      onResult: (place, result) => {
        results[place] = result as Counts;
      },
      onProgress: (done, all) => {
        if (isShown) io.stderr.write(`\r${doing}: ${Math.floor((100 * done) / all)} % (Ctrl-C stops)`);
      },
    });
  } catch (error) {
    if (!stop.signal.aborted) throw error;
  } finally {
    if (isShown) io.stderr.write('\r\x1b[K');
  }
  const undone = results.indexOf(undefined);
  return (undone < 0 ? results : results.slice(0, undone)) as readonly Counts[];
}
