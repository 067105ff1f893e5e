// The checks of the axes, in the order of the argument.
import { agrees, plausible } from './agrees.ts';
import { cycle } from './cycle.ts';
import { holding, ratio, speed, torquePeak, torqueRms } from './motor.ts';

export const axisChecks = [cycle, torquePeak, torqueRms, speed, ratio, holding, agrees, plausible] as const;
