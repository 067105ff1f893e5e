// Whether a channel suits a point, and if not, why not.
import type { PointKind } from '../physics/point.ts';
import type { Value } from '../reading/values.ts';
import { printQuantity } from '../units/print-quantity.ts';
import { Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { kindNames } from './kind-names.ts';
import type { ChannelGroup, Point, Range } from './rack.ts';

/**
 * Inputs of a type by IEC 61131-2, with the types of sensors that they go with: an input of type 3 is on from 11 V, one of
 * type 1 from 15 V, both with 2 mA; one of type 2 wants 6 mA (data sheets of modules; type 2 from memory).
 */
const servesTypes = { '1': ['1'], '2': ['2'], '3': ['1', '3'] } as const;

/** Nothing where it suits. What neither of both says is taken to be right, and what is unknown to be unsaid. */
export function whyNot(point: Point, group: ChannelGroup): string | undefined {
  const { kind } = point;
  if (kind instanceof Missing) return 'its kind is not known';
  if (!canBe(group, kind)) return `it is no ${kindNames[kind]}`;
  const [type, ofType] = [known(point.type), known(group.type)];
  if (type !== undefined && ofType !== undefined && !(servesTypes[ofType] as readonly string[]).includes(type))
    return `its inputs are of type ${ofType}, not ${type}`;
  const [level, ofLevel] = [known(point.level), known(group.level)];
  if (level !== undefined && ofLevel !== undefined && level !== ofLevel) return `it is a ${ofLevel}, no ${level}`;
  const range = known(point.range);
  const ranges = known(group.ranges);
  if (range !== undefined && ranges !== undefined && !ranges.some((each) => holds(each, range)))
    return 'it has no such range';
  const [sensor, offered] = [known(point.sensor), known(group.sensors)];
  if (sensor !== undefined && offered !== undefined && !offered.some((each) => each === sensor))
    return `it does not go with ${sensor}`;
  const [failing, fails] = [known(point.fails_to), known(group.fails_to)];
  if (failing !== undefined && fails !== undefined && !fails.some((each) => each === failing))
    return `it cannot go to ${failing} when the controller is gone`;
  return (
    over(point.current, group.current, 'A', 'its output gives') ??
    over(point.frequency, group.frequency, 'Hz', 'it counts') ??
    slower(point, group)
  );
}

export const canBe = ({ kinds }: ChannelGroup, kind: PointKind): boolean =>
  !(kinds instanceof Missing) && kinds.some((each) => each === kind);

const known = <T>(value: Value<T> | undefined): Exclude<T, Missing> | undefined =>
  value === undefined || value instanceof Missing ? undefined : (value as Exclude<T, Missing>);

function holds(range: Value<Range>, wanted: Range): boolean {
  if (range instanceof Missing) return false;
  const ends = [range.from, range.to, wanted.from, wanted.to];
  if (ends.some((each) => each instanceof Missing)) return false;
  const [from, to, least, most] = ends as readonly Quantity[];
  return from!.unit === least!.unit && from!.value <= least!.value && most!.value <= to!.value;
}

function over<U extends 'A' | 'Hz'>(
  need: Value<Quantity<U>> | undefined,
  most: Value<Quantity<U>> | undefined,
  unit: U,
  says: string,
): string | undefined {
  const [wanted, there] = [known(need), known(most)];
  if (wanted === undefined || there === undefined || wanted.value <= there.value) return undefined;
  return `${says} ${printQuantity(there.value, unit)} at most, ${printQuantity(wanted.value, unit)} is needed`;
}

/** A signal shorter than the filter is not seen. A filter that the point states goes before that of the channel. */
function slower(point: Point, group: ChannelGroup): string | undefined {
  const [pulse, filter] = [known(point.pulse), known(point.filter) ?? known(group.filter)];
  if (pulse === undefined || filter === undefined || filter.value <= pulse.value) return undefined;
  return `its filter of ${printQuantity(filter.value, 's')} is longer than the signal, ${printQuantity(pulse.value, 's')}`;
}
