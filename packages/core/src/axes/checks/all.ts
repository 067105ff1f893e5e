// The checks of the axes, in the order of the argument.
import { agrees, plausible } from './agrees.ts';
import { cycle } from './cycle.ts';
import { countFrequency, encoderCable, ripple } from './encoder.ts';
import { joins } from './joins.ts';
import { holding, ratio, speed, torquePeak, torqueRms } from './motor.ts';

export const axisChecks = [cycle, joins, torquePeak, torqueRms, speed, ratio, holding, agrees, plausible] as const;

/** Of masters that are counted. */
export const encoderChecks = [countFrequency, encoderCable, ripple] as const;
