// Reference designations in the style of IEC 81346: =function, +location, −product. The number of a product is the place that
// it hangs on, so that nothing is numbered anew when a point is added anywhere.
import { inputKinds, outputKinds } from '../physics/point.ts';
import type { Value } from '../reading/values.ts';
import { given, Missing } from '../working/missing.ts';
import { nameOf } from './laid-out.ts';
import type { Beside, Point } from './rack.ts';
import type { Designated } from './wiring-fields.ts';
import type { WiringSettings } from './wiring-settings.ts';

/** What something hangs on, as far as it goes: location and rack, place, channel, all from 1 in the order of the file. */
export type Hook = readonly [location: number, rack: number, place?: number, channel?: number];

/** Digits of location, rack, place and channel; where one needs more, all have the wide ones. No two numbers are the same. */
const narrow = [1, 1, 2, 2];
const wide = [3, 2, 3, 3];

/** 1104 is place 4 of rack 1 at location 1, 110407 its channel 7. */
export function numberOf(hook: Hook): string {
  const parts = hook.map(String);
  const widths = parts.every((each, at) => each.length <= narrow[at]!) ? narrow : wide;
  return parts.map((each, at) => each.padStart(widths[at]!, '0')).join('');
}

/** +main-K1104 */
export const productOf = (what: Designated, location: string, hook: Hook, { letter }: WiringSettings): Value<string> =>
  given({ letters: letter(what) }, ({ letters }) => `+${location}-${letters}${numberOf(hook)}`);

export const classOfBeside = ({ what }: Beside): Designated => (what === 'supply' ? 'supply' : 'module');

/** Of the sensor or load of a point: =feeding+box_2-B110407. What the file says goes before what follows from its channel. */
export function deviceOf(point: Point, hook: Hook, settings: WiringSettings): Value<string> {
  const { designation: said, function: belongs } = point;
  const own = /^(=[^+-]+)?(\+[^-]+)?(-.+)$/;
  return given({ said, belongs, letters: settings.letter(classOf(point)) }, ({ said, belongs, letters }) => {
    const [, task, location, product] = own.exec(said ?? '') ?? [];
    const inFunction = task ?? (belongs === undefined ? '' : `=${belongs}`);
    return `${inFunction}${location ?? `+${placeOfDevice(point)}`}${product ?? `-${letters}${numberOf(hook)}`}`;
  });
}

/** Where the device of a point is: the cabinet or box that its wire leads to, else where its rack is. */
export const placeOfDevice = ({ cabinet, location }: Point): string => nameOf(cabinet) ?? location;

const isOne = (kinds: readonly string[], { kind }: Point): boolean =>
  !(kind instanceof Missing) && kinds.includes(kind);
export const isInput = (point: Point): boolean => isOne(inputKinds, point);
export const isDigitalIn = (point: Point): boolean => isOne(['digital_in', 'fast_in', 'capture'], point);
export const isOutput = (point: Point): boolean => isOne(outputKinds, point);

function classOf(point: Point): Designated {
  if (isOutput(point)) return 'load';
  if (!isInput(point)) return 'line';
  return point.status_of === 'emergency_stop' ? 'switch' : 'sensor';
}
