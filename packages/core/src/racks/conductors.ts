// The conductors of a point: what each of them carries and where at its rack it ends.
import type { Value } from '../reading/values.ts';
import { given, isAbsent, Missing, missing } from '../working/missing.ts';
import { isDigitalIn } from './designations.ts';
import type { LaidChannel } from './laid-out.ts';
import type { Point } from './rack.ts';
import type { SupplyLine } from './terminals.ts';

/** Conductors end on the terminals of the channel first; then on the lines of the supply; any more are spare. */
export type Carried = 'signal' | SupplyLine | 'spare';

/** One for each conductor, in the order of their numbers. */
export function conductorsOf(point: Point, { group, module }: LaidChannel): Value<readonly Value<Carried>[]> {
  const { terminals } = group;
  const said = point.conductors;
  return given({ terminals, said }, ({ terminals, said }) => {
    const least =
      point.kind === 'relay' || point.kind === 'thermocouple' ? Math.min(terminals.value, 2) : terminals.value;
    const count = said?.value ?? Math.max(least, 2);
    const lines = supplyLines(point, group.level, `${module.module.path}.channels`);
    return Array.from({ length: count }, (_, at): Value<Carried> => {
      const line = at - terminals.value;
      if (line < 0) return 'signal';
      if (line > 1) return 'spare';
      return lines instanceof Missing ? lines : lines[line]!;
    });
  });
}

/** The line that closes the circuit of the signal: L+ where the channel takes the current, 0 V where it gives it; and the other one, which a device wants that is fed from the supply. */
function supplyLines(point: Point, ofGroup: Point['level'], path: string): Value<readonly [SupplyLine, SupplyLine]> {
  const fromPlus = ['L+', '0 V'] as const;
  const fromZero = ['0 V', 'L+'] as const;
  if (!isDigitalIn(point) && point.kind !== 'digital_out') return fromPlus;
  const level = point.level === undefined || isAbsent(point.level) ? ofGroup : point.level;
  if (level === undefined)
    return missing(`${point.path}.level`, 'absent', `sink or source, here or in ${path}`, 'source');
  return given({ level }, ({ level }) => (level === 'sink' ? fromPlus : fromZero));
}
