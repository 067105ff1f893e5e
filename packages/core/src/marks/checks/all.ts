// The checks of the marks, in the order of the argument.
import { budget } from './budget.ts';
import { caught, clear, window } from './capture.ts';
import { settling, stable } from './correct.ts';
import { runOn } from './run-on.ts';

export const markChecks = [budget, caught, window, clear, runOn, stable, settling] as const;
