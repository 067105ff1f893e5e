// racks.update: is a point looked at as often as it needs?
import { question } from '../../checks/finding.ts';
import type { NetworkService } from '../../physics/service.ts';
import type { Value } from '../../reading/values.ts';
import { missing } from '../../working/missing.ts';
import type { Origin } from '../../working/origin.ts';
import { Quantity } from '../../working/quantity.ts';
import type { PlannedRacks } from '../planned.ts';
import type { Point } from '../rack.ts';

interface Served {
  readonly racks: PlannedRacks;
  readonly services: readonly NetworkService[];
}

interface Looked {
  readonly point: Point;
  readonly period: Value<Quantity<'s'>>;
}

export const update = question<Served, Looked>({
  id: 'racks.update',
  title: 'Update of a point',
  asks: 'Is the point looked at as often as it needs?',
  page: `Asked of every point at a station of a network of which \`update\` is said. Demand: from one update of its station to the next: the
cycle of the network and how many cycles the station waits for its turn. Capacity: \`update\`, the longest time between two looks. A
point of the rack at the controller is looked at with each task that reads it, and not asked about here.`,
  advice: 'a shorter cycle, a station that is served more often',
  subjects: ({ racks, services }) =>
    racks.locations.flatMap(({ location }) =>
      location.isStation
        ? strictestOf(location.points).map((point) => ({ point, period: periodOf(location.name, services) }))
        : [],
    ),
  name: ({ point }) => point.name,
  path: ({ point }) => point.path,
  reserve: { share: 0, source: 'judgement', because: 'the longest time that will do is what the file says' },
  demand: ({ period }) => period,
  capacity: ({ point }) => point.update!,
  says: (demand, capacity) => `it is looked at every ${demand}, at least every ${capacity} will do`,
});

/** One for each line of the file that says how often. */
function strictestOf(points: readonly Point[]): readonly Point[] {
  const said = points.filter(({ update: wanted }) => wanted !== undefined);
  const lines = new Map(
    said.map((point) => [point.update instanceof Quantity ? (point.update.by as Origin).writtenAt : point.path, point]),
  );
  return said.filter((point) => [...lines.values()].includes(point));
}

const periodOf = (station: string, services: readonly NetworkService[]): Value<Quantity<'s'>> =>
  services.flatMap(({ stations }) => stations).find(({ name }) => name === station)?.period ??
  missing(`networks`, 'absent', `a network with the station ${station}`, 'runs that lead to it');
