// The checks of racks and points, in the order of the argument.
import { counting, failsTo, filter, output, outputs } from './channels.ts';
import { placed, spare, suits } from './points.ts';
import { extender, feed, places, supply } from './rack.ts';
import { update } from './update.ts';
import { contactCurrent, contactVoltage, designations, status, voltage } from './wiring.ts';

export const rackChecks = [
  placed,
  suits,
  spare,
  places,
  extender,
  supply,
  feed,
  output,
  outputs,
  counting,
  filter,
  failsTo,
  voltage,
  designations,
  status,
  contactVoltage,
  contactCurrent,
] as const;
/** On how often the networks serve the stations. */
export const servedChecks = [update] as const;
