// The checks of the axes, in the order of the argument.
import { agrees, plausible } from './agrees.ts';
import { busChecks } from './bus.ts';
import { cycle } from './cycle.ts';
import { current, currentPeak, driveOverload } from './drive.ts';
import { countFrequency, encoderCable, ripple } from './encoder.ts';
import { gearMean, gearPeak, gearRadial, gearSpeedMean, gearSpeedPeak, gearStop, screwCritical } from './gear.ts';
import { joins } from './joins.ts';
import { bandwidth, following } from './loop.ts';
import { holding, ratio, speed, torquePeak, torqueRms } from './motor.ts';
import { torqueAtSpeed, winding } from './motor-limits.ts';
import { stopWay } from './stop.ts';

export const axisChecks = [
  cycle,
  joins,
  torquePeak,
  torqueAtSpeed,
  torqueRms,
  winding,
  speed,
  current,
  currentPeak,
  driveOverload,
  ratio,
  bandwidth,
  following,
  gearPeak,
  gearStop,
  gearMean,
  gearSpeedPeak,
  gearSpeedMean,
  gearRadial,
  screwCritical,
  holding,
  agrees,
  plausible,
] as const;

/** Of masters that are counted. */
export const encoderChecks = [countFrequency, encoderCable, ripple] as const;

export { busChecks };

/** Of the stops of masters. */
export const stopChecks = [stopWay] as const;
