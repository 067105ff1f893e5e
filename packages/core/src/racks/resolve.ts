// The racks of the file with their parts filled in, and the points of each.
import type { PointKind } from '../physics/point.ts';
import type { PointPulse } from '../physics/point-pulse.ts';
import { fill, type PartLookUp, type PartUse, partName } from '../reading/parts.ts';
import type { Value } from '../reading/values.ts';
import { isAbsent, isOpen, isUnsaid, Missing, missing } from '../working/missing.ts';
import { accessoriesIn, extenderFields, headFields, moduleFields, powerFields, rackFields } from './parts.ts';
import type { Beside, Location, Module, Point, Rack, RackDesign } from './rack.ts';
import {
  atController,
  type LocationSection,
  type OneRackSection,
  type racksField,
  racksSaid,
  type Spare,
} from './section.ts';
import { healthyFields, type WiringSection } from './wiring-fields.ts';
import { wiringSettings } from './wiring-settings.ts';

export type { RackDesign };

type Use = PartUse<Record<never, never>>;

export interface RacksOfFile {
  readonly racks: ReturnType<(typeof racksField)['read']>;
  readonly points: readonly (Omit<Point, 'location' | 'kind'> & {
    readonly kind: Value<PointKind>;
    readonly at: Value<{ readonly name: string }> | undefined;
  })[];
  /** Of points whose pulses a task counts: their shortest signal where they say none. */
  readonly pulses: readonly PointPulse[];
  readonly controller: Use;
  readonly cabinet: { readonly wiring: WiringSection };
  /** Stations that are no axes: a rack can hang on each. */
  readonly nodes: readonly (Use & { readonly name: string })[];
}

/** `look` finds parts without counting them among those in use: the networks count controller and stations. */
export function resolveRacks(
  { racks, points, pulses, controller, nodes, cabinet }: RacksOfFile,
  spare: Spare | undefined,
  partOf: PartLookUp,
  look: PartLookUp,
): RackDesign {
  const counted = new Map(pulses.map(({ point, pulse }) => [point, pulse]));
  const placed = points.map(({ at, ...point }): Point => {
    const location = at === undefined ? atController : at instanceof Missing ? undefined : at.name;
    return { ...point, pulse: point.pulse ?? counted.get(point.name), location: location ?? '' };
  });
  const known = new Map(racks.locations.map((section) => [section.name, section]));
  // A point can hang on a station that has no rack, such as the input of a drive.
  const isRack = (name: string): boolean =>
    known.has(name) || (racks.open && (name === atController || nodes.some((node) => node.name === name)));
  const names = [...new Set([...known.keys(), ...placed.map(({ location }) => location).filter(isRack)])];
  return {
    alone: racks.locations.length === 0 && !racks.open ? placed : [],
    spare,
    wiring: wiringSettings(cabinet.wiring),
    locations: names.map((name) => {
      const section = known.get(name);
      const path = `racks.${name}`;
      const node = nodes.find((each) => each.name === name);
      const use = name === atController ? controller : node;
      const head = headOf(use, name, look);
      return {
        name,
        path,
        section,
        isStation: name !== atController,
        head,
        healthy: name === atController ? healthyOf(controller, look) : undefined,
        racks: racksOf(name, path, section, head, partOf),
        extender: extenderOf(section, path, look),
        points: placed.filter(({ location }) => location === name),
      };
    }),
  };
}

function headOf(use: Use | undefined, name: string, look: PartLookUp): Beside {
  const what = name === atController ? 'controller' : 'station';
  if (use === undefined) {
    const none = missing('networks', 'absent', `a network with the station ${name}`, 'runs that lead to it');
    return { what, path: `racks.${name}`, part: none, places: none, draws: none };
  }
  const filled = fill(use as PartUse<typeof headFields>, look(use), headFields);
  return { what, path: use.path, part: partName(use), places: filled.rack_places, draws: filled.rack_draws };
}

/** A controller that says nothing of such a contact has none. */
function healthyOf(controller: Use, look: PartLookUp): Location['healthy'] {
  const use = controller as PartUse<typeof healthyFields>;
  const { healthy_contact: healthy } = fill(use, look(use), healthyFields);
  const isSaid = use.healthy_contact !== undefined || !isUnsaid(healthy.voltage) || !isUnsaid(healthy.current);
  return isSaid ? healthy : undefined;
}

function racksOf(
  name: string,
  path: string,
  section: LocationSection | undefined,
  head: Beside,
  partOf: PartLookUp,
): Value<readonly Rack[]> {
  if (section === undefined || section.open)
    return missing(path, 'open', 'racks with their modules', 'rack, power, modules');
  const { further } = section;
  if (further instanceof Missing && !isOpen(further)) return further;
  const [, ...rest] = racksSaid(section);
  const joins = rest.length === 0 ? [] : [besideOf('extender', section.extender, extenderFields, partOf)];
  return [
    rackOf(name, section, [head, ...joins], partOf),
    ...rest.map((each, at) => rackOf(`${name}/${at + 2}`, each, joins, partOf)),
  ];
}

function rackOf(label: string, said: OneRackSection, beside: readonly Beside[], partOf: PartLookUp): Rack {
  const rack = fill(said.rack, partOf(said.rack), rackFields);
  const power = fill(said.power, partOf(said.power), powerFields);
  const added = said.added === undefined || said.added instanceof Missing ? [] : said.added;
  return {
    label,
    path: said.path,
    part: partName(said.rack),
    ...rack,
    gives: power.gives,
    feed: power.feed,
    lowest: power.lowest,
    highest: power.highest,
    beside: [
      {
        what: 'supply',
        path: said.power.path,
        part: partName(said.power),
        places: power.places,
        draws: undefined,
        protective: power.protective,
      },
      ...beside,
    ],
    modules:
      said.modules instanceof Missing ? said.modules : [...said.modules, ...added].map((use) => moduleOf(use, partOf)),
  };
}

function moduleOf(use: PartUse<typeof moduleFields>, partOf: PartLookUp): Module {
  const part = partOf(use);
  const { octets_in, octets_out, channels, places, draws, comes_with } = fill(use, part, moduleFields);
  return {
    path: use.path,
    part: partName(use),
    title: part?.title ?? partName(use),
    places,
    draws,
    groups: channels,
    comesWith: accessoriesIn(comes_with),
    octetsIn: octets_in,
    octetsOut: octets_out,
  };
}

function besideOf(
  what: Beside['what'],
  use: PartUse<typeof extenderFields>,
  fields: typeof extenderFields,
  partOf: PartLookUp,
): Beside {
  const { places, draws } = fill(use, partOf(use), fields);
  return { what, path: use.path, part: partName(use), places, draws };
}

function extenderOf(section: LocationSection | undefined, path: string, look: PartLookUp): Location['extender'] {
  if (section === undefined || isAbsent(section.extender.part) || section.extender.absent) {
    const none = missing(`${path}.extender`, 'absent', 'a part of kind extender', 'extender_4');
    return { part: none, racksAtMost: none };
  }
  const { racks_at_most } = fill(section.extender, look(section.extender), extenderFields);
  return { part: partName(section.extender), racksAtMost: racks_at_most };
}
