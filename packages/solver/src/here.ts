// Solves in the thread that asks, which does nothing else until the answer is there: for tests and measurements.
import type { Solve } from '@layshaft/core/linear-model';
import { highs } from './highs.ts';
import { solveWith } from './solve-with.ts';

/** A signal is heard only before the work begins. */
export const solveHere: Solve = async (model, { signal, ...options } = {}) => {
  const library = await highs();
  if (signal?.aborted) throw signal.reason;
  return solveWith(library, model, options);
};
