// To and fro at constant speed over the way of the master, as a guide lays a thread on a spool or a nozzle coats a width.
// The master takes the place of time: `duration_s` counts its m or rad, as if it went one of them a second, and a velocity
// is in m of the axis by m or rad of the master.
import { mustBeOverZero } from './over-zero.ts';
import { timedMove } from './point-to-point.ts';
import type { Piece } from './segment.ts';

export interface Traverse {
  /** From turning point to turning point, in m. */
  readonly width: number;
  /** Way of the master for one stroke, in m or rad. */
  readonly wayPerStroke: number;
  /** Way of the master in which velocity turns round at one end, half of it before the turning point and half behind. */
  readonly reversal: number;
}

/**
 * A stroke to and the stroke fro, from rest at a turning point at position 0 to rest there: the motion begins in the middle
 * of a turn. Acceleration is constant in a turn, velocity between turns. Throws a RangeError for measures that are not over
 * 0, and for turns that take longer than the stroke.
 */
export function traverse({ width, wayPerStroke, reversal }: Traverse): readonly Piece[] {
  mustBeOverZero({ 'the width': width, 'the way for a stroke': wayPerStroke, 'the way for turning round': reversal });
  // Half a turn at each end of a stroke.
  const share = reversal / wayPerStroke / 2;
  if (share > (1 + 1e-12) / 2)
    throw new RangeError(`turning round takes ${Number((2 * share).toPrecision(4))} of a stroke, more than there is`);
  const ramps = { up: share, down: share };
  return [...timedMove(width, wayPerStroke, ramps), ...timedMove(-width, wayPerStroke, ramps, width)];
}
