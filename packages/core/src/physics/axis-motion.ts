// How an axis moves at its tool: handed from the axes to the networks, for what a missed update costs there.
import type { Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';

export interface AxisMotion {
  /** In m/s or rad/s, the highest. */
  readonly speed: Quantity | Missing;
  /** In m/s² or rad/s², the highest of the cycle, either way. */
  readonly acceleration: Quantity | Missing;
}

/** By the name of the axis; made when it is asked for, since few axes are. */
export type AxisMotions = (axis: string) => AxisMotion | undefined;
