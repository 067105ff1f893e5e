// How thick the conductors of a point are and what voltage they take.
import type { Value } from '../reading/values.ts';
import { given, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { print } from '../working/working.ts';
import { lostOnWire, sectionFor, warmResistance, wireResistance } from './calc/wires.ts';
import { isInput, isOutput } from './designations.ts';
import { nameOf } from './laid-out.ts';
import type { ChannelGroup, Point } from './rack.ts';
import type { InputType, WiringSettings } from './wiring-settings.ts';

/** The box that the wire of a point leads to first, where that is not the cabinet of its rack. */
export function boxOf({ cabinet, location }: Point): string | undefined {
  const name = nameOf(cabinet);
  return name === location ? undefined : name;
}

/** From the device to the box, or to the rack where none is between. */
export const lengthOf = ({ wire, path }: Point): Value<Quantity<'m'>> =>
  wire ?? missing(`${path}.wire`, 'absent', 'a length', '12 m');

export const lengthFrom = (box: string, { boxes }: WiringSettings): Value<Quantity<'m'>> =>
  boxes.get(box) ?? missing(`cabinet.wiring.boxes.${box}.wire`, 'absent', 'a length', '20 m');

/** What the file says, of the point or of all; else what carries the current of an output; else that of a signal. */
export function sectionOf(point: Point, group: ChannelGroup, settings: WiringSettings): Value<Quantity<'m²'>> {
  const said = point.section ?? settings.section;
  if (said !== undefined) return said;
  if (!isOutput(point) || point.kind === 'analogue_out') return settings.ofSignals;
  const current = point.current ?? group.current ?? missing(`${point.path}.current`, 'absent', 'a current', '0.5 A');
  return sectionCarrying(current, point.name, settings);
}

/** Of what all channels of a group share. */
export function sectionOfGroup(group: ChannelGroup, path: string, about: string, settings: WiringSettings) {
  const { current, current_sum } = group;
  if (settings.section !== undefined) return settings.section;
  if (current === undefined && current_sum === undefined) return settings.ofSignals;
  const sum = current_sum ?? missing(`${path}.current_sum`, 'absent', 'the current of all its outputs', '4 A');
  return sectionCarrying(sum, about, settings);
}

export function sectionCarrying(
  current: Value<Quantity<'A'>>,
  about: string,
  { carries }: WiringSettings,
): Value<Quantity<'m²'>> {
  const rows = carries instanceof Missing ? [] : carries;
  const asked = { carries, i: current, A: rows.map(({ section }) => section), I: rows.map((row) => row.current) };
  return given(asked, ({ i, A, I }) => {
    const section = sectionFor({ i, A, I }, about);
    return Number.isFinite(section.value)
      ? section
      : missing('cabinet.wiring.carries', 'absent', `a section that carries ${print(i)}`, '[[16 mm², 54 A]]');
  });
}

/** The current on the wire of a point; nothing where the file does not say that of a load, or no type of an input. */
export function currentOn(
  point: Point,
  group: ChannelGroup,
  { inputs }: WiringSettings,
): Value<Quantity<'A'>> | undefined {
  if (!isInput(point)) return point.current;
  const type = typeOf(point, group);
  return type instanceof Missing ? type : type && inputs[type].draws;
}

/** Of the input itself; that of the sensor where the module does not say its own. */
export const typeOf = (point: Point, group: ChannelGroup): Value<InputType> | undefined => group.type ?? point.type;

/** What each part of the way takes, out and back: from the rack to the box where there is one, and on to the device. */
export function lostOf(
  point: Point,
  section: Value<Quantity<'m²'>>,
  current: Value<Quantity<'A'>>,
  settings: WiringSettings,
): Value<readonly Quantity<'V'>[]> {
  const box = boxOf(point);
  const lengths = [lengthOf(point), ...(box === undefined ? [] : [lengthFrom(box, settings)])];
  const { resistivity: ρ, resistivityAt: K, warmest: T, coefficient: α } = settings;
  return given({ lengths, A: section, i: current, ρ, K, T, α }, ({ lengths, A, i, ρ, K, T, α }) =>
    lengths.map((l, leg) => {
      const about = leg === 0 ? point.name : `${point.name}.${box}`;
      return lostOnWire({ R: warmResistance({ R: wireResistance({ ρ, l, A }, about), α, T, K }, about), i }, about);
    }),
  );
}
