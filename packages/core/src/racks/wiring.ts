// How everything of the racks is wired: made once for each assessment, so that checks and tables speak of the same numbers.
import type { Value } from '../reading/values.ts';
import { later, onceForEach } from '../working/once.ts';
import { classOfBeside, placeOfDevice, productOf } from './designations.ts';
import type { PlannedLocation, PlannedRacks } from './planned.ts';
import { type Wire, wiresOf } from './wire-list.ts';
import { boxOf } from './wire-sizes.ts';
import { type WiredPoint, wiredPoint } from './wired-point.ts';
import type { Designated } from './wiring-fields.ts';
import type { WiringSettings } from './wiring-settings.ts';

export interface DesignatedThing {
  readonly designation: Value<string>;
  /** In words. */
  readonly what: string;
}

export interface WiredLocation {
  readonly location: PlannedLocation;
  readonly points: readonly WiredPoint[];
  readonly wires: () => readonly Wire[];
  /** Racks, what stands in them, sensors and loads, strips of terminals, cables. */
  readonly designated: () => readonly DesignatedThing[];
}

export interface Wiring {
  readonly settings: WiringSettings;
  readonly locations: readonly WiredLocation[];
}

export const wiringOf: (racks: PlannedRacks) => Wiring = onceForEach(
  ({ locations, wiring: settings }: PlannedRacks) => ({
    settings,
    locations: locations.map((location, at) => {
      const points = location.placed.map((each) => wiredPoint(each, location, at + 1, settings));
      return {
        location,
        points,
        wires: later(() => wiresOf(location, points, at + 1, settings)),
        designated: later(() => [
          ...standing(location, at + 1, settings),
          ...points.map(({ point, designation }) => ({ designation, what: point.name })),
          ...between(location, points, at + 1, settings),
        ]),
      };
    }),
  }),
);

function standing(
  { location: { name }, racks }: PlannedLocation,
  at: number,
  settings: WiringSettings,
): readonly DesignatedThing[] {
  return racks.flatMap(({ label, beside, modules }, rackAt) => {
    const inRack = (place: number | undefined, of: Designated, what: string): readonly DesignatedThing[] =>
      place === undefined
        ? []
        : [{ designation: productOf(of, name, [at, rackAt + 1, place], settings), what: `the ${what} of ${label}` }];
    return [
      { designation: productOf('rack', name, [at, rackAt + 1], settings), what: `the rack ${label}` },
      ...beside.flatMap(({ beside: each, place }) => inRack(place, classOfBeside(each), each.what)),
      ...modules.flatMap(({ place }) => inRack(place, 'module', `module at place ${place}`)),
    ];
  });
}

/** Cables of points, and for each module in use its strip, beside it and in each box, and its cables from the boxes. */
function between(
  { location: { name }, racks }: PlannedLocation,
  points: readonly WiredPoint[],
  at: number,
  settings: WiringSettings,
): readonly DesignatedThing[] {
  const found: DesignatedThing[] = [];
  const seen = new Set<string>();
  for (const { point, channel } of points) {
    const { module, number } = channel;
    const { place, rack, label } = module;
    if (place === undefined) continue;
    const hook = [at, 1 + racks.findIndex((each) => each.rack === rack.rack), place] as const;
    const cable = productOf('cable', placeOfDevice(point), [...hook, number], settings);
    found.push({ designation: cable, what: `the cable of ${point.name}` });
    const box = boxOf(point);
    for (const each of box === undefined ? [name] : [name, box]) {
      if (seen.has(`${label} ${each}`)) continue;
      seen.add(`${label} ${each}`);
      found.push({
        designation: productOf('terminal', each, hook, settings),
        what: `the terminals of ${label} in ${each}`,
      });
      if (each === box)
        found.push({
          designation: productOf('cable', each, hook, settings),
          what: `the cable of ${label} from ${each}`,
        });
    }
  }
  return found;
}
