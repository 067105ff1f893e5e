// What a motor gives in its surroundings and at low mains: figures of its part, less what heat, height and voltage take.

import type { Value } from '../../reading/values.ts';
import { given, isAbsent, Missing } from '../../working/missing.ts';
import type { Quantity } from '../../working/quantity.ts';
import type { Axis, Drive, Motor } from '../axis.ts';
import { deratedCurrent, deratedTorque, deratingShare } from '../calc/derating.ts';
import { continuousTorqueAt, speedAtVoltage } from '../calc/motor-area.ts';
import type { AxisDemand, Case } from '../demand.ts';

/** A speed that the voltage bounds, at low mains; as it is where the motor does not say which mains it is stated for. */
export const atLowMains = (
  { motor, site, name }: Axis,
  speed: Value<Quantity<'rad/s'>>,
  key: string,
): Value<Quantity<'rad/s'>> =>
  isAbsent(motor.mains)
    ? speed
    : given({ ω: speed, u: site.low, U: motor.mains }, (known) => speedAtVoltage(known, `${name}.${key}`));

/** What the surroundings leave of a figure; all of it where the part does not say what it is stated for. */
function sharesLeft(
  part: Motor | Drive,
  { site, name }: Axis,
  what: 'motor' | 'drive',
): Value<{ readonly a: Quantity<'1'>; readonly h: Quantity<'1'> } | undefined> {
  if (isAbsent(part.ambient) && isAbsent(part.altitude)) return undefined;
  return given(
    {
      x: site.ambient,
      f: part.ambient,
      n: part.ambient_none,
      y: site.altitude,
      g: part.altitude,
      m: part.altitude_none,
    },
    ({ x, f, n, y, g, m }) => ({
      a: deratingShare({ x, f, n }, `${name}.${what}.ambient`),
      h: deratingShare({ x: y, f: g, n: m }, `${name}.${what}.altitude`),
    }),
  );
}

/** The torque that the motor gives for any length of time at the mean speed of a case, in its surroundings. */
export function continuousTorque({ axis }: AxisDemand, { meanSpeed, name }: Case): Value<Quantity<'N·m'>> {
  const { motor } = axis;
  const about = `${axis.name}.${name}`;
  const byLine = !(isAbsent(motor.torque_rated) || isAbsent(motor.speed_rated));
  const full: Value<Quantity<'N·m'>> = byLine
    ? given({ C: motor.torque, R: motor.torque_rated, r: motor.speed_rated }, (known) =>
        continuousTorqueAt({ ...known, ω: meanSpeed }, about),
      )
    : motor.torque;
  return given({ X: full, left: sharesLeft(motor, axis, 'motor') }, ({ X, left }) =>
    left === undefined ? X : deratedTorque({ X, ...(left as { a: Quantity<'1'>; h: Quantity<'1'> }) }, about),
  );
}

/** A current of the drive in its surroundings. */
export function driveCurrent(axis: Axis, key: 'current' | 'current_peak'): Value<Quantity<'A'>> {
  const { drive, name } = axis;
  return given({ X: drive[key], left: sharesLeft(drive, axis, 'drive') }, ({ X, left }) =>
    left === undefined
      ? X
      : deratedCurrent({ X, ...(left as { a: Quantity<'1'>; h: Quantity<'1'> }) }, `${name}.${key}`),
  );
}

/** The case that warms the motor most. */
export const warmest = ({ cases, rotor }: AxisDemand): Value<Case> =>
  cases instanceof Missing
    ? cases
    : rotor !== undefined
      ? rotor
      : cases
          .filter(({ kind }) => kind === 'cycle')
          .reduce((most, each) => (each.rms.value > most.rms.value ? each : most));
