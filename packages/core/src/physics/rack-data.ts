// racks, networks: what the modules of a remote rack add to the command to its station and to its answer.
import type { Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';

export interface RackData {
  readonly station: string;
  readonly command: Quantity<'bit'> | Missing;
  readonly answer: Quantity<'bit'> | Missing;
}
