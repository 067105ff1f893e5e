// Solves in the thread that asks, which does nothing else until the answer is there: for tests and measurements.
import type { Solve } from '@layshaft/core/linear-model';
import { highs } from './highs.ts';
import { solveWith } from './solve-with.ts';

/** Signals are heard only before the work begins. */
export const solveHere: Solve = async (model, { signal, enough, ...options } = {}) => {
  const library = await highs();
  if (signal?.aborted) throw signal.reason;
  if (enough?.aborted) return { status: 'nothing found' };
  return solveWith(library, model, options);
};
