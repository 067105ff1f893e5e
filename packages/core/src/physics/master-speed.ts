// axes, timing: how fast a master goes at full speed.
import type { Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';

export interface MasterSpeed {
  readonly name: string;
  readonly path: string;
  /** In m/s or rad/s. */
  readonly speed: Quantity | Missing;
}
