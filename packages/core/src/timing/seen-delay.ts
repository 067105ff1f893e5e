// The delay of a chain as it was seen on the machine: where its effect lies on the product at two speeds.
import type { Value } from '../reading/values.ts';
import { given, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { latencyOfTwoSpeeds, latencyOfTwoTurning } from './calc/lead.ts';
import type { ChainSection } from './section.ts';

/** Nothing where nobody has looked. */
export function seenDelayOf({ name, path, seen }: ChainSection): Value<Quantity<'s'>> | undefined {
  if (seen === undefined) return undefined;
  return given({ x: seen.moved, v: seen.higher, u: seen.lower }, ({ x, v, u }): Value<Quantity<'s'>> => {
    const isAlong = x.unit === 'm';
    const due = isAlong ? 'a speed along, as the way is' : 'a speed of turning, as the angle is';
    const fits = isAlong ? 'm/s' : 'rad/s';
    for (const [key, speed] of [
      ['higher', v],
      ['lower', u],
    ] as const)
      if (speed.unit !== fits) return missing(`${path}.seen.${key}`, 'problem', due, isAlong ? '60 m/min' : '60 rpm');
    if (v.value <= u.value)
      return missing(`${path}.seen.higher`, 'problem', 'a speed over the lower one', isAlong ? '60 m/min' : '60 rpm');
    return isAlong
      ? latencyOfTwoSpeeds({ x: x as Quantity<'m'>, v: v as Quantity<'m/s'>, u: u as Quantity<'m/s'> }, name)
      : latencyOfTwoTurning({ x: x as Quantity<'rad'>, v: v as Quantity<'rad/s'>, u: u as Quantity<'rad/s'> }, name);
  });
}
