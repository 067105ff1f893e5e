// Which motors, gears and drives of a catalogue do for an axis whose motor, gear or drive is open: every combination is
// weighed as the checks weigh it, those that keep the reserves are ranked by cost, and every other says why it is not among them.
import type { Part } from '../reading/parts.ts';
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, isOpen, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { Axis } from './axis.ts';
import { choiceLoad } from './calc/choice-load.ts';
import { direct, geared } from './calc/choosing.ts';
import { gearDuty } from './calc/course.ts';
import { lifeExponents } from './calc/gear-load.ts';
import { usualInertiaRatio } from './calc/inertia.ts';
import { canBeWeighed, compare, costOf, gearOf, hasRatio, motorAt, numberIn, numberOf } from './choose-parts.ts';
import { drivesOf, gearShares, type Reserves, type Weighing, weigh, whyOf } from './choose-weigh.ts';
import { courseOf } from './course.ts';
import { type Case, demandOf } from './demand.ts';
import type { ElementSection } from './section.ts';

/** What is on offer. */
export interface Offers {
  readonly motors: readonly Part[];
  readonly gears: readonly Part[];
  readonly drives: readonly Part[];
}

export interface Option {
  readonly motor: string;
  /** Nothing where no gear is open. */
  readonly gear: string | undefined;
  /** Nothing where no drive is open. */
  readonly drive: string | undefined;
  /** Of all that is chosen. */
  readonly cost: number;
  /** The check that leaves least beyond its reserve, and its margin. */
  readonly tightest: string;
  readonly margin: number;
  /** What would be written into `planned`. */
  readonly planned: readonly { readonly path: string; readonly part: string }[];
}

export interface Loser {
  readonly motor: string;
  readonly gear: string | undefined;
  readonly why: string;
}

export interface Choice {
  /** The cheapest first; of the same cost the one with the most over. */
  readonly options: readonly Option[];
  /** For each motor that is in no option its nearest try. */
  readonly losers: readonly Loser[];
  readonly weighed: number;
}

/** Nothing where nothing is open; missing where the load is not known. */
export function choose(
  axis: Axis,
  gravity: Value<Quantity<'m/s²'>>,
  offers: Offers,
  reserve: Reserves,
): Value<Choice> | undefined {
  const open = openIn(axis);
  if (open instanceof Missing) return open;
  if (!open.motor)
    return open.gear === undefined
      ? undefined
      : missing(`${axis.path}.motor`, 'problem', 'an open motor beside an open gear', 'open');
  const demand = demandOf(loadAlone(axis, open.gear), gravity);
  return given({ cases: demand.cases, inertia: demand.inertia, held: demand.holding }, (known) =>
    weighed(
      axis,
      {
        cases: known.cases as readonly Case[],
        inertia_kg_m2: known.inertia.value,
        held_Nm: Math.abs((known.held as Quantity | undefined)?.value ?? 0),
      },
      { open, offers, reserve },
    ),
  );
}

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
}

function weighed(axis: Axis, { cases, inertia_kg_m2, held_Nm }: LoadOfAxis, { open, offers, reserve }: Asked): Choice {
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
  const gears = open.gear === undefined ? [undefined] : offers.gears.filter(hasRatio);
  const motors = offers.motors.filter(canBeWeighed);
  const most = numberOf(axis.inertiaRatioAtMost) ?? usualInertiaRatio;
  const duty = (exponent: number) => {
    const duties = cases.map((each, index) => ({ each, found: gearDuty(courses[index]!, stage, exponent) }));
    const of = (which: typeof duties, take: (found: (typeof duties)[number]['found']) => number): number =>
      Math.max(0, ...which.map(({ found }) => take(found)));
    const stops = duties.filter(({ each }) => each.kind === 'stop');
    const others = duties.filter(({ each }) => each.kind !== 'stop');
    const lasting = duties.filter(({ each }) => each.kind === 'cycle');
    return {
      peak: of(others, ({ peak_Nm }) => peak_Nm),
      stop: of(stops, ({ peak_Nm }) => peak_Nm),
      mean: of(lasting, ({ mean_Nm }) => mean_Nm),
      speed: of(others, ({ peak_rad_per_s }) => peak_rad_per_s),
      meanSpeed: of(lasting, ({ mean_rad_per_s }) => mean_rad_per_s),
    };
  };
  const duties = new Map<number, ReturnType<typeof duty>>();
  const options: Option[] = [];
  const nearest = new Map<
    string,
    { readonly gear: Part | undefined; readonly over: number; readonly again: Weighing }
  >();
  const drives = open.drive ? drivesOf(offers.drives, axis.site) : undefined;
  const there = new Map(motors.map((motor) => [motor, motorAt(motor, axis)]));
  let count = 0;
  for (const gear of gears) {
    const exponent = numberIn(gear, 'torque_exponent') ?? lifeExponents.ball;
    if (gear !== undefined && !duties.has(exponent)) duties.set(exponent, duty(exponent));
    const ofGear = gear === undefined ? [] : gearShares(gear, duties.get(exponent)!);
    const turned = geared(load, gear === undefined ? direct : gearOf(gear));
    for (const motor of motors) {
      count++;
      const weighing = { axis, turned, motor, there: there.get(motor)!, most, held_Nm, ofGear, drives, reserve };
      const found = weigh(weighing);
      if (found.kind === 'holds')
        options.push({
          motor: motor.name,
          gear: gear?.name,
          drive: found.drive?.name,
          cost: costOf(motor) + costOf(gear) + costOf(found.drive),
          tightest: found.tightest,
          margin: found.margin,
          planned: [
            { path: `${axis.path}.motor`, part: motor.name },
            ...(gear === undefined
              ? []
              : [{ path: `${(axis.train as readonly ElementSection[])[open.gear!]!.path}.gear`, part: gear.name }]),
            ...(found.drive === undefined ? [] : [{ path: `${axis.path}.drive`, part: found.drive.name }]),
          ],
        });
      else if ((nearest.get(motor.name)?.over ?? Infinity) > found.over)
        nearest.set(motor.name, { gear, over: found.over, again: weighing });
    }
  }
  const chosen = new Set(options.map(({ motor }) => motor));
  return {
    options: options.toSorted(
      (one, other) =>
        one.cost - other.cost ||
        other.margin - one.margin ||
        compare(one.motor, other.motor) ||
        compare(one.gear ?? '', other.gear ?? ''),
    ),
    losers: motors.flatMap(({ name }) => {
      const loser = nearest.get(name);
      if (chosen.has(name) || loser === undefined) return [];
      const found = weigh(loser.again, true);
      return found.kind === 'holds' ? [] : [{ motor: name, gear: loser.gear?.name, why: whyOf(found) }];
    }),
    weighed: count,
  };
}
