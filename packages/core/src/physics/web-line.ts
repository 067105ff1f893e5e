// What axes tell marks (both domains): how fast the web of a line runs, how far it is from product to product, how it stops.
import type { Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';

export interface WebLine {
  readonly name: string;
  /** Along the web, at full speed; missing for a master that only turns. */
  readonly speed: Quantity<'m/s'> | Missing;
  /** From product to product. */
  readonly repeat: Quantity<'m'> | Missing;
  /** Of those ramps of the line that are known. */
  readonly ramps: readonly Quantity<'s'>[];
  /** From the command on, reaction included; missing where the drives do nothing in it. */
  readonly stops: readonly { readonly name: string; readonly way: Quantity<'m'> | Missing }[];
}
