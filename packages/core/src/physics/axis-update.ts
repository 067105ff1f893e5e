// axes, timing: what decides how often an axis must get a setpoint.
import type { Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';

type Value<T> = T | Missing;

export interface AxisUpdate {
  readonly name: string;
  readonly path: string;
  /** Of the tool: m/s or rad/s, and the same by s. */
  readonly speed: Value<Quantity>;
  readonly acceleration: Value<Quantity>;
  /** In m or rad; nothing where the file does not say it. */
  readonly tolerance: Value<Quantity> | undefined;
  readonly gain: Value<Quantity<'1/s'>> | undefined;
  /** Whether the position loop closes over the network. */
  readonly overNetwork: boolean;
}
