// How much a network can carry: the most axes by controller and cycle, and what breaks first when axes are added.
import { equalWithin, verdictOf } from '../checks/margin.ts';
import { given, Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { lineOf, withMore } from './grow.ts';
import { kernelOf } from './kernel.ts';
import { type Controller, type Device, type Network, stationsOf } from './network.ts';
import { type Planned, plan } from './planned.ts';

/** What runs out, named as the checks are: time in the cycle, the motion kernel's time, stations, addresses. */
export const resources = ['cycle', 'motion kernel', 'stations', 'addresses'] as const;
export type Resource = (typeof resources)[number];

export interface Use {
  readonly resource: Resource;
  /** Demand and capacity in one unit: seconds of a cycle, or a count. */
  readonly demand: number;
  readonly capacity: number;
}

export interface Reserves {
  readonly cycle: number;
  readonly kernel: number;
}

/** What a network uses of each resource; a resource that lacks data is left out. Shares are of one cycle, in seconds. */
export function usesOf(planned: Planned): readonly Use[] {
  const { network } = planned;
  const { cycle, controller, profile } = network;
  const count = stationsOf(network).length;
  const add = (
    resource: Resource,
    demand: Quantity | Missing | number,
    capacity: Quantity | Missing | number,
  ): readonly Use[] =>
    demand instanceof Missing || capacity instanceof Missing
      ? []
      : [{ resource, demand: numberOf(demand), capacity: numberOf(capacity) }];
  const allowed = given({ cycle, share: controller.kernel_share }, ({ cycle, share }) => cycle.value * share.value);
  const { from, to, taken_by_the_network } = profile.addresses;
  const room = given(
    { from, to, taken: taken_by_the_network },
    ({ from, to, taken }) =>
      to.value - from.value + 1 - taken.filter(({ value }) => value >= from.value && value <= to.value).length,
  );
  return [
    ...add('cycle', planned.used, cycle),
    ...add('motion kernel', kernelOf(planned), allowed),
    ...add('stations', count, profile.stations_at_most),
    ...add('addresses', count, room),
  ];
}

const numberOf = (value: Quantity | number): number => (typeof value === 'number' ? value : value.value);

/** The resource that is overdrawn most, or none. Reserves count for time, not for what is counted. */
export function broken(uses: readonly Use[], reserves: Reserves): Use | undefined {
  const over = uses.filter(
    ({ resource, demand, capacity }) =>
      verdictOf(
        demand,
        capacity,
        resource === 'cycle' ? reserves.cycle : resource === 'motion kernel' ? reserves.kernel : 0,
      ) !== 'holds',
  );
  return over.sort((a, b) => b.demand / b.capacity - a.demand / a.capacity)[0];
}

export interface Most {
  readonly controller: Controller;
  readonly cycle: Quantity<'s'>;
  /** The largest number of axes that keeps the reserves; 0 when not even one does. */
  readonly axes: number;
  /** What one axis more would break. */
  readonly stops: Resource | undefined;
}

/** More than this is not looked for (our judgement: no machine has so many axes on one network). */
const mostAxes = 1000;

/** The largest number of axes like one, in a line, at each cycle of each controller. */
export function mostAxesOf(
  network: Network,
  like: Device,
  controllers: readonly Controller[],
  reserves: Reserves,
): readonly Most[] {
  return controllers.flatMap((controller) =>
    controller.cycles instanceof Missing
      ? []
      : controller.cycles.flatMap((cycle) =>
          cycle instanceof Missing || tooShort(cycle, network)
            ? []
            : [mostAt({ ...network, controller, cycle }, like, reserves)],
        ),
  );
}

const tooShort = (cycle: Quantity<'s'>, { profile }: Network): boolean =>
  !(profile.cycle_at_least instanceof Missing) && cycle.value < profile.cycle_at_least.value * (1 - equalWithin);

function mostAt(network: Network & { readonly cycle: Quantity<'s'> }, like: Device, reserves: Reserves): Most {
  const stops = (count: number): Use | undefined => broken(usesOf(plan(lineOf(network, like, count))), reserves);
  const axes = largest(stops);
  return { controller: network.controller, cycle: network.cycle, axes, stops: stops(axes + 1)?.resource };
}

/** The largest count that nothing stops; what stops one count stops every larger one. */
function largest(stops: (count: number) => unknown): number {
  let low = 0;
  let high = 1;
  while (high <= mostAxes && stops(high) === undefined) [low, high] = [high, high * 2];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (stops(middle) === undefined) low = middle;
    else high = middle;
  }
  return low;
}

export interface Added {
  readonly resource: Resource;
  readonly before: Use;
  readonly after: Use;
  /** With so many more this resource no longer keeps its reserve; nothing when even a thousand do. */
  readonly breaksAt: number | undefined;
}

/** What so many more axes like one do to each resource, the one that breaks first at the top. */
export function addedAxes(network: Network, like: Device, count: number, reserves: Reserves): readonly Added[] {
  const before = usesOf(plan(network));
  const after = usesOf(plan(withMore(network, like, count)));
  const stopped =
    (resource: Resource) =>
    (more: number): Use | undefined =>
      broken(
        usesOf(plan(withMore(network, like, more))).filter((use) => use.resource === resource),
        reserves,
      );
  const added = before.flatMap((use): readonly Added[] => {
    const then = after.find(({ resource }) => resource === use.resource);
    if (then === undefined) return [];
    const stops = stopped(use.resource);
    const fits = stops(0) === undefined ? largest(stops) : -1;
    return [{ resource: use.resource, before: use, after: then, breaksAt: fits >= mostAxes ? undefined : fits + 1 }];
  });
  return [...added].sort((a, b) => (a.breaksAt ?? Number.POSITIVE_INFINITY) - (b.breaksAt ?? Number.POSITIVE_INFINITY));
}
