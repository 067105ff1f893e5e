// The choice of racks as a linear model: which modules in which racks with which supplies carry all points of a location, with
// the spare that is wanted, at least cost or width.
//
// This file is the frame: racks, supplies, joints, places and currents. Where points sit is in `choose-seats.ts`.
import { printQuantity } from '../units/print-quantity.ts';
import type { LinearModel } from './calc/linear-model.ts';
import { type Handle, ModelMaker, type Sum } from './calc/model-maker.ts';
import type { PointClass } from './choose-classes.ts';
import { type Seat, seatsOf } from './choose-seats.ts';
import type { OfferedExtender, OfferedPower, OfferedRack, RackOffers } from './offers.ts';
import type { ChannelGroup } from './rack.ts';

/** A rack as the choice sees it. */
export interface Slot {
  readonly label: string;
  /** Whether it may stay away. */
  readonly optional: boolean;
  /** The only one where the file names it. */
  readonly racks: readonly OfferedRack[];
  readonly powers: readonly Pick<OfferedPower, 'part' | 'weight' | 'places' | 'gives_A'>[];
  readonly isGiven: { readonly rack: boolean; readonly power: boolean };
  /** In words, where `powers` are only those that take as many places as points behind them need. */
  readonly supplyStays?: string | undefined;
  /** What is there already takes so many places and draws so much; new modules stand behind so many of them and the supply. */
  readonly places: number;
  readonly before: number;
  readonly draws_A: number;
  readonly mayAdd: boolean;
}

/** A group of channels of a module that is there already, with what is free of it. */
export interface GivenGroup {
  readonly module: number;
  readonly label: string;
  readonly group: ChannelGroup;
  readonly groupAt: number;
  readonly free: number;
  /** Of what its outputs give together; Infinity where nothing is stated. */
  readonly left_A: number;
  /** Of the points on it; nothing where there is none. */
  readonly potential: string | undefined;
}

export interface Task {
  readonly name: string;
  readonly slots: readonly Slot[];
  readonly given: readonly GivenGroup[];
  /** Names of `apart` and `together` of the points on each given module. */
  readonly on: readonly { readonly apart: readonly string[]; readonly together: readonly string[] }[];
  readonly classes: readonly PointClass[];
  /** How many channels of a kind shall stay free. */
  readonly spare: readonly { readonly kind: PointClass['kind']; readonly free: number }[];
  readonly offers: RackOffers;
  /** Nothing where joints are no question: there is one rack, or they are there already. */
  readonly extenders: readonly OfferedExtender[] | undefined;
  /** Shares of places and of the supply that shall stay free. */
  readonly reserve: { readonly places: number; readonly supply: number };
}

export interface RackModel {
  readonly model: LinearModel;
  readonly racks: readonly (readonly Handle[])[];
  readonly powers: readonly (readonly Handle[])[];
  readonly extenders: readonly (readonly Handle[])[];
  /** By slot, then by kind of module. */
  readonly modules: readonly (readonly Handle[])[];
  readonly seats: readonly Seat[];
}

/**
 * `exact` tells single modules apart where loads of several currents share a supply. Without it their sum is limited over all
 * modules of a kind, which costs no more and most often can be laid out; where it cannot, the exact model has to be solved.
 */
export function rackModel(task: Task, { exact }: { readonly exact: boolean }): RackModel {
  const maker = new ModelMaker();
  const { slots, offers } = task;
  const modules = slots.map(({ label, mayAdd, racks }) =>
    offers.modules.map(({ part, weight, places }) =>
      maker.count(`${part} in ${label}`, {
        cost: weight,
        most: mayAdd ? Math.floor(Math.max(0, ...racks.map((each) => each.places)) / Math.max(1, places)) : 0,
      }),
    ),
  );
  const frame = framesOf(maker, task, modules);
  const seats = seatsOf(maker, task, modules, exact);
  return { model: maker.model(), ...frame, modules, seats };
}

/** Racks, supplies and joints, with their places and currents. */
function framesOf(
  maker: ModelMaker,
  { name, slots, offers, extenders: offered, reserve }: Task,
  modules: readonly (readonly Handle[])[],
) {
  const extenders = offered ?? [];
  const one = (what: string, { label }: Slot, parts: readonly { part: string; weight: number }[], isGiven: boolean) =>
    parts.map(({ part, weight }) =>
      maker.count(`${what} ${part} at ${label}`, { most: 1, cost: isGiven ? 0 : weight }),
    );
  const racks = slots.map((slot) => one('rack', slot, slot.racks, slot.isGiven.rack));
  const powers = slots.map((slot) => one('supply', slot, slot.powers, slot.isGiven.power));
  const joints = slots.map((slot) => one('joint', slot, extenders, false));
  const all = (handles: readonly Handle[], factor = 1): Sum => handles.map((each) => [each, factor]);
  slots.forEach((slot, at) => {
    const { label, optional } = slot;
    const used = all(racks[at]!);
    if (optional) maker.atMost(`one rack at ${label}`, used, 1);
    else maker.exactly(`one rack at ${label}`, used, 1);
    maker.exactly(`a supply where there is a rack at ${label}`, [...all(powers[at]!), ...all(racks[at]!, -1)], 0);
    if (at >= 1) maker.atMost(`${label} after the one before`, [...used, ...all(racks[at - 1]!, -1)], 0);
    if (offered !== undefined)
      // In the first rack where there is a second one.
      maker.exactly(`a joint at ${label}`, [...all(joints[at]!), ...all(racks[Math.max(at, 1)] ?? [], -1)], 0);
    for (const [which, joint] of at === 0 ? [] : joints[at]!.entries())
      maker.atMost(`joints at ${label} alike`, minusOne([joint], joints[0]![which]!), 0);
    const weights = <T>(handles: readonly Handle[], parts: readonly T[], of: (part: T) => number, factor = 1): Sum =>
      handles.map((handle, which) => [handle, factor * of(parts[which]!)]);
    const here = modules[at]!;
    maker.atMost(
      `places at ${label}`,
      [
        ...weights(here, offers.modules, ({ places }) => places),
        ...weights(powers[at]!, slot.powers, ({ places }) => places),
        ...weights(joints[at]!, extenders, ({ places }) => places),
        ...weights(racks[at]!, slot.racks, ({ places }) => floorShare(places, reserve.places), -1),
        // What is there already only counts where the rack is.
        ...all(racks[at]!, slot.places),
      ],
      0,
      slot.isGiven.rack ? `the ${slot.racks[0]!.places} places of ${slot.racks[0]!.part} at ${label}` : undefined,
    );
    maker.atMost(
      `current at ${label}`,
      [
        ...weights(here, offers.modules, ({ draws_A }) => draws_A),
        ...weights(joints[at]!, extenders, ({ draws_A }) => draws_A),
        ...weights(powers[at]!, slot.powers, ({ gives_A }) => gives_A * (1 - reserve.supply), -1),
        ...all(racks[at]!, slot.draws_A),
      ],
      0,
      slot.isGiven.power
        ? `the ${printQuantity(slot.powers[0]!.gives_A, 'A')} of ${slot.powers[0]!.part} at ${label}`
        : slot.supplyStays,
    );
  });
  if (offered !== undefined)
    maker.atMost(
      `racks that can be joined at ${name}`,
      [
        ...slots.slice(1).flatMap((_, at) => all(racks[at + 1]!)),
        ...joints[0]!.map((joint, which) => [joint, 1 - extenders[which]!.most] as const),
      ],
      0,
    );
  return { racks, powers, extenders: joints };
}

const minusOne = (handles: readonly Handle[], other: Handle): Sum => [
  ...handles.map((each) => [each, 1] as const),
  [other, -1],
];

/** Whole places that stay where a share is kept free. */
const floorShare = (places: number, reserve: number): number => Math.floor(places * (1 - reserve) + 1e-9);
