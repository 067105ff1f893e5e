// Parts of long work on threads of this computer.
import type { Io } from './io.ts';

/** `script` is the bundle of what runs in a thread. */
export const onThreads =
  (script: URL): Io['runParts'] =>
  async ({ task, chunks }, options) => {
    // Loaded only here: the other commands start without threads.
    const { runInNode } = await import('@layshaft/pool/node');
    return runInNode(task, chunks as never[], { ...options, script });
  };
