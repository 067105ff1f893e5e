// From the numbers of a solved model to racks: which part in which rack at which place, and which point on which channel.

import { sumOver } from '../working/total.ts';
import type { PointClass } from './choose-classes.ts';
import type { RackModel, Task } from './choose-model.ts';
import { type Seat, sumOfGroup } from './choose-seats.ts';
import { firstOf } from './first-of.ts';
import type { OfferedModule } from './offers.ts';
import type { ChannelGroup, Point } from './rack.ts';

/** A module that is put in. */
export interface NewModule {
  readonly slot: number;
  readonly part: string;
  readonly place: number;
}

export interface Layout {
  /** By slot; nothing where there is no rack. */
  readonly racks: readonly (
    | { readonly rack: string; readonly power: string; readonly extender: string | undefined }
    | undefined
  )[];
  readonly modules: readonly NewModule[];
  /** `main.3.7`, for each point that had no channel. */
  readonly channels: readonly { readonly point: Point; readonly channel: string }[];
}

/** A group of channels of one module, while points are put on it. */
interface Bench {
  readonly group: ChannelGroup;
  /** `main.3.7` of each free one. */
  readonly free: string[];
  left_A: number;
  potential: string | undefined;
  readonly given: number | undefined;
  readonly type: number | undefined;
  readonly instance: number | undefined;
  readonly groupAt: number;
}

/** `values` solve the model; nothing where loads that share supplies cannot be laid out, which only the exact model excludes. */
export function layoutOf(
  task: Task,
  model: RackModel,
  values: readonly number[],
  freeOf: (given: number, groupAt: number, supplies: readonly number[]) => readonly string[],
): Layout | undefined {
  const { slots, offers } = task;
  const chosen = (handles: readonly number[]): number => handles.findIndex((handle) => values[handle] === 1);
  const racks = slots.map((slot, at) => {
    const rack = slot.racks[chosen(model.racks[at]!)];
    if (rack === undefined) return undefined;
    const extender = task.extenders?.[chosen(model.extenders[at]!)];
    return { rack: rack.part, power: slot.powers[chosen(model.powers[at]!)]!.part, extender: extender?.part };
  });
  const supplies = slots.map(({ powers }, at) => powers[chosen(model.powers[at]!)]?.places ?? 0);
  const modules: NewModule[] = [];
  const benches: Bench[] = task.given.map((pool) => ({
    group: pool.group,
    free: [...freeOf(pool.module, pool.groupAt, supplies)],
    left_A: pool.left_A,
    potential: pool.potential,
    given: pool.module,
    type: undefined,
    instance: undefined,
    groupAt: pool.groupAt,
  }));
  const numbered = offers.modules.map(() => 0);
  slots.forEach((slot, at) => {
    let place = 1 + slot.before + supplies[at]!;
    for (const type of inOrder(offers.modules)) {
      const offer = offers.modules[type]!;
      for (let n = 0; n < values[model.modules[at]![type]!]!; n++) {
        const instance = numbered[type]!++;
        modules.push({ slot: at, part: offer.part, place });
        let number = 0;
        offer.groups.forEach((group, groupAt) => {
          const count = 'value' in group.count ? group.count.value : 0;
          const free = Array.from({ length: count }, () => `${slot.label}.${place}.${++number}`);
          benches.push({
            group,
            free,
            left_A: sumOfGroup(group),
            potential: undefined,
            given: undefined,
            type,
            instance,
            groupAt,
          });
        });
        place += offer.places;
      }
    }
  });
  const channels = seated(model.seats, values, benches);
  return channels && { racks, modules, channels };
}

/** Kinds of modules in the order of what they carry, so that like stands beside like. */
function inOrder(modules: readonly OfferedModule[]): readonly number[] {
  const kinds: string[] = [];
  for (const { groups } of modules)
    for (const { kinds: each } of groups)
      if (Array.isArray(each)) for (const kind of each) if (!kinds.includes(kind)) kinds.push(kind);
  const rank = ({ groups }: OfferedModule): number => {
    const first = groups[0]?.kinds;
    return Array.isArray(first) ? kinds.indexOf(first[0] as string) : kinds.length;
  };
  return modules.map((_, at) => at).sort((a, b) => rank(modules[a]!) - rank(modules[b]!) || a - b);
}

/**
 * In which order loads are put on channels, and where each goes: where there is room first, or where most current is left. The
 * model says how many points go on each group of channels; of groups that are alike any may take them, most often.
 */
const ways = [
  { order: 'of the file', where: 'first', areAlikeOne: true },
  { order: 'of the file', where: 'first', areAlikeOne: false },
  { order: 'by potential', where: 'first', areAlikeOne: false },
  { order: 'largest first', where: 'first', areAlikeOne: false },
  { order: 'largest first', where: 'most left', areAlikeOne: false },
] as const;
type Way = (typeof ways)[number];

/**
 * Points on channels, as many of each class on each kind of module as the model says: first those that are told on which module,
 * then loads, then the others; in the order of the file, so that neighbours stay together. Where they do not go on in that order,
 * others are tried. Nothing where all fail.
 */
function seated(
  seats: readonly Seat[],
  values: readonly number[],
  benches: readonly Bench[],
): Layout['channels'] | undefined {
  return firstOf(ways, (way) => inTurn(seats, values, benches, way));
}

function inTurn(
  seats: readonly Seat[],
  values: readonly number[],
  given: readonly Bench[],
  way: Way,
): Layout['channels'] | undefined {
  const benches = given.map((bench) => ({ ...bench, free: [...bench.free] }));
  const waiting = new Map(seats.map(({ of }) => [of, [...of.points]]));
  const rank = ({ at, of }: Seat): number =>
    'given' in at || at.instance !== undefined ? 0 : of.current_A > 0 ? 1 : 2;
  const left = budgetsOf(seats, values, way);
  const channels: { point: Point; channel: string }[] = [];
  for (const turn of [0, 1, 2]) {
    const classes = [...new Set(seats.flatMap((seat) => (rank(seat) === turn ? [seat.of] : [])))];
    const isSpread = turn === 1 && way.where === 'most left';
    if (turn === 1) sortLoads(classes, way);
    for (const of of classes) {
      const own = seats.filter((seat) => seat.of === of && rank(seat) === turn);
      const places = benches.flatMap((bench) => own.flatMap((seat) => (isAt(seat, bench) ? [{ seat, bench }] : [])));
      for (let rest = sumOver(own, ({ count }) => values[count]!); rest > 0; rest--) {
        const fits = places.filter(
          ({ seat, bench }) =>
            left.get(seat)!.points > 0 &&
            bench.free.length > 0 &&
            bench.left_A + 1e-9 >= of.current_A &&
            (bench.potential === undefined || bench.potential === of.potential),
        );
        const [first] = fits;
        if (first === undefined) return undefined;
        const { seat, bench } = isSpread
          ? fits.reduce((most, each) => (each.bench.left_A > most.bench.left_A ? each : most), first)
          : first;
        channels.push({ point: waiting.get(of)!.shift()!, channel: bench.free.shift()! });
        bench.left_A -= of.current_A;
        bench.potential = of.potential;
        left.get(seat)!.points--;
      }
    }
  }
  return channels;
}

/** How many points still go where; one number for seats of which any will do. */
function budgetsOf(
  seats: readonly Seat[],
  values: readonly number[],
  { areAlikeOne }: Way,
): ReadonlyMap<Seat, { points: number }> {
  const shared = new Map<string, { points: number }>();
  const classes = [...new Set(seats.map(({ of }) => of))];
  return new Map(
    seats.map((seat, at) => {
      const name = areAlikeOne ? (alikeAs(seat, classes) ?? String(at)) : String(at);
      const budget = shared.get(name) ?? { points: 0 };
      budget.points += values[seat.count]!;
      shared.set(name, budget);
      return [seat, budget];
    }),
  );
}

/** The same for seats of a class that can take each other's points, so that no kind has less spare; nothing for one by itself. */
function alikeAs({ of, at, group }: Seat, classes: readonly PointClass[]): string | undefined {
  if (of.together !== undefined || of.apart !== undefined || ('type' in at && at.instance !== undefined))
    return undefined;
  const { kinds } = group;
  const where = 'given' in at ? 'given' : `kind ${at.type}`;
  return `${classes.indexOf(of)} ${where} ${sumOfGroup(group)} ${Array.isArray(kinds) ? kinds.join(' ') : ''}`;
}

/** Potentials of few points first, so that each keeps to few groups of channels. */
function sortLoads(classes: PointClass[], { order }: Way): void {
  if (order === 'of the file') return;
  const counts = new Map<string, number>();
  for (const { potential, points } of classes) counts.set(potential, (counts.get(potential) ?? 0) + points.length);
  const rank = ({ potential }: PointClass): number => counts.get(potential)!;
  classes.sort(
    (one, other) => rank(one) - rank(other) || (order === 'largest first' ? other.current_A - one.current_A : 0),
  );
}

const isAt = ({ at }: Seat, bench: Bench): boolean =>
  'given' in at
    ? bench.given === at.given.module && bench.groupAt === at.given.groupAt
    : bench.type === at.type &&
      bench.groupAt === at.groupAt &&
      (at.instance === undefined || bench.instance === at.instance);
