// Where points can sit, as part of the model that chooses racks: every point on a channel that suits it, the spare free, and no
// module with more points, current or potentials than it has room for.
//
// Channels of a new kind of module are counted together over all modules of the kind. That is exact as long as points may sit on
// any of them. Points that shall be together or apart tell single modules apart, which are then variables of their own; so do
// loads of several currents that share a supply, when the model is to be exact.

import { plural } from '../problems/wording.ts';
import type { Handle, ModelMaker, Sum } from './calc/model-maker.ts';
import { type PointClass, suitsClass } from './choose-classes.ts';
import type { GivenGroup, Task } from './choose-model.ts';
import { kindNames } from './kind-names.ts';
import type { OfferedModule } from './offers.ts';
import type { ChannelGroup } from './rack.ts';
import { canBe } from './suits.ts';

/** Where points of a class can sit, with the variable that says how many do. */
export interface Seat {
  readonly of: PointClass;
  readonly count: Handle;
  readonly group: ChannelGroup;
  /** A module that is there, one of the new ones of a kind told apart, or any new one of a kind. */
  readonly at:
    | { readonly given: GivenGroup }
    | { readonly type: number; readonly groupAt: number; readonly instance: number | undefined };
}

/** A new module of a kind that is told apart from the others of its kind. */
interface Single {
  readonly type: number;
  readonly instance: number;
  readonly used: Handle;
}

export function seatsOf(
  maker: ModelMaker,
  task: Task,
  modules: readonly (readonly Handle[])[],
  exact: boolean,
): readonly Seat[] {
  const { name, classes, offers } = task;
  const special = new Set(classes.filter((each) => isSpecial(each, classes, offers.modules, exact)));
  const spare = new Spare(maker, task.spare);
  const given = task.given.flatMap((pool) => seatsOnGiven(maker, pool, classes, spare));
  const singles: Single[] = [];
  const fresh = offers.modules.flatMap((offer, type) => {
    const there = modules.map((slot): readonly [Handle, number] => [slot[type]!, 1]);
    const own = singlesOf(maker, offer, type, special, there);
    singles.push(...own);
    return offer.groups.flatMap((group, groupAt) =>
      seatsOnKind(maker, { offer, type, group, groupAt, there, singles: own }, classes, special, spare),
    );
  });
  const seats = [...given, ...fresh];
  for (const each of classes) {
    const sum = sumOf(seats.filter(({ of }) => of === each));
    maker.exactly(each.says, sum, each.points.length, `${each.says} at ${name}`);
  }
  spare.wanted(name);
  teams(maker, task, seats, singles);
  return seats;
}

/** Channels that stay free. */
class Spare {
  readonly #maker: ModelMaker;
  readonly #kinds: readonly {
    readonly kind: PointClass['kind'];
    readonly free: number;
    readonly at: [Handle, number][];
  }[];

  constructor(maker: ModelMaker, kinds: Task['spare']) {
    this.#maker = maker;
    this.#kinds = kinds.filter(({ free }) => free > 0).map((each) => ({ ...each, at: [] }));
  }

  /** How many of a group stay free, for each kind that it can be. */
  at(where: string, group: ChannelGroup): Sum {
    return this.#kinds.flatMap(({ kind, at }) => {
      if (!canBe(group, kind)) return [];
      const handle = this.#maker.count(`free ${kindNames[kind]}s ${where}`);
      at.push([handle, 1]);
      return [[handle, 1] as const];
    });
  }

  wanted(name: string): void {
    for (const { kind, free, at } of this.#kinds)
      this.#maker.atLeast(
        `free ${kindNames[kind]}s`,
        at,
        free,
        `${plural(free, kindNames[kind])} left free at ${name}`,
      );
  }
}

function seatsOnGiven(
  maker: ModelMaker,
  pool: GivenGroup,
  classes: readonly PointClass[],
  spare: Spare,
): readonly Seat[] {
  const { label, group, groupAt, left_A, potential, free } = pool;
  const where = `at ${label} group ${groupAt + 1}`;
  const own = classes
    .filter((each) => suitsClass(each, group) && (potential === undefined || potential === each.potential))
    .map((of): Seat => ({ of, group, at: { given: pool }, count: counting(maker, of, where) }));
  maker.atMost(`channels ${where}`, [...sumOf(own), ...spare.at(where, group)], free);
  if (left_A !== Infinity) maker.atMost(`current ${where}`, currentOf(own), left_A);
  if (potential === undefined) potentialsOf(maker, where, own, free, { most: 1, sum_A: left_A });
  return own;
}

interface Kind {
  readonly offer: OfferedModule;
  readonly type: number;
  readonly group: ChannelGroup;
  readonly groupAt: number;
  /** How many new modules of the kind there are. */
  readonly there: Sum;
  readonly singles: readonly Single[];
}

function seatsOnKind(
  maker: ModelMaker,
  { offer, type, group, groupAt, there, singles }: Kind,
  classes: readonly PointClass[],
  special: ReadonlySet<PointClass>,
  spare: Spare,
): readonly Seat[] {
  const channels = countOf(group);
  const where = `on ${offer.part} group ${groupAt + 1}`;
  const sum_A = sumOfGroup(group);
  const fitting = classes.filter((each) => suitsClass(each, group));
  const apart = singles.map(({ instance, used }) => {
    const on = `${where} of number ${instance + 1}`;
    const own = fitting
      .filter((each) => special.has(each))
      .map((of): Seat => ({ of, group, at: { type, groupAt, instance }, count: counting(maker, of, on) }));
    maker.atMost(`channels ${on}`, [...sumOf(own), [used, -channels]], 0);
    if (sum_A !== Infinity) maker.atMost(`current ${on}`, [...currentOf(own), [used, -sum_A]], 0);
    return { own, potentials: potentialsOf(maker, on, own, channels, { most: 1, sum_A }) };
  });
  const others = fitting
    .filter((each) => !special.has(each))
    .map((of): Seat => ({ of, group, at: { type, groupAt, instance: undefined }, count: counting(maker, of, where) }));
  const seats = [...apart.flatMap(({ own }) => own), ...others];
  maker.atMost(`channels ${where}`, [...sumOf(seats), ...spare.at(where, group), ...times(there, -channels)], 0);
  const loads = others.filter(({ of }) => of.current_A > 0);
  // How many loads of the same current one group bears; of several currents, their sum over all modules is limited.
  const bears = bearing(loads, sum_A, channels);
  if (bears < channels) maker.atMost(`loads ${where}`, [...sumOf(loads), ...times(there, -bears)], 0);
  if (sum_A !== Infinity) maker.atMost(`current ${where}`, [...currentOf(seats), ...times(there, -sum_A)], 0);
  const potentials = potentialsOf(maker, where, seats, channels, { there, sum_A });
  for (const [potential, groups] of potentials) {
    const chosen = apart.flatMap((each) => each.potentials.get(potential) ?? []);
    maker.atMost(`groups of ${potential} ${where}`, [...chosen.map((each) => [each, 1] as const), [groups, -1]], 0);
  }
  return seats;
}

/** How many loads one group bears where all have the same current; as many as it has channels where they differ. */
function bearing(loads: readonly Seat[], sum_A: number, channels: number): number {
  const [current, ...others] = new Set(loads.map(({ of }) => of.current_A));
  return current === undefined || others.length > 0 ? channels : Math.floor(sum_A / current + 1e-9);
}

const counting = (maker: ModelMaker, of: PointClass, where: string): Handle =>
  maker.count(`${of.says} ${where}`, { most: of.points.length });
const sumOf = (seats: readonly Seat[]): Sum => seats.map(({ count }) => [count, 1]);
const currentOf = (seats: readonly Seat[]): Sum =>
  seats.flatMap(({ of, count }) => (of.current_A > 0 ? [[count, of.current_A] as const] : []));
const times = (sum: Sum, factor: number): Sum => sum.map(([handle, each]) => [handle, factor * each]);
const countOf = ({ count }: ChannelGroup): number => ('value' in count ? count.value : 0);

/** What the outputs of a group give together; Infinity where nothing is stated. */
export const sumOfGroup = ({ current_sum }: ChannelGroup): number =>
  current_sum !== undefined && 'value' in current_sum ? current_sum.value : Infinity;

/**
 * Channels of one group carry points of one potential: gives how many groups each potential has, where there are several. `most`
 * groups there are, or one in each of the modules that are `there`; each of them gives `sum_A` to its loads.
 */
function potentialsOf(
  maker: ModelMaker,
  where: string,
  seats: readonly Seat[],
  channels: number,
  { most = 0, there = [], sum_A }: { readonly most?: number; readonly there?: Sum; readonly sum_A: number },
): ReadonlyMap<string, Handle> {
  const names = [...new Set(seats.map(({ of }) => of.potential))];
  if (names.length < 2) return new Map();
  const groups = new Map(names.map((name) => [name, maker.count(`groups of potential ${name} ${where}`)]));
  maker.atMost(
    `potentials ${where}`,
    [...[...groups.values()].map((each) => [each, 1] as const), ...times(there, -1)],
    most,
  );
  for (const [name, handle] of groups) {
    const own = seats.filter(({ of }) => of.potential === name);
    maker.atMost(`points of potential ${name} ${where}`, [...sumOf(own), [handle, -channels]], 0);
    const loads = own.filter(({ of, at }) => of.current_A > 0 && 'type' in at && at.instance === undefined);
    const bears = bearing(loads, sum_A, channels);
    if (bears < channels) maker.atMost(`loads of potential ${name} ${where}`, [...sumOf(loads), [handle, -bears]], 0);
    if (sum_A !== Infinity)
      maker.atMost(`current of potential ${name} ${where}`, [...currentOf(own), [handle, -sum_A]], 0);
  }
  return groups;
}

/** Whether single modules have to be told apart for its points. */
function isSpecial(
  own: PointClass,
  classes: readonly PointClass[],
  modules: readonly OfferedModule[],
  exact: boolean,
): boolean {
  if (own.together !== undefined || own.apart !== undefined) return true;
  return (
    exact && own.current_A > 0 && modules.some(({ groups }) => groups.some((group) => isMixed(own, group, classes)))
  );
}

/** Whether loads of several currents can be too much for a group before its channels are used up. */
function isMixed(own: PointClass, group: ChannelGroup, classes: readonly PointClass[]): boolean {
  const sum_A = sumOfGroup(group);
  if (sum_A === Infinity || !suitsClass(own, group)) return false;
  const currents = classes.flatMap((each) => (each.current_A > 0 && suitsClass(each, group) ? [each.current_A] : []));
  return new Set(currents).size > 1 && countOf(group) * Math.max(...currents) > sum_A;
}

/** As many modules of a kind are told apart as its points could need in the worst case. */
function singlesOf(
  maker: ModelMaker,
  { part, groups }: OfferedModule,
  type: number,
  special: ReadonlySet<PointClass>,
  there: Sum,
): readonly Single[] {
  const fitting = [...special].filter((each) => groups.some((group) => suitsClass(each, group)));
  const points = fitting.reduce((sum, each) => sum + each.points.length, 0);
  if (points === 0) return [];
  const most_A = Math.max(...fitting.map((each) => each.current_A));
  const bearing = groups.reduce((sum, group) => {
    const loads = most_A === 0 ? Infinity : Math.floor(sumOfGroup(group) / most_A + 1e-9);
    return sum + Math.min(countOf(group), loads);
  }, 0);
  const teams = new Set(fitting.flatMap(({ together, potential }) => [`team ${together}`, `potential ${potential}`]));
  const apart = fitting.filter((each) => each.apart !== undefined).length;
  const count = Math.min(points, Math.ceil(points / Math.max(1, bearing)) + teams.size + apart);
  const singles = Array.from(
    { length: count },
    (_, instance): Single => ({
      type,
      instance,
      used: maker.count(`${part} number ${instance + 1}`, { most: 1 }),
    }),
  );
  for (const [at, { used }] of singles.entries()) {
    const before = singles[at - 1];
    if (before !== undefined)
      maker.atMost(
        `${part} in order`,
        [
          [used, 1],
          [before.used, -1],
        ],
        0,
      );
  }
  maker.atMost(`${part} told apart`, [...singles.map(({ used }) => [used, 1] as const), ...times(there, -1)], 0);
  return singles;
}

/** Points together on one module, or apart on several. */
function teams(
  maker: ModelMaker,
  { name, classes, on }: Task,
  seats: readonly Seat[],
  singles: readonly Single[],
): void {
  const none: Task['on'][number] = { apart: [], together: [] };
  const modules = [
    ...on.map((there, module) => ({
      what: `module ${module + 1}`,
      there,
      seats: seats.filter(({ at }) => 'given' in at && at.given.module === module),
    })),
    ...singles.map(({ type, instance }) => ({
      what: `kind ${type + 1} number ${instance + 1}`,
      there: none,
      seats: seats.filter(({ at }) => 'type' in at && at.type === type && at.instance === instance),
    })),
  ];
  const names = (key: 'together' | 'apart'): readonly string[] => [
    ...new Set(classes.flatMap((each) => each[key] ?? [])),
  ];
  for (const team of names('together')) {
    const need = `the points of ${team} together on one module at ${name}`;
    const points = classes.reduce((sum, each) => sum + (each.together === team ? each.points.length : 0), 0);
    const home = on.findIndex(({ together }) => together.includes(team));
    const chosen = modules.map(({ what, seats: here }, at) => {
      const is = maker.count(`${team} on ${what}`, { most: home < 0 || home === at ? 1 : 0 });
      const own = here.filter(({ of }) => of.together === team);
      if (own.length > 0) maker.atMost(`${team} on ${what}`, [...sumOf(own), [is, -points]], 0, need);
      return is;
    });
    const sum = chosen.map((each) => [each, 1] as const);
    maker.atMost(`${team} on one module`, sum, 1, need);
  }
  for (const team of names('apart'))
    for (const { what, there, seats: here } of modules) {
      const own = here.filter(({ of }) => of.apart === team);
      const most = there.apart.includes(team) ? 0 : 1;
      const need = `the points of ${team} on different modules at ${name}`;
      if (own.length > 0) maker.atMost(`${team} apart on ${what}`, sumOf(own), most, need);
    }
}
