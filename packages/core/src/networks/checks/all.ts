// The checks of the networks, in the order of the argument.
import { cycle } from './cycle.ts';
import { kernel } from './kernel.ts';
import { attenuation, collisions, frame, hops, length, spacing, stations } from './limits.ts';
import { offered } from './offered.ts';
import { addresses, plugs, port, topology } from './structure.ts';
import { update } from './update.ts';

export const networkChecks = [
  cycle,
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
] as const;
