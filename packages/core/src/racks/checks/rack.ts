// racks.places, racks.supply, racks.feed, racks.extender: does what a rack holds fit into it, and does its supply bear it?
import { question } from '../../checks/finding.ts';
import type { Value } from '../../reading/values.ts';
import { printQuantity } from '../../units/print-quantity.ts';
import { counted } from '../../working/counted.ts';
import { given } from '../../working/missing.ts';
import type { Quantity } from '../../working/quantity.ts';
import type { PlannedLocation, PlannedRack, PlannedRacks } from '../planned.ts';

const racksOf = ({ locations }: PlannedRacks): readonly PlannedRack[] => locations.flatMap(({ racks }) => racks);

export const places = question<PlannedRacks, PlannedRack>({
  id: 'racks.places',
  title: 'Places',
  asks: 'Does the rack have a place for each of its modules?',
  page: `Asked of every rack. Demand: the places of its supply, of the controller or station in the first rack, of what joins
racks where there are several, and of all modules. Capacity: the places of the rack. A free place is no free channel: how
many channels are free, \`racks.spare\` tells.`,
  advice: 'a wider rack, a further rack, modules with more channels',
  subjects: racksOf,
  name: ({ label }) => label,
  path: ({ rack }) => rack.path,
  reserve: { share: 0, source: 'judgement', because: 'spare is asked of channels; a free place is more than that' },
  demand: ({ taken }) => taken,
  capacity: ({ rack }) => rack.places,
  says: (demand, capacity) => `${demand} of ${capacity} places are taken`,
});

export const supply = question<PlannedRacks, PlannedRack>({
  id: 'racks.supply',
  title: 'Supply of the rack',
  asks: 'Does the supply of the rack bear what its modules draw?',
  page: `Asked of every rack. Demand: what the controller or station and all modules draw from the rack at most, together.
Capacity: what the supply gives. What outputs and sensors draw comes from the 24 V supply of the machine and is not among it.`,
  advice: 'a larger supply, a further rack, modules that draw less',
  subjects: racksOf,
  name: ({ label }) => label,
  path: ({ rack }) => rack.path,
  reserve: {
    share: 0.2,
    source: 'common-practice',
    because: 'a supply is loaded with four fifths, so that it stays cool',
  },
  demand: ({ drawn }) => drawn,
  capacity: ({ rack }) => rack.gives,
  says: (demand, capacity) => `the modules draw ${demand}, the supply gives ${capacity}`,
});

interface Fed {
  readonly rack: PlannedRack;
  readonly feed: NonNullable<NonNullable<PlannedLocation['location']['section']>['feed']>;
}

export const feed = question<PlannedRacks, Fed>({
  id: 'racks.feed',
  title: 'Feed of the rack',
  asks: 'Can the supply of the rack be fed with what there is?',
  page: `Asked of every rack whose location says its \`feed\`: the supply must be for that kind of current, and the lowest and
the highest voltage must lie within what it states. Cautions for mains are those of local codes and of a licensed electrician.`,
  advice: 'a supply for this feed, another feed',
  subjects: ({ locations }) =>
    locations.flatMap(({ location, racks }) => {
      const said = location.section?.feed;
      return said === undefined ? [] : racks.map((rack) => ({ rack, feed: said }));
    }),
  name: ({ rack }) => rack.label,
  path: ({ rack }) => rack.rack.path,
  answer: ({ rack: { rack }, feed: { kind, lowest, highest } }) =>
    given(
      { kind, lowest, highest, own: rack.feed, from: rack.lowest, to: rack.highest },
      ({ kind, lowest, highest, own, from, to }) => {
        const volts = (from: Quantity, to: Quantity): string =>
          `${printQuantity(from.value, 'V')} to ${printQuantity(to.value, 'V')} ${''}`.trim();
        const yes = kind === own && from.value <= lowest.value && highest.value <= to.value;
        const is = `it takes ${volts(from, to)} ${own}, and is fed with ${volts(lowest, highest)} ${kind}`;
        return { yes, because: is };
      },
    ),
});

export const extender = question<PlannedRacks, PlannedLocation>({
  id: 'racks.extender',
  title: 'Joined racks',
  asks: 'Can so many racks be joined?',
  page: `Asked where there is more than one rack. Demand: how many racks there are. Capacity: how many the part that joins
them states.`,
  advice: 'wider racks, another part that joins them, a remote rack',
  subjects: ({ locations }) => locations.filter(({ racks }) => racks.length > 1),
  name: ({ location }) => location.name,
  path: ({ location }) => location.path,
  reserve: { share: 0, source: 'judgement', because: 'it either goes or it does not' },
  demand: ({ location, racks }) => counted(location.path, racks.length),
  capacity: ({ location }): Value<Quantity> => location.extender.racksAtMost,
  says: (demand, capacity) => `${demand} racks are joined, ${capacity} can be`,
});
