// What axes on one DC bus do to it: over the production cycle on their common time, and when all of them stop at once.
import type { Value } from '../reading/values.ts';
import { type OpenCall, resultsOf, type Values } from '../working/formula.ts';
import { given, Missing, missing } from '../working/missing.ts';
import type { Inputs, Quantity } from '../working/quantity.ts';
import { total } from '../working/total.ts';
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
import { type Course, courseLasts_s, isSteady, powerPieces } from './calc/course.ts';
import { stopPieces } from './calc/stop-course.ts';
import { courseOf } from './course.ts';
import type { AxisDemand, Case } from './demand.ts';

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
  const loads = given({ electric: electricOf(bus, site), cases: aboard.map(runningCase) }, ({ electric, cases }) =>
    loadsOn(bus, cases as readonly Case[], electric),
  );
  const production = given({ loads }, (known) => inProduction(known.loads, bus.name));
  return {
    bus,
    tripsAt: lowest(bus, 'bus_at_most', '820 V'),
    switchedAt: lowest(bus, 'bus_brake', '780 V'),
    cycle: given({ production }, (known) => known.production.loaded),
    settles: given({ production }, (known) => known.production.settles),
    stops: stopsOf(bus.axes).map((stop) => ({
      stop,
      loaded: given({ loads, T: stop.within }, (known) =>
        inStop(known.loads, aboard, known.T, `${bus.name}.stop_${stop.name}`),
      ),
    })),
  };
}

/** The case that goes on in production; of a winder that of the full roll, which has most to give back in a stop. */
function runningCase({ cases, axis, rotor }: AxisDemand): Value<Case> {
  if (cases instanceof Missing) return cases;
  if (rotor !== undefined) return rotor;
  return (
    cases.findLast(({ kind }) => kind === 'cycle') ??
    missing(`${axis.path}.motion`, 'problem', 'a motion that repeats itself', '')
  );
}

/**
 * Those of the masters that are followed, each once; the drives do nothing in a stop of category 0. Where two masters have
 * a stop of one name, that of the master stands before it.
 */
function stopsOf(axes: readonly Axis[]): readonly Stop[] {
  const masters = [...new Set(axes.flatMap(({ master }) => (master instanceof Missing ? [] : (master ?? []))))];
  const all = masters.flatMap((master) =>
    master.stops.filter(({ category }) => category !== '0').map((stop) => ({ master: master.name, stop })),
  );
  return all.map(({ master, stop }) =>
    all.some((other) => other.stop !== stop && other.stop.name === stop.name)
      ? { ...stop, name: `${master}_${stop.name}` }
      : stop,
  );
}

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

/** All that a method over a bus rests on, and how to build what it walks from the values. */
interface Loads {
  readonly inputs: Inputs;
  readonly means: Readonly<Record<string, string>>;
  readonly build: (values: Values) => Found;
}

interface Found {
  readonly plain: Omit<BusDuty, 'axes' | 'cycle_s'>;
  readonly courses: readonly Course[];
}

function loadsOn(bus: Bus, cases: readonly Case[], electric: Electric): Loads {
  const inputs: Record<string, Inputs[string]> = { ...electric.inputs };
  const means: Record<string, string> = { ...electric.means };
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
      const [C, mains_V, brake_V] = values.slice(0, head) as [readonly number[], number, number?];
      let at = head;
      const courses = forms.map(({ form, count }) => {
        at += count;
        return form.build(values.slice(at - count, at));
      });
      return { plain: { capacitance_F: total(C), mains_V, ...(brake_V !== undefined && { brake_V }) }, courses };
    },
  };
}

function inProduction(
  { inputs, means, build }: Loads,
  about: string,
): { readonly loaded: Loaded; readonly settles: boolean } {
  const { now, call } = resultsOf({ inputs, means }, (values) => {
    const { plain, courses } = build(values);
    const duty = { ...plain, ...together(courses) };
    const settled_V = settledVoltage(duty);
    // Where they give back more than they take and nothing burns it, the first cycle is as good as any to say so.
    return { ...busCycle(duty, settled_V ?? duty.mains_V), settles: settled_V !== undefined };
  });
  return { loaded: loadedOf(call, about, true), settles: now.settles };
}

function inStop(
  { inputs, means, build }: Loads,
  aboard: readonly AxisDemand[],
  T: Quantity<'s'>,
  about: string,
): Loaded {
  // An axis that does not slow down with its master has no case of a stop.
  const follows = aboard.map(({ cases }) => !(cases instanceof Missing) && cases.some(({ kind }) => kind === 'stop'));
  const { call } = resultsOf(
    { inputs: { ...inputs, T }, means: { ...means, T: 'time from full speed to rest' } },
    (values) => {
      const { plain, courses } = build(values.slice(0, -1));
      const stop_s = values.at(-1) as number;
      return worst(
        placesOf(courses.filter((_, at) => follows[at])).map((begins_s) => {
          const axes = courses.map((course, at) => (follows[at] ? stopPieces(course, { stop_s, begins_s }) : []));
          return busCycle({ ...plain, axes, cycle_s: stop_s }, plain.mains_V);
        }),
      );
    },
  );
  return loadedOf(call, about, false);
}

/** So many places of the longest cycle at which a stop may begin (our judgement); where nothing depends on it, one. */
const places = 8;

function placesOf(courses: readonly Course[]): readonly number[] {
  const depends = courses.filter((course) => !isSteady(course));
  if (depends.length === 0) return [0];
  const longest_s = Math.max(...depends.map(courseLasts_s));
  return Array.from({ length: places }, (_, at) => (longest_s * at) / places);
}

const worst = (all: readonly BusCycle[]): BusCycle =>
  all.reduce((most, each) =>
    each.highest_V > most.highest_V || (each.highest_V === most.highest_V && each.resistor_J > most.resistor_J)
      ? each
      : most,
  );

/** How often the longest cycle is gone through at most until all cycles meet (our judgement). */
const mostRounds = 24;

/**
 * All axes on one time: each goes through its cycle a whole number of times. Cycles that never meet are stretched a little
 * where they come nearest to it, so that the mean power of each stays what it is.
 */
function together(courses: readonly Course[]): Pick<BusDuty, 'axes' | 'cycle_s'> {
  const longest_s = Math.max(...courses.map(courseLasts_s));
  const apart = (rounds: number): number =>
    Math.max(
      ...courses.map((course) => {
        const times = (rounds * longest_s) / courseLasts_s(course);
        return Math.abs(times - Math.round(times));
      }),
    );
  let rounds = 1;
  for (let count = 2; count <= mostRounds && apart(rounds) >= 1e-6; count++)
    if (apart(count) / count < apart(rounds) / rounds) rounds = count;
  const cycle_s = rounds * longest_s;
  return { cycle_s, axes: courses.map((course) => repeated(powerPieces(course), courseLasts_s(course), cycle_s)) };
}

/** A cycle that comes more often than this within another one counts by its mean power (our judgement). */
const mostRepeats = 200;

function repeated(pieces: readonly PowerPiece[], own_s: number, cycle_s: number): readonly PowerPiece[] {
  const count = Math.max(1, Math.round(cycle_s / own_s));
  if (count > mostRepeats) {
    const mean_W = total(pieces.map(({ energy_J }) => energy_J)) / own_s;
    return [{ from_s: 0, to_s: cycle_s, start_W: mean_W, end_W: mean_W, energy_J: mean_W * cycle_s }];
  }
  const stretch = cycle_s / (count * own_s);
  const at_s = (round: number, own: number): number => Math.min(cycle_s, (round * own_s + own) * stretch);
  return Array.from({ length: count }, (_, round) =>
    pieces.map((piece, at) => {
      const next = pieces[at + 1];
      const from_s = at_s(round, piece.from_s);
      // Where one cycle ends the next begins, to the bit.
      const to_s = next === undefined ? at_s(round + 1, 0) : at_s(round, next.from_s);
      return { ...piece, from_s, to_s, energy_J: piece.energy_J * stretch };
    }),
  )
    .flat()
    .filter(({ from_s, to_s }) => to_s > from_s);
}

function loadedOf(call: (take: (cycle: BusCycle) => number) => OpenCall, about: string, repeats: boolean): Loaded {
  const highest = call(({ highest_V }) => highest_V);
  const mean = call(({ resistorMean_W }) => resistorMean_W);
  return {
    highest: repeats ? busVoltage(highest, about) : stopVoltage(highest, about),
    toResistor: energyToResistor(
      call(({ resistor_J }) => resistor_J),
      about,
    ),
    peak: peakToResistor(
      call(({ resistorPeak_W }) => resistorPeak_W),
      about,
    ),
    mean: repeats ? meanToResistor(mean, about) : undefined,
  };
}
