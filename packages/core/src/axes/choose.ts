// Which motors, gears and drives of a catalogue do for an axis whose motor, gear or drive is open: every combination is
// weighed as the checks weigh it, those that keep the reserves are ranked by cost, and every other says why it is not among them.
import type { Part } from '../reading/parts.ts';
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, isOpen, isUnsaid, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { Axis } from './axis.ts';
import { choiceLoad } from './calc/choice-load.ts';
import { carriedOf, direct, type LossyLoad, withLosses } from './calc/choosing.ts';
import { lifeExponents } from './calc/gear-load.ts';
import { usualInertiaRatio } from './calc/inertia.ts';
import { aThird, timesAsQuick } from './checks/loop.ts';
import {
  canBeWeighed,
  compare,
  costOf,
  gearOf,
  hasRatio,
  numberIn,
  numberOf,
  type Offered,
  withOwn,
} from './choose-parts.ts';
import {
  type CheckName,
  drivesOf,
  type GearTried,
  gearShares,
  motorTried,
  type Reserves,
  type Shares,
  type Weighing,
  weigher,
} from './choose-weigh.ts';
import { contradictionOf, isWithoutBrake, overBy } from './choose-why.ts';
import { courseOf } from './course.ts';
import { type Case, demandOf } from './demand.ts';
import { acrossShaft } from './radial-force.ts';
import type { ElementSection } from './section.ts';
import { givingWayOf } from './stiffness-of.ts';
import { isTurnedAtRest } from './turned-at-rest.ts';

/** What is on offer. */
export interface Offers {
  readonly motors: readonly Part[];
  readonly gears: readonly Part[];
  readonly drives: readonly Part[];
}

/** What is tried together; nothing in the place of what is not open. */
interface Tried {
  readonly motor: string | undefined;
  readonly gear: string | undefined;
}

export interface Option extends Tried {
  /** Nothing where no drive is open. */
  readonly drive: string | undefined;
  /** Of all that is chosen. */
  readonly cost: number;
  /** The check that leaves least beyond its reserve, and its margin. */
  readonly tightest: CheckName;
  readonly margin: number;
  /** What would be written into `planned`. */
  readonly planned: readonly { readonly path: string; readonly part: string }[];
}

export interface Loser extends Tried {
  /** Where a drive is all that is open. */
  readonly drive: string | undefined;
  readonly why: string;
}

export interface Choice {
  /** The cheapest first; of the same cost the one with the most over. */
  readonly options: readonly Option[];
  /** For each motor that is in no option its nearest try; for each gear or drive where no motor is open. */
  readonly losers: readonly Loser[];
  readonly weighed: number;
  /** Whether only motors with a brake are taken, since the load would turn the axis at standstill. */
  readonly brakeNeeded: boolean;
  /** Places of what a check will ask for and the file does not say. */
  readonly untold: readonly string[];
}

/** Nothing where nothing is open; missing where the load is not known. */
export function choose(
  axis: Axis,
  gravity: Value<Quantity<'m/s²'>>,
  offers: Offers,
  reserve: Reserves,
): Value<Choice> | undefined {
  const open = openIn(axis);
  if (open === undefined || open instanceof Missing) return open;
  const { motor, path } = axis;
  if (motor.absent) return missing(`${path}.motor`, 'absent', 'a motor, or an open one', 'open');
  const demand = demandOf(loadAlone(axis, open.gear), gravity);
  const asked = {
    cases: demand.cases,
    inertia: demand.inertia,
    held: demand.holding,
    ...(!open.motor && {
      J: motor.inertia,
      T: motor.torque,
      P: motor.torque_peak,
      n: motor.speed,
      ...(open.drive && { k: motor.torque_constant }),
    }),
  };
  return given(asked, (known) =>
    weighed(
      axis,
      {
        cases: known.cases as readonly Case[],
        inertia_kg_m2: (known.inertia as Quantity).value,
        held_Nm: Math.abs((known.held as Quantity | undefined)?.value ?? 0),
        brakeNeeded: open.motor && isTurnedAtRest(demand, gravity),
        stiffness_Nm_per_rad: givingWayOf(demand)?.stiffness.value ?? Infinity,
      },
      { open, offers, reserve },
    ),
  );
}

/** Whether a choice can be made there at all. */
export const isChoosable = (axis: Axis): boolean => !axis.motor.absent && openIn(axis) !== undefined;

interface Open {
  readonly motor: boolean;
  /** The place of the gear in the train. */
  readonly gear: number | undefined;
  readonly drive: boolean;
}

/** Nothing where nothing is open. */
function openIn({ motor, train, drive }: Axis): Value<Open> | undefined {
  const gears =
    train instanceof Missing
      ? []
      : train.flatMap(({ gear }, index) => (gear !== undefined && isOpen(gear.part) ? [index] : []));
  const [gear] = gears;
  const open = { motor: isOpen(motor.part), gear, drive: isOpen(drive.part) };
  if (!(open.motor || open.drive) && gear === undefined) return undefined;
  if (train instanceof Missing) return train;
  if (gear !== undefined && (gears.length > 1 || gear !== train.length - 1))
    return missing(
      `${train[gear]!.path}.gear`,
      'problem',
      'an open gear that is the last element of its train, and the only one',
      'gear_60_5',
    );
  return open;
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

// ── weighing ─────────────────────────────────────────────────────────────────────────────────────────────────────────

interface Asked {
  readonly open: Open;
  readonly offers: Offers;
  readonly reserve: Reserves;
}

/** At the shaft that the gear or motor sits on. */
interface LoadOfAxis {
  readonly cases: readonly Case[];
  readonly inertia_kg_m2: number;
  /** What pulls at it at standstill. */
  readonly held_Nm: number;
  /** Whether a motor is to be chosen, and has to hold what would turn the axis at standstill. */
  readonly brakeNeeded: boolean;
  /** Infinite where the train says none. */
  readonly stiffness_Nm_per_rad: number;
}

function weighed(axis: Axis, load: LoadOfAxis, { open, offers, reserve }: Asked): Choice {
  const most = numberOf(axis.inertiaRatioAtMost) ?? usualInertiaRatio;
  const weigh = weigher(reserve, most, load);
  const gears = gearsTried(axis, load, open, offers.gears);
  const motors = (open.motor ? offers.motors.map(withOwn(axis.motor)) : [asTheFileSays(axis.motor)])
    .filter(canBeWeighed)
    .map((part) => motorTried(part, axis));
  const drives = drivesTried(axis, open, offers.drives);
  // A drive alone is told of each; beside a motor or a gear the cheapest that does is taken.
  const alone = open.drive && !open.motor && open.gear === undefined;
  const sets = alone && drives !== undefined ? drives.map((drive) => [drive]) : [drives];
  const options: Option[] = [];
  const nearest = new Map<string, { readonly over: number; readonly again: Weighing }>();
  const namesOf = ({ gear, motor, drives: of }: Weighing) => ({
    motor: open.motor ? motor.part.name : undefined,
    gear: gear.part?.name,
    drive: alone ? of?.[0]?.part.name : undefined,
  });
  const leadOf = ({ gear, motor, drives: of }: Weighing): string =>
    open.motor ? motor.part.name : (gear.part?.name ?? of?.[0]?.part.name ?? '');
  const planned = plannedAt(axis, open);
  const chosen = new Set<string>();
  /** As with a gear that loses nothing. */
  let withoutLoss: LossyLoad | undefined;
  const plain = (): LossyLoad => {
    withoutLoss ??= withLosses(gears[0]!.behind.load, direct);
    return withoutLoss;
  };
  let count = 0;
  for (const gear of gears) {
    for (const motor of motors) {
      for (const set of sets) {
        count++;
        const weighing = { gear, motor, drives: set };
        const found = weigh(weighing);
        const lead = leadOf(weighing);
        if (found.kind === 'holds') {
          chosen.add(lead);
          const drive = open.drive ? found.drive?.part : undefined;
          const taken = {
            motor: open.motor ? motor.part.name : undefined,
            gear: gear.part?.name,
            drive: drive?.name,
          };
          options.push({
            motor: taken.motor,
            gear: taken.gear,
            drive: taken.drive,
            cost: (open.motor ? costOf(motor.part) : 0) + costOf(gear.part) + costOf(drive),
            tightest: found.tightest,
            margin: found.margin,
            planned: planned(taken),
          });
        } else {
          const before = nearest.get(lead);
          if (before === undefined || before.over > found.over)
            nearest.set(lead, { over: found.over, again: weighing });
        }
      }
    }
  }
  return {
    options: options.toSorted(
      (one, other) =>
        one.cost - other.cost ||
        other.margin - one.margin ||
        compare(one.motor ?? '', other.motor ?? '') ||
        compare(one.gear ?? '', other.gear ?? ''),
    ),
    losers: [...nearest].flatMap(([lead, { again }]) => {
      const found = chosen.has(lead) ? undefined : weigh(again, true);
      if (found === undefined || found.kind === 'holds') return [];
      const apart =
        open.gear === undefined || !open.motor || isWithoutBrake(found)
          ? undefined
          : contradictionOf(plain(), {
              motor: again.motor.there,
              brake_Nm: again.motor.brake_Nm,
              inertiaRatioAtMost: most,
              held_Nm: load.held_Nm,
              reserve,
            });
      return [{ ...namesOf(again), why: apart ?? overBy(found) }];
    }),
    weighed: count,
    brakeNeeded: load.brakeNeeded,
    untold: untoldOf(axis, open.gear),
  };
}

/** Each part at the place that is open: the use of a part, or its name where more stands beside it. */
function plannedAt(axis: Axis, open: Open) {
  const gear = open.gear === undefined ? undefined : (axis.train as readonly ElementSection[])[open.gear]!.gear!.part;
  const placeOf = (part: unknown): string | undefined => (isOpen(part) ? part.lacks[0]!.path : undefined);
  const places = { motor: placeOf(axis.motor.part), gear: placeOf(gear), drive: placeOf(axis.drive.part) };
  return (parts: Tried & { readonly drive: string | undefined }): Option['planned'] => {
    const planned: Option['planned'][number][] = [];
    for (const key of ['motor', 'gear', 'drive'] as const)
      if (places[key] !== undefined && parts[key] !== undefined) planned.push({ path: places[key], part: parts[key] });
    return planned;
  };
}

const asTheFileSays = (own: object): Offered => withOwn(own)({ name: '', values: {} });

/** Nothing where no drive is asked about: it is neither open nor says what current it gives. */
function drivesTried({ drive, site }: Axis, open: Open, offered: readonly Part[]): Weighing['drives'] {
  if (open.drive) return drivesOf(offered.map(withOwn(drive)), site);
  return isUnsaid(drive.current) ? undefined : drivesOf([asTheFileSays(drive)], site);
}

/** Each gear before the load, with what it carries; one that does nothing where none is open. */
function gearsTried(
  axis: Axis,
  { cases, inertia_kg_m2, stiffness_Nm_per_rad }: LoadOfAxis,
  open: Open,
  offered: readonly Part[],
): readonly GearTried[] {
  const courses = cases.map((each) => courseOf(each).now);
  const stages = courses[0]!.line.stages.length;
  const load = choiceLoad(
    cases.map(({ kind, phases }, index) => ({
      course: courses[index]!,
      kind,
      stands: phases.map(({ standing }) => standing),
    })),
    open.gear === undefined ? stages - 1 : stages - 2,
    inertia_kg_m2,
  );
  const bandwidth = (ratio: number, gear_kg_m2: number, gear_Nm_per_rad: number): Shares => {
    const gain = numberOf(axis.gain);
    const stiffness = 1 / (1 / stiffness_Nm_per_rad + 1 / gear_Nm_per_rad) / ratio ** 2;
    if (gain === undefined || stiffness === Infinity) return [];
    const antiresonance_per_s = Math.sqrt(stiffness / (inertia_kg_m2 / ratio ** 2 + gear_kg_m2));
    return [['bandwidth', (timesAsQuick.value * gain) / (aThird.value * antiresonance_per_s)]];
  };
  const place = open.gear;
  if (place === undefined)
    return [{ part: undefined, gear: direct, behind: withLosses(load, direct), shares: bandwidth(1, 0, Infinity) }];
  const losses = new Map<string, LossyLoad>();
  const carried = new Map<number, ReturnType<typeof carriedOf>>();
  const kept = <K, V>(all: Map<K, V>, key: K, make: () => V): V => {
    const found = all.get(key) ?? make();
    all.set(key, found);
    return found;
  };
  const own = (axis.train as readonly ElementSection[])[place]!.gear;
  return offered
    .map(withOwn(own))
    .filter(hasRatio)
    .map((part) => {
      const gear = gearOf(part);
      const exponent = numberIn(part, 'torque_exponent') ?? lifeExponents.ball;
      const duty = kept(carried, exponent, () => carriedOf(load, exponent));
      return {
        part,
        gear,
        behind: kept(losses, `${gear.driving} ${gear.driven}`, () => withLosses(load, gear)),
        shares: [
          ...gearShares(part, { ...duty, radial_N: radialForce(axis, place, duty.peak_Nm) }),
          ...bandwidth(gear.ratio, gear.inertia_kg_m2, numberIn(part, 'stiffness') ?? Infinity),
        ],
      };
    });
}

/** The force across an open gear is a matter of how it is built in, and known of few trains. */
function untoldOf(axis: Axis, place: number | undefined): readonly string[] {
  const across = place === undefined ? undefined : acrossShaft(axis, place);
  const lacks = across?.kind === 'unknown' ? across.lacks : across?.kind === 'said' ? across.force : undefined;
  return lacks instanceof Missing ? lacks.lacks.map(({ path }) => path) : [];
}

/** Nothing where the train does not tell it. */
function radialForce(axis: Axis, place: number, peak_Nm: number): number | undefined {
  const across = acrossShaft(axis, place);
  if (across?.kind === 'said') return numberOf(across.force);
  const diameter = across?.kind === 'pull' ? numberOf(across.diameter) : undefined;
  return across?.kind === 'pull' && diameter !== undefined ? (across.share.value * 2 * peak_Nm) / diameter : undefined;
}
