// How far an axis is from where it should be while updates are missing.
import type { AxisMotions } from '../physics/axis-motion.ts';
import type { Value } from '../reading/values.ts';
import type { Unit } from '../units/si.ts';
import { given, type Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { missedAtMost } from './calc/exchange-noise.ts';
import { extrapolatedAlong, extrapolatedAround, heldAlong, heldAround } from './calc/missed-update.ts';
import type { Losses, StationLoss } from './noise-losses.ts';

export interface Missed {
  /** The longest time without an update that does not trip. */
  readonly time: Value<Quantity<'s'>>;
  /** In m or rad at the tool: as the drive is said to behave, and either way. */
  readonly error: Value<Quantity>;
  readonly held: Value<Quantity>;
  readonly extrapolated: Value<Quantity>;
}

/** Undefined for a station that is no axis, or an axis of which no motion is described. */
export function missedBy(station: StationLoss, { planned }: Losses, motions: AxisMotions): Missed | undefined {
  const { device, period } = station;
  const motion = motions(device.name);
  if (motion === undefined) return undefined;
  const about = `${planned.network.name}.${device.name}`;
  const time = given({ m: device.tripAfter, T: period }, (known) => missedAtMost(known, about));
  const held = given({ v: motion.speed, a: motion.acceleration, t: time }, (known): Value<Quantity> => {
    const { v, a, t } = known;
    if (has(v, 'm/s') && has(a, 'm/s²')) return heldAlong({ v, t, a }, about);
    return has(v, 'rad/s') && has(a, 'rad/s²') ? heldAround({ v, t, a }, about) : odd(device.path);
  });
  const extrapolated = given({ a: motion.acceleration, t: time }, ({ a, t }): Value<Quantity> => {
    if (has(a, 'm/s²')) return extrapolatedAlong({ a, t }, about);
    return has(a, 'rad/s²') ? extrapolatedAround({ a, t }, about) : odd(device.path);
  });
  return {
    time,
    error: given({ rule: device.missed }, ({ rule }) => (rule === 'hold' ? held : extrapolated)),
    held,
    extrapolated,
  };
}

const has = <U extends Unit>(quantity: Quantity, unit: U): quantity is Quantity<U> => quantity.unit === unit;

const odd = (path: string): Missing => missing(`${path}.motion`, 'problem', 'a motion along or around', 'gear: [1, 1]');
