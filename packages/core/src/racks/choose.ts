// Which racks, supplies and modules carry the points of a location, and which point sits where: made ready for a solver, and its
// answer made into what is written under `planned`. What is there already stays, and nothing that has a channel moves.

import type { PointKind } from '../physics/point.ts';
import { plural } from '../problems/wording.ts';
import type { Value } from '../reading/values.ts';
import { given, isAbsent, isOpen, Missing, missing } from '../working/missing.ts';
import { Quantity } from '../working/quantity.ts';
import { sumOver } from '../working/total.ts';
import { broken, type LinearModel, type Solution } from './calc/linear-model.ts';
import { classesOf } from './choose-classes.ts';
import { type Layout, layoutOf } from './choose-layout.ts';
import { type GivenGroup, rackModel, type Slot, type Task } from './choose-model.ts';
import { sumOfGroup } from './choose-seats.ts';
import { type Standing, standing, whyRefused } from './choose-standing.ts';
import { firstOf } from './first-of.ts';
import { type LaidModule, nameOf } from './laid-out.ts';
import type { OfferedPower, RackOffers } from './offers.ts';
import { type PlannedLocation, type PlannedRack, withPoint } from './planned.ts';
import type { Point } from './rack.ts';
import { type OneRackSection, racksSaid } from './section.ts';

/** Shares of places and of the supply that the checks want kept free. */
export type RackReserve = Task['reserve'];

export interface RackTask {
  readonly name: string;
  readonly model: LinearModel;
  /** What a solution means; the exact task where loads that share supplies have to be told apart after all. */
  readonly answer: (solution: Solution) => RackAnswer | RackTask;
}

export interface Chosen {
  readonly kind: 'chosen';
  readonly layout: Layout;
  /** Of what is bought, in the currency of the parts; or the width of the racks in mm. */
  readonly weight: number;
  /** Nothing that keeps all needs weighs less. */
  readonly bound: number;
  /** Whether nothing better exists. */
  readonly isBest: boolean;
  readonly planned: readonly { readonly path: string; readonly value: string }[];
}

export type RackAnswer =
  | Chosen
  | {
      readonly kind: 'conflict';
      readonly needs: readonly string[];
      readonly irreducible: boolean;
      /** How much may be put in there at all, in a sentence. */
      readonly room: string;
    }
  | Refused
  | { readonly kind: 'none found' };

/** Nothing can be chosen for what the file says; why, in a sentence. */
export interface Refused {
  readonly kind: 'refused';
  readonly why: string;
}

/** More racks than these are not joined at one place (our judgement). */
const mostRacks = 8;

/** Nothing where nothing is open and every point has a channel; missing where what is needed is not known. `all` are the points of the machine. */
export function rackTask(
  planned: PlannedLocation,
  all: readonly Point[],
  offers: RackOffers,
  reserve: RackReserve,
): Value<RackTask | Refused> | undefined {
  const { location, unplaced } = planned;
  if (!isLeftToChoose(planned)) return undefined;
  const kindless = unplaced.map(({ kind }) => kind);
  return given({ kindless, places: location.head.places, draws: location.head.draws }, ({ places, draws }) => {
    const stands = standing(planned, poweredBy(planned, offers));
    const why = whyRefused(stands.planned, all);
    if (why !== undefined) return { kind: 'refused', why };
    const slots = slotsOf(stands, offers, { places: places.value, draws_A: draws?.value ?? 0 });
    if (slots instanceof Missing) return slots;
    return solvable(stands, slots, taskOf(stands.planned, slots, offers, reserve), { exact: false });
  }) as Value<RackTask | Refused>;
}

/** Whether something is open there, or a point has no channel. */
export const isLeftToChoose = (planned: PlannedLocation): boolean =>
  planned.unplaced.length > 0 || isChoosable(planned);

/** Whether a part of the racks there is open. */
const isChoosable = ({ location: { section } }: PlannedLocation): boolean =>
  section === undefined ||
  section.open ||
  isOpen(section.further) ||
  racksSaid(section).some((rack) => [rack.rack.part, rack.power.part, rack.modules, rack.added].some(isOpen));

function taskOf(planned: PlannedLocation, slots: readonly Slot[], offers: RackOffers, reserve: RackReserve): Task {
  const { location, unplaced, kinds } = planned;
  const modules = modulesOf(planned);
  return {
    name: location.name,
    slots,
    given: modules.flatMap((module, at): readonly GivenGroup[] => {
      const groups = [...new Set(module.channels.map(({ groupAt }) => groupAt))];
      return groups.map((groupAt) => {
        const channels = module.channels.filter((each) => each.groupAt === groupAt);
        const points = channels.flatMap((each) => each.points);
        const { group } = channels[0]!;
        return {
          module: at,
          label: module.label,
          group,
          groupAt,
          free: channels.filter((each) => each.points.length === 0).length,
          left_A:
            sumOfGroup(group) -
            points.reduce((sum, { current }) => sum + (current instanceof Quantity ? current.value : 0), 0),
          potential: points[0] && (nameOf(points[0].potential) ?? ''),
        };
      });
    }),
    on: modules.map(({ channels }) => {
      const points = channels.flatMap((each) => each.points);
      const names = (key: 'apart' | 'together') => points.flatMap((point) => nameOf(point[key]) ?? []);
      return { apart: names('apart'), together: names('together') };
    }),
    classes: classesOf(unplaced),
    spare: kinds.flatMap(({ kind, used, spare }) =>
      spare instanceof Missing ? [] : [{ kind, free: freeFor(used.value, spare.value) }],
    ),
    offers,
    extenders: extendersOf(planned, slots, offers),
    reserve,
  };
}

/** `otherwise` is the answer where this one comes to none. */
function solvable(
  stands: Standing,
  slots: readonly Slot[],
  task: Task,
  { exact, otherwise }: { readonly exact: boolean; readonly otherwise?: Chosen | undefined },
): RackTask {
  const made = rackModel(task, { exact });
  const { planned } = stands;
  const modules = planned.racks.flatMap((rack, slot) => rack.modules.map((module) => ({ module, slot })));
  const freeOf = (at: number, groupAt: number, supplies: readonly number[]): readonly string[] => {
    const { module, slot } = modules[at]!;
    const place = module.place! + supplies[slot]! - stands.counted[slot]!;
    return module.channels.flatMap((each) =>
      each.groupAt === groupAt && each.points.length === 0 ? [`${module.rack.label}.${place}.${each.number}`] : [],
    );
  };
  return {
    name: task.name,
    model: made.model,
    answer: (solution) => {
      if (solution.status === 'infeasible')
        return {
          kind: 'conflict',
          needs: solution.needs,
          irreducible: solution.irreducible,
          room: roomOf(task.name, slots),
        };
      if (solution.status !== 'optimal' && solution.status !== 'stopped') return otherwise ?? { kind: 'none found' };
      const { bound, earlier = [] } = solution;
      const laid = firstOf([solution, ...earlier], ({ values, cost }): Chosen | undefined => {
        const wrong = broken(made.model, values);
        if (wrong.length > 0) throw new Error(`The solver's answer breaks its model: ${wrong[0]}`);
        const layout = layoutOf(task, made, values, freeOf);
        if (layout === undefined) return undefined;
        const isBest = solution.status === 'optimal' && values === solution.values;
        return { kind: 'chosen', layout, weight: cost, bound, isBest, planned: plannedOf(planned, slots, layout) };
      });
      const best = [laid, otherwise].reduce(lighter);
      if (laid?.weight === solution.cost) return best!;
      // What loads share a supply was held too roughly for the best; what was laid out is kept in case no time is left.
      if (exact) {
        if (best !== undefined) return best;
        throw new Error(`The racks for ${task.name} cannot be laid out.`);
      }
      return solvable(stands, slots, task, { exact: true, otherwise: best });
    },
  };
}

const lighter = (one: Chosen | undefined, other: Chosen | undefined): Chosen | undefined =>
  one === undefined || (other !== undefined && other.weight < one.weight) ? other : one;

const modulesOf = ({ racks }: PlannedLocation): readonly LaidModule[] => racks.flatMap((rack) => rack.modules);

/** What bounds a choice whatever its needs are. */
function roomOf(name: string, slots: readonly Slot[]): string {
  if (slots.every(({ mayAdd }) => !mayAdd))
    return `No module may be put in at ${name}: write added: open under racks.${name} to have some chosen.`;
  const places = Math.max(...slots.flatMap(({ racks }) => racks.map((each) => each.places)));
  return `There is room for ${plural(slots.length, 'rack')} at ${name}, of at most ${plural(places, 'place')}${slots.length > 1 ? ' each' : ''}.`;
}

/** Free channels for so many used ones, where a share of all shall be free; never free where all shall be. */
const freeFor = (used: number, share: number): number =>
  share >= 1 ? Number.MAX_SAFE_INTEGER : Math.ceil((share / (1 - share)) * used - 1e-9);

interface Head {
  readonly places: number;
  readonly draws_A: number;
}

function slotsOf({ planned, fixed }: Standing, offers: RackOffers, head: Head): Value<readonly Slot[]> {
  const { location, racks } = planned;
  const { section, name } = location;
  const powers = poweredBy(planned, offers);
  const free = (label: string, optional: boolean, beside: Head): Slot => ({
    label,
    optional,
    racks: offers.racks,
    powers,
    isGiven: { rack: false, power: false },
    places: beside.places,
    before: beside.places,
    draws_A: beside.draws_A,
    mayAdd: true,
  });
  const further = (from: number): readonly Slot[] =>
    Array.from({ length: mostJoined(planned, offers) - from }, (_, at) =>
      free(`${name}/${from + at + 1}`, true, { places: 0, draws_A: 0 }),
    );
  if (section === undefined || section.open) return [free(name, false, head), ...further(1)];
  const slots = racksSaid(section).map((each, at) => {
    const width = fixed[at];
    const fitting = width === undefined ? powers : powers.filter(({ places }) => places === width);
    const slot = slotOf(each, racks[at]!, fitting, offers);
    if (width === undefined || slot instanceof Missing) return slot;
    return {
      ...slot,
      supplyStays: `a supply of ${plural(width, 'place')} at ${slot.label}, since points have channels behind it`,
    };
  });
  const lacks = slots.filter((each) => each instanceof Missing);
  if (lacks.length > 0) return new Missing(lacks.flatMap((each) => each.lacks));
  if (isOpen(section.further) && isAbsent(section.extender.part))
    return missing(`${section.path}.extender`, 'absent', 'what joins further racks, or the word open', 'open');
  return [...(slots as readonly Slot[]), ...(isOpen(section.further) ? further(1) : [])];
}

/** A rack of the file, as far as it is said. */
function slotOf(
  said: OneRackSection,
  rack: PlannedRack,
  powers: readonly OfferedPower[],
  offers: RackOffers,
): Value<Slot> {
  const openModules = isOpen(said.modules);
  const places = isOpen(said.rack.part) ? undefined : rack.rack.places;
  const gives = isOpen(said.power.part) ? undefined : rack.rack.gives;
  const modules = openModules ? [] : rack.rack.modules;
  const beside = rack.rack.beside.filter(({ what }) => what !== 'supply');
  const before = beside.filter(({ what }) => what !== 'extender');
  const inPlaces = modules instanceof Missing ? [] : modules;
  const supply = rack.rack.beside.find(({ what }) => what === 'supply')!;
  return given(
    {
      places,
      gives,
      modules,
      supply: gives === undefined ? undefined : supply.places,
      taken: [...beside, ...inPlaces].map((each) => each.places),
      before: [...before, ...inPlaces].map((each) => each.places),
      drawn: [...beside, ...inPlaces].flatMap(({ draws }) => draws ?? []),
    },
    (known): Slot => ({
      label: rack.label,
      optional: false,
      racks:
        known.places === undefined
          ? offers.racks
          : [{ part: nameOfPart(rack.rack.part), weight: 0, places: known.places.value }],
      powers:
        known.gives === undefined
          ? powers
          : [
              {
                part: nameOfPart(supply.part),
                weight: 0,
                places: known.supply?.value ?? 0,
                gives_A: known.gives.value,
              },
            ],
      isGiven: { rack: known.places !== undefined, power: known.gives !== undefined },
      places: sumOver(known.taken, ({ value }) => value),
      before: sumOver(known.before, ({ value }) => value),
      draws_A: sumOver(known.drawn, ({ value }) => value),
      mayAdd: openModules || isOpen(said.added),
    }),
  );
}

const nameOfPart = (part: Value<string>): string => (part instanceof Missing ? 'what is there' : part);

/** Supplies that can be fed with what there is; all of them where that is not said. */
function poweredBy({ location: { section } }: PlannedLocation, { powers }: RackOffers): readonly OfferedPower[] {
  const feed = section?.feed;
  if (feed === undefined) return powers;
  const { kind, lowest, highest } = feed;
  return powers.filter(
    (each) =>
      (kind instanceof Missing || each.feed === kind) &&
      (lowest instanceof Missing || each.lowest_V <= lowest.value) &&
      (highest instanceof Missing || each.highest_V >= highest.value),
  );
}

/** How many racks may be joined, the first one among them. */
const mostJoined = (planned: PlannedLocation, offers: RackOffers): number =>
  Math.min(mostRacks, Math.max(1, ...extendersAt(planned, offers).map(({ most }) => most)));

/** Those on offer; the one that the file names. */
function extendersAt(
  { location: { section, extender } }: PlannedLocation,
  { extenders }: RackOffers,
): RackOffers['extenders'] {
  if (section === undefined || section.open || isOpen(section.extender.part)) return extenders;
  return extenders.filter(({ part }) => part === extender.part);
}

const extendersOf = (
  planned: PlannedLocation,
  slots: readonly Slot[],
  offers: RackOffers,
): RackOffers['extenders'] | undefined =>
  slots.some(({ optional }) => optional) ? extendersAt(planned, offers) : undefined;

/** What is written, by the path that is open. */
function plannedOf({ location }: PlannedLocation, slots: readonly Slot[], layout: Layout) {
  const { section, path } = location;
  const partsAt = (slot: number): string =>
    `[${layout.modules.flatMap((each) => (each.slot === slot ? [each.part] : [])).join(', ')}]`;
  const rackAt = (slot: number): string => {
    const { rack, power } = layout.racks[slot]!;
    return `rack: ${rack}, power: ${power}, modules: ${partsAt(slot)}`;
  };
  const joined = slots.flatMap((slot, at) =>
    slot.optional && layout.racks[at] !== undefined ? [`{ ${rackAt(at)} }`] : [],
  );
  const extender = layout.racks[0]?.extender;
  const written: { path: string; value: string }[] = [];
  if (section === undefined || section.open) {
    const further = joined.length === 0 ? '' : `, extender: ${extender}, further: [${joined.join(', ')}]`;
    written.push({ path, value: `{ ${rackAt(0)}${further} }` });
  } else {
    racksSaid(section).forEach((each, at) => {
      const { rack, power } = layout.racks[at]!;
      if (isOpen(each.rack.part)) written.push({ path: `${each.path}.rack`, value: rack });
      if (isOpen(each.power.part)) written.push({ path: `${each.path}.power`, value: power });
      const modules = isOpen(each.modules) ? 'modules' : isOpen(each.added) ? 'added' : undefined;
      if (modules !== undefined) written.push({ path: `${each.path}.${modules}`, value: partsAt(at) });
    });
    if (isOpen(section.further)) {
      written.push({ path: `${path}.further`, value: `[${joined.join(', ')}]` });
      if (isOpen(section.extender.part) && extender !== undefined)
        written.push({ path: `${path}.extender`, value: extender });
    }
  }
  const channels = layout.channels.map(({ point, channel }) => ({
    path: `${point.path}.channel`,
    value: channel,
  }));
  return [...written, ...channels];
}

/** The location with one more point of a kind, alike the first of that kind but free of its company. */
export function withOneMore(planned: PlannedLocation, kind: PointKind): PlannedLocation {
  const alike = [...planned.unplaced, ...planned.location.points].find((each) => each.kind === kind)!;
  const path = `points.one_more_${kind}`;
  const point: Point = {
    ...alike,
    name: `one_more_${kind}`,
    path,
    together: undefined,
    apart: undefined,
    channel: missing(`${path}.channel`, 'absent', 'rack, place and channel', 'main.3.7'),
  };
  return {
    ...planned,
    unplaced: [...planned.unplaced, point],
    kinds: planned.kinds.map((each) => (each.kind === kind ? withPoint(each, point) : each)),
  };
}
