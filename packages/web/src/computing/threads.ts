// Long work and the solver on threads of the browser. The page itself starts them, since not every worker may start workers of its own.

import type { Solve } from '@layshaft/core';
import { type BrowserOptions, runInBrowser } from '@layshaft/pool/browser';
import { solverInBrowser } from '@layshaft/solver/browser';
import type { JobAt } from './protocol.ts';

const makeWorker = (): Worker => new Worker(new URL('./thread.ts', import.meta.url), { type: 'module' });

/** The results of the parts in their order. */
export const runParts = (
  { task, chunks }: Pick<JobAt, 'task' | 'chunks'>,
  options: Omit<BrowserOptions, 'makeWorker'>,
): Promise<readonly unknown[]> => runInBrowser(task, chunks as never[], { ...options, makeWorker });

/** Nothing of the solver is loaded before the first model. */
export const solve: Solve = solverInBrowser();
