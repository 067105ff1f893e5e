// What axes on one DC bus do to it: over the production cycle on their common time, and when all of them stop at once.
import type { Value } from '../reading/values.ts';
import { given, Missing, missing } from '../working/missing.ts';
import type { Inputs, Quantity } from '../working/quantity.ts';
import type { Axis, Bus, Site, Stop } from './axis.ts';
import { busVoltage, energyToResistor, meanToResistor, peakToResistor, stopVoltage } from './bus-methods.ts';
import {
  type BusCycle,
  type BusDuty,
  busCycle,
  type PowerPiece,
  rectifiedVoltage,
  settledVoltage,
} from './calc/bus.ts';
import { type Course, powerPieces } from './calc/course.ts';
import { lasts_s } from './calc/phase-torque.ts';
import { stopPieces } from './calc/stop-course.ts';
import { courseOf } from './course.ts';
import type { AxisDemand, Case } from './demand.ts';
import { valuesOf } from './line.ts';

export interface BusDemand {
  readonly bus: Bus;
  /** Of the drives on it. */
  readonly tripsAt: Value<Quantity<'V'>>;
  readonly switchedAt: Value<Quantity<'V'>>;
  /** In production, once it repeats itself. */
  readonly cycle: Value<Loaded>;
  /** Whether the voltage comes to an end of its rise in production. */
  readonly settles: Value<boolean>;
  readonly stops: readonly StopOfBus[];
}

export interface StopOfBus {
  readonly stop: Stop;
  readonly loaded: Value<Loaded>;
}

/** What the bus has to bear. */
export interface Loaded {
  readonly highest: Quantity<'V'>;
  /** Over one cycle, or in one stop. */
  readonly toResistor: Quantity<'J'>;
  readonly peak: Quantity<'W'>;
  /** Nothing in a stop. */
  readonly mean: Quantity<'W'> | undefined;
}

export function busDemand(bus: Bus, demands: readonly AxisDemand[], site: Site): BusDemand {
  const aboard = bus.axes.map(({ name }) => demands.find(({ axis }) => axis.name === name)!);
  const electric = electricOf(bus, site);
  const running = given({ cases: aboard.map(runningCase) }, ({ cases }) => cases as readonly Case[]);
  const stops = stopsOf(bus.axes);
  return {
    bus,
    tripsAt: lowest(bus, 'bus_at_most', '820 V'),
    switchedAt: lowest(bus, 'bus_brake', '780 V'),
    cycle: given({ electric, running }, (known) => inProduction(bus, known.running, known.electric)),
    settles: given({ electric, running }, (known) => {
      const { inputs, build } = over(bus, known.running, known.electric, {});
      return settledVoltage(dutyOf(build(valuesOf(inputs)))) !== undefined;
    }),
    stops: stops.map((stop) => ({
      stop,
      loaded: given({ electric, running, t: stop.within }, (known) =>
        inStop(bus, aboard, known.running, known.electric, known.t, stop),
      ),
    })),
  };
}

/** The case that goes on in production; of a winder that of the full roll, which has most to give back in a stop. */
function runningCase({ cases, axis }: AxisDemand): Value<Case> {
  if (cases instanceof Missing) return cases;
  return (
    cases.findLast(({ lasting }) => lasting) ??
    missing(`${axis.path}.motion`, 'problem', 'a motion that repeats itself', '')
  );
}

/** Those of the masters that are followed, each once; the drives do nothing in a stop of category 0. */
const stopsOf = (axes: readonly Axis[]): readonly Stop[] => [
  ...new Map(
    axes
      .flatMap(({ master }) => (master === undefined || master instanceof Missing ? [] : master.stops))
      .filter(({ category }) => category !== '0')
      .map((stop) => [stop.name, stop]),
  ).values(),
];

// ── what the bus is like ─────────────────────────────────────────────────────────────────────────────────────────────

interface Electric {
  readonly inputs: Inputs;
  readonly means: Readonly<Record<string, string>>;
}

/** Capacitances, voltage of the mains, and where a resistor is there the voltages at which the drives switch it. */
function electricOf(bus: Bus, { mains }: Site): Value<Electric> {
  const capacitances = [
    ...bus.axes.map(({ drive }) => drive.capacitance),
    ...(bus.capacitance ? [bus.capacitance] : []),
  ];
  const asked = {
    C: capacitances,
    U: given({ U: mains }, ({ U }) => rectifiedVoltage({ U }, bus.name)),
    B: bus.resistor === undefined ? undefined : lowest(bus, 'bus_brake', '780 V'),
  };
  return given(asked, ({ C, U, B }): Value<Electric> => {
    if (C.length === 0) return missing(`${bus.path}.axes`, 'absent', 'axes with a motion', '[unwind, infeed]');
    if (B !== undefined && (B as Quantity).value <= U.value)
      return missing(`${bus.path}.resistor`, 'problem', 'drives that switch it above the rectified mains', '');
    return {
      inputs: { C: C as Quantity<'F'>[], U, ...(B && { B: B as Quantity<'V'> }) },
      means: {
        C: 'capacitances on the bus',
        U: 'voltage that the mains fill it to',
        B: 'voltage at which the resistor is switched on',
      },
    };
  }) as Value<Electric>;
}

function lowest(bus: Bus, key: 'bus_brake' | 'bus_at_most', example: string): Value<Quantity<'V'>> {
  if (bus.axes.length === 0) return missing(`${bus.path}.axes`, 'absent', 'axes with a motion', example);
  return given({ all: bus.axes.map(({ drive }) => drive[key]) }, ({ all }) =>
    (all as readonly Quantity<'V'>[]).reduce((least, each) => (each.value < least.value ? each : least)),
  );
}

// ── loads on it ──────────────────────────────────────────────────────────────────────────────────────────────────────

type Values = readonly (number | readonly number[])[];

/** All that a method over a bus rests on, and how to build what it walks from the values. */
interface Over {
  readonly inputs: Inputs;
  readonly means: Readonly<Record<string, string>>;
  readonly build: (values: Values) => Found;
}

function over(bus: Bus, cases: readonly Case[], electric: Electric, more: Inputs): Over {
  const inputs: Record<string, Inputs[string]> = { ...electric.inputs, ...more };
  const means: Record<string, string> = { ...electric.means, T: 'time from full speed to rest' };
  const head = Object.keys(inputs).length;
  const forms = cases.map((each, index) => {
    const form = courseOf(each);
    const name = bus.axes[index]!.name;
    for (const [symbol, input] of Object.entries(form.inputs)) {
      inputs[`${symbol}_${name}`] = input;
      means[`${symbol}_${name}`] = `${form.means[symbol] ?? ''}, ${name}`;
    }
    return { form, count: Object.keys(form.inputs).length };
  });
  return {
    inputs,
    means,
    build: (values) => {
      const [C, U, ...rest] = values.slice(0, head);
      let at = head;
      const courses = forms.map(({ form, count }) => {
        at += count;
        return form.build(values.slice(at - count, at));
      });
      const capacitance_F = (C as readonly number[]).reduce((sum, each) => sum + each, 0);
      const [brake_V, stop_s] = 'B' in inputs ? rest : [undefined, ...rest];
      const plain = {
        capacitance_F,
        mains_V: U as number,
        ...(brake_V !== undefined && { brake_V: brake_V as number }),
      };
      return { plain, courses, stop_s: stop_s as number | undefined };
    },
  };
}

interface Found {
  readonly plain: Omit<BusDuty, 'axes' | 'cycle_s'>;
  readonly courses: readonly Course[];
  readonly stop_s: number | undefined;
}

function inProduction(bus: Bus, cases: readonly Case[], electric: Electric): Loaded {
  const walk = (found: Found): BusCycle => {
    const duty = dutyOf(found);
    // Where they give back more than they take and nothing burns it, the first cycle is as good as any to say so.
    return busCycle(duty, settledVoltage(duty) ?? duty.mains_V);
  };
  return loadedOf(over(bus, cases, electric, {}), walk, bus.name, true);
}

const dutyOf = ({ plain, courses }: Found): BusDuty => ({ ...plain, ...together(courses) });

function inStop(
  bus: Bus,
  demands: readonly AxisDemand[],
  cases: readonly Case[],
  electric: Electric,
  T: Quantity<'s'>,
  { name }: Stop,
): Loaded {
  const follows = demands.map(({ axis, motion }) => {
    if (axis.master === undefined || motion instanceof Missing) return false;
    return (
      motion.scales || motion.phases.every(({ even }) => even?.before !== undefined && even.acceleration === undefined)
    );
  });
  const walk = ({ plain, courses, stop_s = 0 }: Found): BusCycle =>
    worst(
      placesOf(courses, follows).map((begins_s) => {
        const axes = courses.map((course, at) => (follows[at] ? stopPieces(course, { stop_s, begins_s }) : []));
        return busCycle({ ...plain, axes, cycle_s: stop_s }, plain.mains_V);
      }),
    );
  return loadedOf(over(bus, cases, electric, { T }), walk, `${bus.name}.stop_${name}`, false);
}

/** So many places of the longest cycle at which a stop may begin (our judgement); where nothing depends on it, one. */
const places = 8;

function placesOf(courses: readonly Course[], follows: readonly boolean[]): readonly number[] {
  const depends = courses.filter(
    ({ stretches, line }, at) =>
      follows[at] &&
      (line.stages.some(({ placed }) => placed.length > 0) ||
        stretches.some(({ motion }) =>
          motion.some(({ sine, polynomial }) => sine !== undefined || polynomial.length > 2),
        )),
  );
  if (depends.length === 0) return [0];
  const longest_s = Math.max(...depends.map(lasts));
  return Array.from({ length: places }, (_, at) => (longest_s * at) / places);
}

const lasts = ({ stretches }: Course): number => stretches.reduce((sum, { motion }) => sum + lasts_s(motion), 0);

const worst = (all: readonly BusCycle[]): BusCycle =>
  all.reduce((most, each) =>
    each.highest_V > most.highest_V || (each.highest_V === most.highest_V && each.resistor_J > most.resistor_J)
      ? each
      : most,
  );

/** How often the longest cycle is gone through at most until all cycles meet (our judgement); else it is gone through once. */
const mostRounds = 24;

/** All axes on one time: each goes through its cycle as often as it fits. */
function together(courses: readonly Course[]): Pick<BusDuty, 'axes' | 'cycle_s'> {
  const longest_s = Math.max(...courses.map(lasts));
  const meets = (span_s: number): boolean =>
    courses.every((course) => {
      const times = span_s / lasts(course);
      return Math.abs(times - Math.round(times)) < 1e-6;
    });
  const rounds = Array.from({ length: mostRounds }, (_, at) => at + 1).find((count) => meets(count * longest_s)) ?? 1;
  const cycle_s = rounds * longest_s;
  return { cycle_s, axes: courses.map((course) => repeated(powerPieces(course), lasts(course), cycle_s)) };
}

/** A cycle that comes more often than this within another one counts by its mean power (our judgement). */
const mostRepeats = 200;

function repeated(pieces: readonly PowerPiece[], own_s: number, cycle_s: number): readonly PowerPiece[] {
  const count = Math.max(1, Math.floor(cycle_s / own_s + 1e-6));
  if (count > mostRepeats) {
    const mean_W = pieces.reduce((sum, { energy_J }) => sum + energy_J, 0) / own_s;
    return [{ from_s: 0, to_s: cycle_s, start_W: mean_W, end_W: mean_W, energy_J: mean_W * cycle_s }];
  }
  // Whole cycles are made to fit exactly, so that rounding leaves no piece beyond the end.
  const stretch = cycle_s / own_s - count < 1e-6 ? cycle_s / (count * own_s) : 1;
  return Array.from({ length: count }, (_, round) =>
    pieces.map((piece, at) => {
      const from_s = (round * own_s + piece.from_s) * stretch;
      const next = pieces[at + 1]?.from_s ?? own_s;
      const to_s = Math.min(cycle_s, (round * own_s + next) * stretch);
      return { ...piece, from_s, to_s };
    }),
  )
    .flat()
    .filter(({ from_s, to_s }) => to_s > from_s);
}

function loadedOf(
  { inputs, means, build }: Over,
  walk: (found: Found) => BusCycle,
  about: string,
  repeats: boolean,
): Loaded {
  const found = walk(build(valuesOf(inputs)));
  const read = (take: (cycle: BusCycle) => number) => ({
    inputs,
    means,
    of: (...values: Values) => take(walk(build(values))),
    value: take(found),
  });
  return {
    highest: (repeats ? busVoltage : stopVoltage)(
      read(({ highest_V }) => highest_V),
      about,
    ),
    toResistor: energyToResistor(
      read(({ resistor_J }) => resistor_J),
      about,
    ),
    peak: peakToResistor(
      read(({ resistorPeak_W }) => resistorPeak_W),
      about,
    ),
    mean: repeats
      ? meanToResistor(
          read(({ resistorMean_W }) => resistorMean_W),
          about,
        )
      : undefined,
  };
}
