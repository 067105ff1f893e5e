// Energy on a DC bus that several axes share: what the capacitor takes up, the resistor burns and the mains give.
// The bus is an ideal one: the mains hold its voltage at least at their rectified one and take nothing back, and the
// chopper burns whatever would lift it above its own, however much power that takes. Ripple and sag are left out.
// Powers are electrical, at the bus: over 0 taken from it, below 0 given back.
import { formula } from '../../working/formula.ts';
import { total } from '../../working/total.ts';
import { mustBeOverZero } from './over-zero.ts';

/**
 * A stretch of an axis. Between its ends the power is the parabola that has both of them and the energy: exact where
 * torque and speed are straight lines, and for other courses right in the energy of each piece.
 */
export interface PowerPiece {
  readonly from_s: number;
  readonly to_s: number;
  readonly start_W: number;
  readonly end_W: number;
  readonly energy_J: number;
}

export interface BusDuty {
  readonly capacitance_F: number;
  /** Rectified voltage of the mains. */
  readonly mains_V: number;
  /** At which the chopper holds the voltage; absent without a resistor, and the voltage rises as high as it must. */
  readonly brake_V?: number;
  /** For each axis its pieces in order; between them its power is 0. */
  readonly axes: readonly (readonly PowerPiece[])[];
  readonly cycle_s: number;
}

/** What the axes take together is `mains_J` − `resistor_J` − `stored_J`. */
export interface BusCycle {
  readonly highest_V: number;
  /** When it is first reached. */
  readonly highestAt_s: number;
  readonly end_V: number;
  readonly mains_J: number;
  readonly resistor_J: number;
  /** By how much the energy of the capacitor grows; below 0 where it falls. */
  readonly stored_J: number;
  readonly mainsPeak_W: number;
  readonly resistorPeak_W: number;
  readonly resistorMean_W: number;
}

/**
 * Goes through one cycle from a voltage of the capacitor. Throws a RangeError for a measure that is not over 0, a brake
 * that holds below the mains, a start outside what they leave, and pieces that overlap or leave the cycle.
 */
export function busCycle(duty: BusDuty, start_V: number): BusCycle {
  const room_J = roomOf(duty);
  if (!(start_V >= duty.mains_V && start_V <= (duty.brake_V ?? Infinity)))
    throw new RangeError(`a start at ${start_V} V`);
  const start_J = above(duty, start_V);
  const { stored_J, highest_J, ...walked } = walk(coursesOf(duty), room_J, start_J);
  return {
    ...walked,
    highest_V: highest_J === start_J ? start_V : voltageOf(duty, highest_J),
    end_V: voltageOf(duty, stored_J),
    stored_J: stored_J - start_J,
    resistorMean_W: walked.resistor_J / duty.cycle_s,
  };
}

/**
 * The voltage at which a cycle that repeats itself begins and ends; of several that could be, the lowest. Undefined where
 * the axes give back more than they take and no resistor is there: the voltage then rises with each cycle.
 *
 * A cycle turns a start x into x − E, kept between what it makes of the lowest start and of the highest. With E over 0 the
 * start falls from cycle to cycle to what the lowest becomes, else it rises to what the highest becomes.
 */
export function settledVoltage(duty: BusDuty): number | undefined {
  const room_J = roomOf(duty);
  const courses = coursesOf(duty);
  const taken_J = total(courses.map((course) => energyOf(course, 0, course.lasts_s)));
  const rises = taken_J < 0;
  if (rises && room_J === Infinity) return undefined;
  return voltageOf(duty, walk(courses, room_J, rises ? room_J : 0).stored_J);
}

/** Powers of time from the start of a stretch in which no piece of any axis begins or ends. */
interface Course {
  readonly from_s: number;
  readonly lasts_s: number;
  readonly powers: readonly [number, number, number];
}

const above = ({ capacitance_F, mains_V }: BusDuty, voltage_V: number): number =>
  (capacitance_F * (voltage_V ** 2 - mains_V ** 2)) / 2;

/** Rounding does not lift it above the brake. */
const voltageOf = ({ capacitance_F, mains_V, brake_V = Infinity }: BusDuty, above_J: number): number =>
  Math.min(brake_V, Math.sqrt(mains_V ** 2 + (2 * above_J) / capacitance_F));

function roomOf(duty: BusDuty): number {
  const { capacitance_F, mains_V, brake_V = Infinity, cycle_s } = duty;
  mustBeOverZero({ 'the capacitance': capacitance_F, 'the voltage of the mains': mains_V, 'the cycle': cycle_s });
  if (!(brake_V >= mains_V)) throw new RangeError(`a brake at ${brake_V} V holds below ${mains_V} V of the mains`);
  return above(duty, brake_V);
}

/** Walks the capacitor, whose energy is counted from the voltage of the mains, through the cycle. */
function walk(courses: readonly Course[], room_J: number, start_J: number) {
  let stored_J = start_J;
  let [highest_J, highestAt_s] = [start_J, 0];
  let [mains_J, resistor_J, mainsPeak_W, resistorPeak_W] = [0, 0, 0, 0];
  for (const course of courses) {
    const cuts = [0, ...signChanges(course), course.lasts_s];
    for (let at = 1; at < cuts.length; at++) {
      const [from, to] = [cuts[at - 1]!, cuts[at]!];
      const left_J = stored_J - energyOf(course, from, to);
      const kept_J = Math.min(Math.max(left_J, 0), room_J);
      const reached = kept_J === left_J ? to : timeOf(course, from, to, stored_J - kept_J);
      if (left_J < kept_J) {
        mains_J += kept_J - left_J;
        mainsPeak_W = Math.max(mainsPeak_W, highestPower(course, reached, to, 1));
      }
      if (left_J > kept_J) {
        resistor_J += left_J - kept_J;
        resistorPeak_W = Math.max(resistorPeak_W, highestPower(course, reached, to, -1));
      }
      if (kept_J > highest_J) [highest_J, highestAt_s] = [kept_J, course.from_s + reached];
      stored_J = kept_J;
    }
  }
  return { stored_J, highest_J, highestAt_s, mains_J, resistor_J, mainsPeak_W, resistorPeak_W };
}

const powerOf = ({ powers: [a, b, c] }: Course, t: number): number => a + t * (b + t * c);

function energyOf({ powers: [a, b, c] }: Course, from: number, to: number): number {
  const upTo = (t: number) => t * (a + t * (b / 2 + (t * c) / 3));
  return upTo(to) - upTo(from);
}

/** Where the power changes its sign inside, in order: roots of a parabola without cancellation. */
function signChanges({ powers: [a, b, c], lasts_s }: Course): readonly number[] {
  const sum = -(b + (b < 0 ? -1 : 1) * Math.sqrt(b * b - 4 * a * c)) / 2;
  return [sum / c, a / sum].filter((root) => root > 0 && root < lasts_s).toSorted((one, other) => one - other);
}

/** When so much energy has passed, in a stretch in which the power keeps its sign. */
function timeOf(course: Course, from: number, to: number, energy_J: number): number {
  let [low, high] = [from, to];
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (Math.abs(energyOf(course, from, middle)) < Math.abs(energy_J)) low = middle;
    else high = middle;
  }
  return high;
}

function highestPower(course: Course, from: number, to: number, sign: 1 | -1): number {
  const [, b, c] = course.powers;
  const top = -b / (2 * c);
  return Math.max(...[from, to, top > from && top < to ? top : to].map((t) => sign * powerOf(course, t)));
}

/** All axes together, cut at every end of a piece of any of them. */
function coursesOf({ axes, cycle_s }: BusDuty): readonly Course[] {
  for (const pieces of axes) mustFollow(pieces, cycle_s);
  const ends = axes.flat().flatMap(({ from_s, to_s }) => [from_s, to_s]);
  const cuts = [...new Set([0, ...ends, cycle_s])].toSorted((one, other) => one - other);
  const next = axes.map(() => 0);
  return cuts.slice(1).map((to_s, index) => {
    const from_s = cuts[index]!;
    const powers: [number, number, number] = [0, 0, 0];
    axes.forEach((pieces, axis) => {
      while (next[axis]! < pieces.length && pieces[next[axis]!]!.to_s <= from_s) next[axis]! += 1;
      const piece = pieces[next[axis]!];
      if (piece === undefined || piece.from_s > from_s) return;
      const [a, b, c] = parabolaOf(piece);
      const t = from_s - piece.from_s;
      powers[0] += a + t * (b + t * c);
      powers[1] += b + 2 * c * t;
      powers[2] += c;
    });
    return { from_s, lasts_s: to_s - from_s, powers };
  });
}

function mustFollow(pieces: readonly PowerPiece[], cycle_s: number): void {
  let before_s = 0;
  for (const { from_s, to_s, ...course } of pieces) {
    const isKnown = Object.values(course).every(Number.isFinite);
    if (!(from_s >= before_s && to_s > from_s && to_s <= cycle_s && isKnown))
      throw new RangeError(`no piece from ${from_s} s to ${to_s} s behind ${before_s} s in ${cycle_s} s`);
    before_s = to_s;
  }
}

function parabolaOf({ from_s, to_s, start_W, end_W, energy_J }: PowerPiece): readonly [number, number, number] {
  const lasts_s = to_s - from_s;
  const mean_W = energy_J / lasts_s;
  return [
    start_W,
    (6 * mean_W - 4 * start_W - 2 * end_W) / lasts_s,
    (3 * start_W + 3 * end_W - 6 * mean_W) / lasts_s ** 2,
  ];
}

export const kineticEnergy = formula({
  id: 'axes.energy.kinetic',
  title: 'energy of what turns',
  text: 'J*ω^2/2',
  gives: 'J',
  symbols: { J: 'kg·m²', ω: 'rad/s' },
  means: { J: 'inertia', ω: 'speed' },
  try: { J: [1e-5, 100], ω: [-600, 600] },
  source: 'definition',
  proof: 'R4',
  of: (J: number, omega: number) => (J * omega ** 2) / 2,
});

/** Of a mains with a rectifier of six pulses or of two, without a load: the top of the sine. */
export const rectifiedVoltage = formula({
  id: 'axes.bus.rectified_voltage',
  title: 'voltage of a bus that a rectifier fills',
  text: 'sqrt(2)*U',
  gives: 'V',
  symbols: { U: 'V' },
  means: { U: 'voltage of the mains between the conductors that are rectified, effective' },
  try: { U: [100, 700] },
  source: 'definition',
  proof: 'a bus is filled to the top of the sine',
  of: (U: number) => Math.SQRT2 * U,
});

export const capacitorEnergy = formula({
  id: 'axes.bus.capacitor_energy',
  title: 'energy that a capacitor takes up between two voltages',
  text: 'C*(U^2 - u^2)/2',
  gives: 'J',
  symbols: { C: 'F', U: 'V', u: 'V' },
  means: { C: 'capacitance', U: 'voltage afterwards', u: 'voltage before' },
  try: { C: [1e-5, 1e-2], U: [600, 900], u: [300, 580] },
  source: 'definition',
  proof: 'R4',
  of: (C: number, U: number, u: number) => (C * (U ** 2 - u ** 2)) / 2,
});

export const resistorEnergy = formula({
  id: 'axes.bus.resistor_energy',
  title: 'energy that is left for the resistor',
  text: 'max(E, A) - A',
  gives: 'J',
  symbols: { E: 'J', A: 'J' },
  means: { E: 'energy given back', A: 'energy that the capacitor takes up' },
  try: { E: [0, 5000], A: [0, 3000] },
  source: 'definition',
  proof: 'R4',
  of: (E: number, A: number) => Math.max(E, A) - A,
});

/** At its beginning; from there the power falls to nothing as the speed does. */
export const stopPower = formula({
  id: 'axes.bus.stop_power',
  title: 'highest power of a stop at constant deceleration',
  text: '2*E/t',
  gives: 'W',
  symbols: { E: 'J', t: 's' },
  means: { E: 'energy given back', t: 'duration of the stop' },
  try: { E: [1, 5000], t: [0.05, 5] },
  source: 'definition',
  proof: 'R4',
  of: (E: number, t: number) => (2 * E) / t,
});

export const meanResistorPower = formula({
  id: 'axes.bus.mean_power',
  title: 'mean power of a resistor over a cycle',
  text: 'E/t',
  gives: 'W',
  symbols: { E: 'J', t: 's' },
  means: { E: 'energy into it in a cycle', t: 'cycle' },
  try: { E: [1, 5000], t: [0.2, 20] },
  source: 'definition',
  proof: 'R4',
  of: (E: number, t: number) => E / t,
});

export const resistorPower = formula({
  id: 'axes.bus.resistor_power',
  title: 'highest power that a resistor takes',
  text: 'U^2/R',
  gives: 'W',
  symbols: { U: 'V', R: 'Ω' },
  means: { U: 'voltage at which the chopper holds', R: 'resistance' },
  try: { U: [300, 900], R: [2, 200] },
  source: 'definition',
  proof: 'between its bounds a resistor takes the peak',
  of: (U: number, R: number) => U ** 2 / R,
});

export const leastResistance = formula({
  id: 'axes.bus.least_resistance',
  title: 'least resistance that a chopper may switch',
  text: 'U/I',
  gives: 'Ω',
  symbols: { U: 'V', I: 'A' },
  means: { U: 'voltage at which the chopper holds', I: 'highest current of the chopper' },
  try: { U: [300, 900], I: [1, 200] },
  source: 'definition',
  proof: 'between its bounds a resistor takes the peak',
  of: (U: number, I: number) => U / I,
});

export const greatestResistance = formula({
  id: 'axes.bus.greatest_resistance',
  title: 'greatest resistance that takes a power',
  text: 'U^2/P',
  gives: 'Ω',
  symbols: { U: 'V', P: 'W' },
  means: { U: 'voltage at which the chopper holds', P: 'highest power into the resistor' },
  try: { U: [300, 900], P: [100, 50000] },
  source: 'definition',
  proof: 'between its bounds a resistor takes the peak',
  of: (U: number, P: number) => U ** 2 / P,
});
