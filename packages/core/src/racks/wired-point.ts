// A point on its channel with what its wiring comes to: one number for each address, whoever asks.
import type { Value } from '../reading/values.ts';
import { given, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { lostTogether } from './calc/wires.ts';
import { deviceOf } from './designations.ts';
import type { LaidChannel } from './laid-out.ts';
import type { PlannedLocation } from './planned.ts';
import type { Point } from './rack.ts';
import { currentOn, lostOf, sectionOf } from './wire-sizes.ts';
import type { WiringSettings } from './wiring-settings.ts';

export interface WiredPoint {
  readonly point: Point;
  readonly channel: LaidChannel;
  /** Of its sensor or load. */
  readonly designation: Value<string>;
  readonly section: Value<Quantity<'m²'>>;
  /** What its wire takes, out and back; nothing where the file does not say how long it is or what it carries. */
  readonly lost: Value<Quantity<'V'>> | undefined;
}

/** `at` is the number of the location, from 1. */
export function wiredPoint(
  { point, channel }: { readonly point: Point; readonly channel: LaidChannel },
  { racks }: PlannedLocation,
  at: number,
  settings: WiringSettings,
): WiredPoint {
  const { place, rack } = channel.module;
  const rackAt = 1 + racks.findIndex((each) => each.rack === rack.rack);
  const section = sectionOf(point, channel.group, settings);
  const current = currentOn(point, channel.group, settings);
  return {
    point,
    channel,
    designation:
      place === undefined
        ? missing(rack.rack.path, 'absent', 'the places of what stands before its module', 'places: 1')
        : deviceOf(point, [at, rackAt, place, channel.number], settings),
    section,
    lost:
      point.wire === undefined || current === undefined
        ? undefined
        : given({ u: lostOf(point, section, current, settings) }, ({ u }) => lostTogether({ u }, point.name)),
  };
}
