// Into how many stretches a piece of a motion is cut that a sine, or a load that goes round with a shaft, bends.
import { type Segment, stateOf } from './segment.ts';

const longestArc_rad = Math.PI / 2;
/** More turns within one piece are not followed finer (our judgement: such a piece turns more than 200 times). */
const mostArcs_rad = 400 * Math.PI;

/** Quarter turns of its own sine, or of a shaft at so many turns for one of the tool; at least one. */
export function quarterTurns(segment: Segment, ratio: number): number {
  const { sine, duration_s } = segment;
  const own = sine === undefined ? 0 : Math.abs(sine.rate_rad_per_s) * duration_s;
  if (ratio === 0) return Math.max(1, Math.ceil(own / longestArc_rad));
  const turned = Math.abs(stateOf(segment, duration_s).position - stateOf(segment, 0).position) * ratio;
  return Math.max(1, Math.ceil(Math.max(own, Math.min(turned, mostArcs_rad)) / longestArc_rad));
}
