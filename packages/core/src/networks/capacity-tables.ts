// How much more a network could carry, and what it would be over other profiles and laid otherwise: tables that take
// longer to make.
import type { Cell, LaterTable, Table } from '../checks/view.ts';
import { given, Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { shortestAllowed } from './calc/cycle.ts';
import { type Added, addedAxes, mostAxesOf, type Reserves } from './capacity.ts';
import { asLine, asStar } from './grow.ts';
import { laying, passerOf } from './laying.ts';
import { type Controller, type Device, type Network, type Profile, stationsOf } from './network.ts';
import { plan } from './planned.ts';

/** What views need beside the plan: the wanted reserves, and what the catalogues offer. */
export interface Surroundings {
  readonly reserve: Quantity<'1'> | Missing | undefined;
  readonly reserves: Reserves;
  readonly controllers: readonly Controller[];
  readonly profiles: readonly Profile[];
  /** Hubs and switches, any of which may be the centre of a star. */
  readonly centres: readonly Device[];
}

export function capacityTables(network: Network, around: Surroundings): readonly LaterTable[] {
  const like = stationsOf(network).findLast((device) => device.axis) ?? stationsOf(network).at(-1);
  return [
    ...(like === undefined ? [] : [mostTable(network, like, around), moreTable(network, like, around)]),
    profilesTable(network, around),
    ...starTable(network, around),
  ];
}

function mostTable(network: Network, like: Device, { controllers, reserves }: Surroundings): LaterTable {
  return later(
    'most_axes',
    `A line of axes like ${like.name} and nothing else: the most that keep the reserves`,
    () => ({
      note: `the other stations of ${network.name} are left out; one axis behind another by runs like that of ${like.name}; reserves as for the checks of this machine`,
      columns: ['controller', 'cycle', 'axes', 'one more breaks'],
      rows: mostAxesOf(network, like, controllers, reserves).map(({ controller, cycle, axes, stops }) => [
        typeof controller.part === 'string' ? controller.part : 'unknown',
        cycle,
        String(axes),
        stops ?? 'nothing',
      ]),
    }),
  );
}

/** How many more axes the table of `networkView` adds. */
export const axesMore = 10;

function moreTable(network: Network, like: Device, { reserves }: Surroundings): LaterTable {
  const share = ({ demand, capacity }: Added['before']): string => `${((demand / capacity) * 100).toPrecision(3)} %`;
  return later('ten_more', `${axesMore} more axes like ${like.name}, what breaks first at the top`, () => ({
    note: `each behind the one before it at the end of the line that ${like.name} is on, by a run like its own; shares are of what may be taken: the cycle, the kernel’s allowed share, the allowed stations and addresses`,
    columns: ['resource', 'taken now', `with ${axesMore} more`, 'reserve broken by'],
    rows: addedAxes(network, like, axesMore, reserves).map((each) => [
      each.resource,
      share(each.before),
      share(each.after),
      each.breaksAt === undefined ? 'never' : each.breaksAt === 0 ? 'broken now' : `${each.breaksAt} more`,
    ]),
  }));
}

function profilesTable(network: Network, { profiles, reserve }: Surroundings): LaterTable {
  return later('profiles', 'The same stations over every profile', () => ({
    note: 'the same runs; whether a profile allows them, and what passes frames on in them, stands in the last column; the shortest cycle keeps the reserve and the least that the profile allows',
    columns: ['profile', 'a cycle needs', 'free', 'shortest cycle', 'runs allowed'],
    rows: profiles.map((profile) => {
      const name = typeof profile.part === 'string' ? profile.part : 'profile';
      const other = plan({ ...network, profile, name: `${network.name}.over_${name}` });
      const shortest =
        reserve === undefined
          ? 'no reserve is known'
          : given({ u: other.used, q: reserve, m: profile.cycle_at_least }, (known) =>
              shortestAllowed(known, other.network.name),
            );
      return [name, other.used, other.free, shortest, layingOf(other.network)];
    }),
  }));
}

/** Whether the profile allows the runs and what passes frames on, in a word or two. */
function layingOf(network: Network): Cell {
  const allowed = laying(network);
  return allowed instanceof Missing ? allowed : allowed.yes ? 'yes' : 'no';
}

/** As a line and as a star, where there is a centre that the profile allows. */
function starTable(network: Network, { centres }: Surroundings): readonly LaterTable[] {
  const stations = stationsOf(network);
  const allowed = network.profile.passes instanceof Missing ? [] : network.profile.passes;
  const fitting = centres.filter((centre) => allowed.includes(passerOf(centre)!));
  if (stations.length < 2 || fitting.length === 0) return [];
  return [
    later('line_and_star', 'The same stations as a line and as a star', () => {
      const line = plan({ ...asLine(network), name: `${network.name}.as_line` });
      const stars = fitting.map((centre) => ({
        centre,
        star: plan({ ...asStar(network, centre), name: `${network.name}.as_star_${centre.name}` }),
      }));
      return {
        note: 'assumed: the centre stands beside the controller and has plugs enough; the run to each station is as long as the line to it was',
        columns: ['laid as', 'exchanges take', 'a cycle needs'],
        rows: [
          ['a line', line.busy, line.used],
          ...stars.map(({ centre, star }) => [`a star on ${centre.name}`, star.busy, star.used]),
        ],
      };
    }),
  ];
}

const later = (name: string, title: string, make: () => Omit<Table, 'name' | 'title'>): LaterTable => ({
  name,
  title,
  make: () => ({ name, title, ...make() }),
});
