// racks, timing: the filter of the channel that a point sits on, where the file says none of the point itself.
import type { Quantity } from '../working/quantity.ts';

export interface PointFilter {
  readonly point: string;
  readonly filter: Quantity<'s'>;
}
