// The power of an axis while its master comes to rest at constant deceleration: the axis follows it, slower and slower.
// With r from 1 to 0 as the share of full speed, the tool has the position of its cycle at the master's way, r of its speed
// there, and r² of its acceleration less what slowing down takes.
import type { PowerPiece } from './bus.ts';
import { type Course, courseLasts_s, isSteady } from './course.ts';
import { goingOf, shaftRatio, shaftTorque } from './drive-line.ts';
import { gaussLegendre } from './integral.ts';
import { stateOf } from './segment.ts';

export interface StopAsked {
  /** How long the master takes from full speed to rest. */
  readonly stop_s: number;
  /** Where in the cycle the axis is when the stop begins, in time at full speed. */
  readonly begins_s: number;
}

const rule = gaussLegendre(3);
/** Steps for each cycle that is gone through, and at least (our judgement, held by a test against the energy of the start). */
const stepsForCycle = 24;
/** Over more cycles than this a stop is walked in steps that do not follow each of them (our judgement). */
const mostCycles = 50;
/** At constant speed the power falls in a straight line, but for what grows with the speed. */
const stepsAtConstantSpeed = 4;

/** Pieces from the beginning of the stop on. Throws a RangeError for a course that lasts no time. */
export function stopPieces(course: Course, { stop_s, begins_s }: StopAsked): readonly PowerPiece[] {
  const { stretches, line } = course;
  const cycle_s = courseLasts_s(course);
  if (!(cycle_s > 0)) throw new RangeError('no motion to stop');
  const spans = stretches.flatMap(({ motion, from, start_s }) =>
    motion.map((segment) => ({
      segment,
      from,
      starts_s: start_s + segment.start_s - motion[0]!.start_s,
    })),
  );
  const ends = spans.at(-1)!;
  const way = ends.from + stateOf(ends.segment, ends.segment.duration_s).position;
  const ratio = shaftRatio(line);
  const at = (time_s: number): number => begins_s + time_s - time_s ** 2 / (2 * stop_s);
  const powerAt = (time_s: number): number => {
    const gone = at(time_s);
    const rounds = Math.floor(gone / cycle_s);
    const here = gone - rounds * cycle_s;
    const span = spans.findLast(({ starts_s }) => starts_s <= here) ?? spans[0]!;
    const full = stateOf(span.segment, Math.min(here - span.starts_s, span.segment.duration_s));
    const r = 1 - time_s / stop_s;
    const velocity = full.velocity * r;
    const acceleration = full.acceleration * r * r - full.velocity / stop_s;
    const state = { position: rounds * way + span.from + full.position, velocity, acceleration };
    return shaftTorque(line, state, here, goingOf(velocity, acceleration)) * ratio * velocity;
  };
  const steady = isSteady(course);
  const count = steady
    ? stepsAtConstantSpeed
    : stepsForCycle * Math.max(1, Math.min(mostCycles, Math.ceil(stop_s / 2 / cycle_s)));
  const begins = steady ? [] : spans.map(({ starts_s }) => starts_s);
  return cutsOf(begins, count, { cycle_s, stop_s, begins_s }).map(([from_s, to_s]): PowerPiece => {
    const [middle, half] = [(from_s + to_s) / 2, (to_s - from_s) / 2];
    // Ends are taken from inside: at one of them a piece of the motion may end.
    const inset = 1e-9 * half;
    const energy_J = rule.nodes.reduce(
      (sum, node, index) => sum + half * rule.weights[index]! * powerAt(middle + half * node),
      0,
    );
    return { from_s, to_s, start_W: powerAt(from_s + inset), end_W: powerAt(to_s - inset), energy_J };
  });
}

/** Even steps of the time, cut where a piece of the motion begins. */
function cutsOf(
  starts_s: readonly number[],
  count: number,
  { cycle_s, stop_s, begins_s }: StopAsked & { readonly cycle_s: number },
): readonly (readonly [from_s: number, to_s: number])[] {
  const rounds = Math.min(mostCycles, Math.ceil((begins_s + stop_s / 2) / cycle_s));
  const even = Array.from({ length: count + 1 }, (_, step) => (step === count ? stop_s : (stop_s * step) / count));
  const own = Array.from({ length: rounds }, (_, round) => starts_s.map((start_s) => round * cycle_s + start_s))
    .flat()
    .map((start_s) => stop_s * (1 - Math.sqrt(1 - (2 * (start_s - begins_s)) / stop_s)))
    .filter((time_s) => time_s > 0 && time_s < stop_s);
  const ends = [...new Set([...even, ...own])].toSorted((one, other) => one - other);
  return ends.slice(1).map((to_s, index) => [ends[index]!, to_s]);
}
