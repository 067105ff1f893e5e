// racks, timing: the shortest signal of a point whose pulses a task counts, from how often they come and for how long.
import type { Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';

export interface PointPulse {
  readonly point: string;
  readonly pulse: Quantity<'s'> | Missing;
}
