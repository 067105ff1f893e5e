// Where the modules of a file stand while the supply before them is to be chosen, and why nothing can be chosen for a location.
import { counted } from '../working/counted.ts';
import { isOpen, Missing } from '../working/missing.ts';
import { Quantity } from '../working/quantity.ts';
import { channelSaid, layOut, nameOf } from './laid-out.ts';
import type { OfferedPower } from './offers.ts';
import { type PlannedLocation, summed } from './planned.ts';
import type { Location, Point } from './rack.ts';
import { racksSaid } from './section.ts';

export interface Standing {
  readonly planned: PlannedLocation;
  /** By rack: places of its supply, as they are counted for the labels of channels. */
  readonly counted: readonly number[];
  /** By rack: the only number of places that its supply may have, since points sit on channels behind it. */
  readonly fixed: readonly (number | undefined)[];
}

/** Supplies that are open are laid out as wide as one of the offered ones: as the points that have channels need it. */
export function standing(planned: PlannedLocation, powers: readonly Pick<OfferedPower, 'places'>[]): Standing {
  const { location } = planned;
  const { section, name } = location;
  const said = section === undefined || section.open ? [] : racksSaid(section);
  const widths = [...new Set(powers.map(({ places }) => places))].sort((one, other) => one - other);
  const isWired = (rack: number): boolean =>
    location.points.some(
      ({ channel }) => !(channel instanceof Missing) && channel.location === name && channel.rack === rack + 1,
    );
  const fixed: (number | undefined)[] = [];
  let stands = location;
  for (const [at, { power, modules }] of said.entries()) {
    if (!isOpen(power.part) || modules instanceof Missing || widths.length === 0) continue;
    const tried = widths.map((places) => withSupply(stands, at, places));
    const wrong = tried.map((each) => layOut(each).wrong.length);
    const best = wrong.indexOf(Math.min(...wrong));
    stands = tried[best]!;
    if (isWired(at)) fixed[at] = widths[best];
  }
  if (stands === location) return { planned, counted: said.map((_, at) => supplyAt(location, at)), fixed };
  const laid = layOut(stands);
  return {
    planned: { ...planned, ...laid, racks: laid.racks.map(summed) },
    counted: said.map((_, at) => supplyAt(stands, at)),
    fixed,
  };
}

const withSupply = (location: Location, rack: number, places: number): Location => ({
  ...location,
  racks:
    location.racks instanceof Missing
      ? location.racks
      : location.racks.map((each, at) =>
          at !== rack
            ? each
            : {
                ...each,
                beside: each.beside.map((part) =>
                  part.what === 'supply' ? { ...part, places: counted(each.path, places, 'supply_places') } : part,
                ),
              },
        ),
});

function supplyAt({ racks }: Location, rack: number): number {
  const supply = racks instanceof Missing ? undefined : racks[rack]?.beside.find(({ what }) => what === 'supply');
  return supply?.places instanceof Quantity ? supply.places.value : 0;
}

/** More names than these are not read in a sentence (our judgement). */
const mostNames = 6;

/** In a sentence; nothing where it can be chosen. `all` are the points of the whole machine. */
export function whyRefused({ location, racks }: PlannedLocation, all: readonly Point[]): string | undefined {
  const { name, points } = location;
  const seated = new Set(
    racks.flatMap(({ modules }) => modules.flatMap(({ channels }) => channels.flatMap((each) => each.points))),
  );
  const stray = points.filter((point) => !(point.channel instanceof Missing) && !seated.has(point));
  if (stray.length > 0) {
    const told = stray.slice(0, mostNames).map((point) => `${point.name} (${channelSaid(point)})`);
    const more = stray.length > mostNames ? ` and ${stray.length - mostNames} more` : '';
    const its = stray.length === 1 ? 'its channel' : 'these channels';
    return `Points at ${name} have channels where the file names no module: ${told.join(', ')}${more}. Name the modules that are there (modules: [in_12], with added: open for more), or leave ${its} open, under planned too.`;
  }
  for (const team of new Set(points.flatMap(({ together }) => nameOf(together) ?? []))) {
    const places = new Set(all.flatMap((each) => (nameOf(each.together) === team ? [each.location] : [])));
    if (places.size > 1)
      return `The points of ${team} shall sit together on one module, and are at ${[...places].join(' and ')}. Give them one place, or names of their own under together.`;
  }
  return undefined;
}
