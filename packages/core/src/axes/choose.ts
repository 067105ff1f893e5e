// Which motors, gears and drives of a catalogue do for an axis that leaves some of them open: every combination is weighed
// as the checks weigh it, those that keep the reserves are ranked by cost, and every other says why it is not among them.
import type { Part } from '../reading/parts.ts';
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, isOpen, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { Axis } from './axis.ts';
import { choiceLoad } from './calc/choice-load.ts';
import { direct, type GearedLoad, geared } from './calc/choosing.ts';
import { gearDuty } from './calc/course.ts';
import { usualInertiaRatio } from './calc/inertia.ts';
import { wantedBandwidth_Hz } from './calc/stiffness.ts';
import {
  compare,
  driveAt,
  drivesOf,
  gearsOfParts,
  lackingIn,
  motorAt,
  motorsOf,
  numberOf,
  type OfferedDrive,
  type OfferedGear,
  type OfferedMotor,
} from './choose-parts.ts';
import {
  bandwidthShare,
  type Carried,
  gearShares,
  type Reserves,
  type Shares,
  type Springs,
  type Weighing,
  weigh,
  whyOf,
  worstOf,
} from './choose-weigh.ts';
import { courseOf } from './course.ts';
import { type AxisDemand, type Case, demandOf } from './demand.ts';
import { ratiosApart } from './ratios-apart.ts';
import type { ElementSection } from './section.ts';
import { stiffnessAtMotor, timesAsQuick } from './stiffness-of.ts';

/** What is on offer. */
export interface Offers {
  readonly motors: readonly Part[];
  readonly gears: readonly Part[];
  readonly drives: readonly Part[];
}

/** Each by its name; nothing for what is not open. */
interface Combination {
  readonly motor: string | undefined;
  readonly gear: string | undefined;
  readonly drive: string | undefined;
}

export interface Option extends Combination {
  /** Of all that is chosen. */
  readonly cost: number;
  /** The check that leaves least beyond its reserve, and its margin. */
  readonly tightest: string;
  readonly margin: number;
  /** What would be written into `planned`. */
  readonly planned: readonly { readonly path: string; readonly part: string }[];
}

export interface Loser extends Combination {
  readonly why: string;
}

export interface Choice {
  /** What is open, in this order. */
  readonly open: readonly (keyof Combination)[];
  /** The cheapest that hold, in order; of the same cost the one with the most over. Each with the cheapest drive that does. */
  readonly options: readonly Option[];
  /** For each motor that is in no option its nearest try; for each gear or drive where the motor is not open. */
  readonly losers: readonly Loser[];
  /** How many there are of all that is on offer. */
  readonly combinations: number;
}

/** More than this nobody compares (our judgement). */
export const usualOptions = 12;

/** `most` of the cheapest. Nothing where nothing is open; missing where the load, or what is not open, is not known. */
export function choose(
  axis: Axis,
  gravity: Value<Quantity<'m/s²'>>,
  offers: Offers,
  reserve: Reserves,
  most: number = usualOptions,
): Value<Choice> | undefined {
  const open = openIn(axis);
  if (open instanceof Missing) return open;
  if (!leavesPartsOpen(axis)) return undefined;
  const motors = open.motor ? motorsOf(offers.motors, axis.site) : ownMotor(axis);
  if (motors instanceof Missing) return motors;
  const demand = demandOf(loadAlone(axis, open.gear), gravity);
  return given({ cases: demand.cases, inertia: demand.inertia, held: demand.holding }, (known) => {
    const load: LoadOfAxis = {
      cases: known.cases as readonly Case[],
      inertia_kg_m2: known.inertia.value,
      held_Nm: Math.abs((known.held as Quantity | undefined)?.value ?? 0),
      springs: springsOf(demand, known.inertia.value),
    };
    return chosen(axis, load, {
      open,
      motors,
      gears: open.gear === undefined ? undefined : gearsOfParts(offers.gears),
      drives: open.drive ? drivesOf(offers.drives, axis.site) : ownDrive(axis),
      reserve,
      most,
    });
  });
}

/** Whether a motor, a gear or a drive is open. */
export const leavesPartsOpen = ({ motor, train, drive }: Axis): boolean =>
  isOpen(motor.part) ||
  isOpen(drive.part) ||
  (!(train instanceof Missing) && train.some(({ gear }) => gear !== undefined && isOpen(gear.part)));

interface Open {
  readonly motor: boolean;
  /** The place of the gear in the train. */
  readonly gear: number | undefined;
  readonly drive: boolean;
}

function openIn({ motor, train, drive }: Axis): Value<Open> {
  if (train instanceof Missing) return train;
  const gears = train.flatMap(({ gear }, index) => (gear !== undefined && isOpen(gear.part) ? [index] : []));
  const [gear] = gears;
  if (gear !== undefined && (gears.length > 1 || gear !== train.length - 1))
    return missing(
      `${train[gear]!.path}.gear`,
      'problem',
      'an open gear that is the last element of its train, and the only one',
      'gear_60_5',
    );
  return { motor: isOpen(motor.part), gear, drive: isOpen(drive.part) };
}

/** The motor that stands in the file, where only a gear or a drive is open. */
function ownMotor({ motor, site, path }: Axis): Value<readonly OfferedMotor[]> {
  if (motor.absent) return missing(`${path}.motor`, 'absent', 'a motor', 'open');
  const lacks = lackingIn({ values: motor });
  if (lacks !== undefined) {
    const value = motor[lacks];
    return value instanceof Missing ? value : missing(`${motor.path}.${lacks}`, 'absent', 'a figure', 'open');
  }
  return [{ ...motorAt({ values: motor }, site), name: undefined, cost: 0 }];
}

/** The drive that stands in the file; nothing where it does not say its currents, since then nothing is asked of it. */
function ownDrive({ drive, site }: Axis): readonly OfferedDrive[] | undefined {
  const own = driveAt({ values: drive }, site);
  return own === undefined ? undefined : [{ ...own, name: undefined, cost: 0 }];
}

/** The axis without rotor and, in the place of an open gear, one that does nothing. */
function loadAlone(axis: Axis, gear: number | undefined): Axis {
  const train = axis.train as readonly ElementSection[];
  return {
    ...axis,
    motor: { ...axis.motor, inertia: missing(`${axis.path}.motor`, 'absent', 'a motor', 'motor_80_2') },
    train: train.map((element, index) =>
      index === gear ? { ...element, gear: { ...element.gear!, ...nothingOfAGear(axis.path) } } : element,
    ),
  };
}

const nothingOfAGear = (path: string) => ({
  ratio: assumed(`${path}.train`, 1, '1', {
    source: 'definition',
    because: 'in the place of a gear that is not chosen yet',
  }),
  efficiency: undefined as never,
  efficiency_back: undefined,
  inertia: undefined as never,
  stiffness: undefined as never,
});

/** What the gain asks of the stiffness; nothing without a gain. */
function springsOf({ axis: { gain, name }, line }: AxisDemand, inertia_kg_m2: number): Springs | undefined {
  const k = numberOf(gain);
  if (k === undefined) return undefined;
  const stiffness = line instanceof Missing ? undefined : stiffnessAtMotor(line, name);
  return {
    wanted_Hz: wantedBandwidth_Hz(timesAsQuick.value, k),
    train_Nm_per_rad: stiffness?.value ?? Infinity,
    inertia_kg_m2,
  };
}

// ── weighing ─────────────────────────────────────────────────────────────────────────────────────────────────────────

interface Asked {
  readonly open: Open;
  readonly motors: readonly OfferedMotor[];
  /** Nothing where none is open. */
  readonly gears: readonly OfferedGear[] | undefined;
  /** Nothing where no drive is asked about. */
  readonly drives: readonly OfferedDrive[] | undefined;
  readonly reserve: Reserves;
  readonly most: number;
}

/** At the shaft that the gear or motor sits on. */
interface LoadOfAxis {
  readonly cases: readonly Case[];
  readonly inertia_kg_m2: number;
  /** What pulls at it at standstill. */
  readonly held_Nm: number;
  readonly springs: Springs | undefined;
}

/** Keeps the cheapest of what it is given; of the same cost the one with the most over. */
class Cheapest {
  readonly #most: number;
  #kept: Omit<Option, 'planned'>[] = [];
  /** What costs more is none of them. */
  limit = Infinity;

  constructor(most: number) {
    this.#most = most;
  }

  add(option: Omit<Option, 'planned'>): void {
    if (option.cost > this.limit) return;
    this.#kept.push(option);
    if (this.#kept.length < 2 * this.#most) return;
    this.#kept = [...this.ranked()];
    this.limit = this.#kept.at(-1)!.cost;
  }

  ranked(): readonly Omit<Option, 'planned'>[] {
    return this.#kept
      .toSorted(
        (one, other) =>
          one.cost - other.cost ||
          other.margin - one.margin ||
          compare(one.motor ?? '', other.motor ?? '') ||
          compare(one.gear ?? '', other.gear ?? ''),
      )
      .slice(0, this.#most);
  }
}

interface Tried {
  readonly name: Combination;
  readonly motor: OfferedMotor;
  readonly over: number;
  readonly weighing: Weighing;
}

function chosen(axis: Axis, { cases, inertia_kg_m2, held_Nm, springs }: LoadOfAxis, asked: Asked): Choice {
  const { open, motors, gears, drives, reserve, most } = asked;
  const courses = cases.map((each) => courseOf(each).now);
  const stages = courses[0]!.line.stages.length;
  const stage = open.gear === undefined ? stages - 1 : stages - 2;
  const load = choiceLoad(
    cases.map((each, index) => ({
      course: courses[index]!,
      lasting: each.kind === 'cycle',
      starts: each.phases.map(({ starting }) => starting !== undefined),
      stands: each.phases.map(({ standing }) => standing),
    })),
    stage,
    inertia_kg_m2,
  );
  const carried = new Map<number, Carried>();
  const carriedWith = (exponent: number): Carried => {
    const found = carried.get(exponent) ?? carriedBy(cases, courses, stage, exponent);
    carried.set(exponent, found);
    return found;
  };
  const ofLoops = (gear: Parameters<typeof bandwidthShare>[1]): Shares =>
    springs === undefined ? [] : bandwidthShare(springs, gear);
  const inertiaRatioAtMost = numberOf(axis.inertiaRatioAtMost) ?? usualInertiaRatio;
  // Only where the drive alone is open is each of them a choice by itself.
  const sets = open.drive && !open.motor && gears === undefined ? drives!.map((drive) => [drive]) : [drives];
  const turnedBy = new Map<OfferedGear | undefined, GearedLoad>();
  const best = new Cheapest(most);
  const nearest = new Map<string, Tried>();
  const held = new Set<string>();
  for (const { gear, ofGear, motor, set, least } of combinations()) {
    const key = motor.name ?? gear?.name ?? set?.[0]?.name ?? '';
    // It can be none of the cheapest, and that its motor holds somewhere is known.
    if (held.has(key) && least > best.limit) continue;
    const turned = turnedBy.get(gear) ?? geared(load, gear?.gear ?? direct);
    turnedBy.set(gear, turned);
    const weighing = { turned, ofGear, motor, drives: set, inertiaRatioAtMost, held_Nm, reserve };
    const found = weigh(weighing);
    const drive = found.kind === 'holds' ? found.drive : sets.length > 1 ? set?.[0] : undefined;
    const name = { motor: motor.name, gear: gear?.name, drive: drive?.name };
    if (found.kind === 'holds') {
      held.add(key);
      const cost = motor.cost + (gear?.cost ?? 0) + (drive?.cost ?? 0);
      best.add({ ...name, cost, tightest: found.tightest, margin: found.margin });
    } else if ((nearest.get(key)?.over ?? Infinity) >= found.over)
      nearest.set(key, { name, motor, over: found.over, weighing });
  }
  return {
    open: [
      ...(open.motor ? ['motor' as const] : []),
      ...(gears === undefined ? [] : ['gear' as const]),
      ...(open.drive ? ['drive' as const] : []),
    ],
    options: best.ranked().map((option) => ({ ...option, planned: plannedOf(option) })),
    losers: [...nearest].flatMap(([key, tried]) => (held.has(key) ? [] : [loserOf(tried)])),
    combinations: motors.length * (gears?.length ?? 1) * sets.length,
  };

  /** The cheapest first, so that dearer ones need not be weighed; `least` is the cost with the cheapest drive. */
  function combinations() {
    return gearsToWeigh()
      .flatMap(({ gear, ofGear }) =>
        motors.flatMap((motor) =>
          sets.map((set) => {
            const least = motor.cost + (gear?.cost ?? 0) + (set?.[0]?.cost ?? 0);
            return { gear, ofGear, motor, set, least };
          }),
        ),
      )
      .sort((one, other) => one.least - other.least);
  }

  /** Those that hold by themselves; where none does, all, so that each can say what it lacks. */
  function gearsToWeigh(): readonly { readonly gear: OfferedGear | undefined; readonly ofGear: Shares }[] {
    if (gears === undefined)
      return [{ gear: undefined, ofGear: ofLoops({ gear: direct, stiffness_Nm_per_rad: undefined }) }];
    const all = gears.map((gear) => ({
      gear,
      ofGear: [...gearShares(gear, carriedWith(gear.torqueExponent)), ...ofLoops(gear)],
    }));
    if (!open.motor) return all;
    const holding = all.filter(({ ofGear }) => worstOf(ofGear, reserve).over <= 0);
    return holding.length === 0 ? all : holding;
  }

  function plannedOf({ motor, gear, drive }: Combination): Option['planned'] {
    const train = axis.train as readonly ElementSection[];
    return [
      ...(motor === undefined ? [] : [{ path: `${axis.path}.motor`, part: motor }]),
      ...(gear === undefined ? [] : [{ path: `${train[open.gear!]!.path}.gear`, part: gear }]),
      ...(drive === undefined ? [] : [{ path: `${axis.path}.drive`, part: drive }]),
    ];
  }

  function loserOf({ name, motor, weighing }: Tried): Loser {
    const apart = gears === undefined ? undefined : ratiosApart(load, motor.there, inertiaRatioAtMost, reserve);
    if (open.motor && apart !== undefined) return { ...name, gear: undefined, why: apart };
    const found = weigh(weighing, true);
    return { ...name, why: found.kind === 'holds' ? '' : whyOf(found) };
  }
}

/** Torques at the output of an open gear, and speeds there. */
function carriedBy(
  cases: readonly Case[],
  courses: readonly Parameters<typeof gearDuty>[0][],
  stage: number,
  exponent: number,
): Carried {
  const duties = cases.map(({ kind }, index) => ({ kind, found: gearDuty(courses[index]!, stage, exponent) }));
  const highest = (kinds: readonly Case['kind'][], of: (found: (typeof duties)[number]['found']) => number): number =>
    Math.max(0, ...duties.flatMap(({ kind, found }) => (kinds.includes(kind) ? [of(found)] : [])));
  return {
    peak_Nm: highest(['cycle', 'ramp'], ({ peak_Nm }) => peak_Nm),
    stop_Nm: highest(['stop'], ({ peak_Nm }) => peak_Nm),
    mean_Nm: highest(['cycle'], ({ mean_Nm }) => mean_Nm),
    speed_rad_per_s: highest(['cycle', 'ramp'], ({ peak_rad_per_s }) => peak_rad_per_s),
    meanSpeed_rad_per_s: highest(['cycle'], ({ mean_rad_per_s }) => mean_rad_per_s),
  };
}
