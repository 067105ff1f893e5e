// Where a piece of a motion is cut before anything is integrated along it: evenly, where the tool turns round, and where a
// load has an edge, however many of them stand between two even cuts.
import type { PlacedLoad, PlainLine } from './drive-line.ts';
import { quarterTurns } from './quarter-turns.ts';
import { rootBetween } from './root.ts';
import { type Segment, stateOf } from './segment.ts';
import { turnsOf } from './turns.ts';

/** What of a line decides where pieces are cut: found once for all of them. */
export interface Cutting {
  /** Turns of the fastest shaft with a load that bends with its position, for each of the tool; 0 where there is none. */
  readonly turning: number;
  /** Those with edges, with the position at their shaft for each part of the tool's. */
  readonly edged: readonly { readonly load: PlacedLoad; readonly ratio: number }[];
}

export interface Grid {
  /** The tool, and the time in the cycle, where the piece begins. */
  readonly from: number;
  readonly begun_s: number;
  /** Even steps for each quarter turn of what bends the torque, and for a piece where nothing does. */
  readonly bent: number;
  readonly straight: number;
}

export function cuttingOf({ stages }: PlainLine): Cutting {
  const loads = stages.flatMap(({ placed, ratio }) => placed.map((load) => ({ load, ratio })));
  return {
    turning: Math.max(0, ...loads.map(({ load, ratio }) => (load.bends ? ratio : 0))),
    edged: loads.filter(({ load: { edges, times } }) => edges !== undefined || times !== undefined),
  };
}

/** In time from the start of the piece, in order, with both of its ends. */
export function stepEnds(segment: Segment, cutting: Cutting, grid: Grid): readonly number[] {
  const turned = withTurns(evenly(segment, cutting, grid), segment);
  return cutting.edged.length === 0 ? turned : withEdges(turned, segment, cutting, grid);
}

function evenly(segment: Segment, { turning }: Cutting, { bent, straight }: Grid): readonly number[] {
  const { sine, polynomial, duration_s } = segment;
  // Else speed and torque are straight lines over the time, but for their kinks.
  const isBent = sine !== undefined || polynomial.length > 3 || turning > 0;
  const steps = isBent ? bent * quarterTurns(segment, turning) : straight;
  const ends = [0];
  for (let step = 1; step <= steps; step++) ends.push((duration_s * step) / steps);
  return ends;
}

function withTurns(even: readonly number[], segment: Segment): readonly number[] {
  const turns = turnsOf(segment);
  return turns.length === 0 ? even : [...new Set([...even, ...turns])].toSorted((one, other) => one - other);
}

/** Between two turns the tool goes one way, so that it passes each edge once. */
function withEdges(
  turned: readonly number[],
  segment: Segment,
  { edged }: Cutting,
  { from, begun_s }: Grid,
): readonly number[] {
  const position = (t: number): number => from + stateOf(segment, t).position;
  const passed = (start: number, end: number): readonly number[] => {
    const [first, last] = [position(start), position(end)];
    return edged.flatMap(({ ratio, load: { edges, times = [] } }) => [
      ...(edges?.(ratio * Math.min(first, last), ratio * Math.max(first, last)) ?? []).map((edge) =>
        rootBetween((t) => ratio * position(t) - edge, [start, end], [ratio * first - edge, ratio * last - edge]),
      ),
      ...times.map((time_s) => time_s - begun_s),
    ]);
  };
  return turned.flatMap((t, at) => {
    const next = turned[at + 1];
    if (next === undefined) return [t];
    const within = passed(t, next).filter((each) => each > t && each < next);
    return [t, ...new Set(within.toSorted((one, other) => one - other))];
  });
}
