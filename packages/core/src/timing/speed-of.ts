// The speed at which something goes by: said beside it, or that of its master.
import type { MasterSpeed } from '../physics/master-speed.ts';
import type { Named, Value } from '../reading/values.ts';
import { Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';

interface Going {
  readonly speed: Value<Quantity> | undefined;
  /** The master, where there are several. */
  readonly of: Value<Named> | undefined;
  /** Where a speed would be said. */
  readonly at: string;
}

export function speedOf({ speed, of, at }: Going, masters: readonly MasterSpeed[]): Value<Quantity> {
  if (speed !== undefined) return speed;
  if (of instanceof Missing) return of;
  const master =
    of === undefined ? (masters.length === 1 ? masters[0] : undefined) : masters.find(({ name }) => name === of.name);
  return master?.speed ?? missing(at, 'absent', 'a speed, or the master that it is that of', '150 m/min');
}
