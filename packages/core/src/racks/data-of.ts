// What racks hand over: the data of the modules of a remote rack to its network, filters of inputs to the timing.
import type { PointFilter } from '../physics/point-filter.ts';
import type { RackData } from '../physics/rack-data.ts';
import type { Value } from '../reading/values.ts';
import { given, Missing } from '../working/missing.ts';
import { Quantity } from '../working/quantity.ts';
import { octetsOfModules } from './calc/sums.ts';
import type { PlannedLocation } from './planned.ts';

/** Nothing for the rack at the controller, and where no rack is described. */
export function dataOf({ location: { name, path, isStation, section, racks } }: PlannedLocation): RackData | undefined {
  if (!isStation || section === undefined) return undefined;
  const o = (key: 'octetsIn' | 'octetsOut'): readonly Value<Quantity<'bit'>>[] =>
    racks instanceof Missing
      ? [racks]
      : racks.flatMap(({ modules }) => (modules instanceof Missing ? [modules] : modules.map((module) => module[key])));
  return {
    station: name,
    command: given({ o: o('octetsOut') }, (known) => octetsOfModules(known, `${path}.command`)),
    answer: given({ o: o('octetsIn') }, (known) => octetsOfModules(known, `${path}.answer`)),
  };
}

/** Of every point that sits on a channel with a filter and says none of its own. */
export const filtersOf = ({ placed }: PlannedLocation): readonly PointFilter[] =>
  placed.flatMap(({ point, channel: { group } }) =>
    point.filter === undefined && group.filter instanceof Quantity ? [{ point: point.name, filter: group.filter }] : [],
  );
