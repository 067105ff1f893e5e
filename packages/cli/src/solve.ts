// The solver for commands that choose by it: a thread that is started when the first model is solved.
import { solverInNode } from '@layshaft/solver/node';

/** Built beside the command; the place is right as seen from the bundle and from the source alike. */
export const solve = solverInNode({ script: new URL('../dist/solver.js', import.meta.url) });
