// The checks of the networks, in the order of the argument.
import { counters } from './counters.ts';
import { cycle } from './cycle.ts';
import { kernel } from './kernel.ts';
import { attenuation, collisions, frame, hops, length, spacing, stations } from './limits.ts';
import { burst, missed, pattern, trip } from './noise.ts';
import { offered } from './offered.ts';
import { addresses, plugs, port, topology } from './structure.ts';
import { sync } from './sync.ts';
import { update } from './update.ts';

export const networkChecks = [
  cycle,
  sync,
  update,
  kernel,
  offered,
  frame,
  stations,
  spacing,
  attenuation,
  length,
  hops,
  collisions,
  topology,
  addresses,
  plugs,
  port,
  trip,
  burst,
  pattern,
  counters,
] as const;

/** Asked with the motions of the axes at hand. */
export const missedChecks = [missed] as const;
