// Sets of places on a circle, such as the phases of a pattern that repeats itself: stretches from a place up to another.

/** In order, without overlap; each from a place on the circle up to, but not including, a later one. */
export type Arcs = readonly (readonly [from: number, to: number])[];

/** A stretch of any length from any place, brought onto a circle of the given length. */
export function arcFrom(from: number, length: number, round: number): Arcs {
  if (length >= round) return [[0, round]];
  if (length <= 0) return [];
  const start = from - Math.floor(from / round) * round;
  const over = start + length - round;
  if (over <= 0) return [[start, start + length]];
  return [
    [0, over],
    [start, round],
  ];
}

/** All places that one of the sets has. */
export function unionOf(sets: readonly Arcs[]): Arcs {
  const joined: [number, number][] = [];
  for (const [from, to] of sets.flat().sort(([a], [b]) => a - b)) {
    const last = joined.at(-1);
    if (last === undefined || from > last[1]) joined.push([from, to]);
    else last[1] = Math.max(last[1], to);
  }
  return joined;
}

/** The places that both have. */
export function shared(one: Arcs, other: Arcs): Arcs {
  const found: [number, number][] = [];
  for (let [i, j] = [0, 0]; i < one.length && j < other.length; ) {
    const from = Math.max(one[i]![0], other[j]![0]);
    const to = Math.min(one[i]![1], other[j]![1]);
    if (from < to) found.push([from, to]);
    if (one[i]![1] < other[j]![1]) i++;
    else j++;
  }
  return found;
}

/** Every place moved on by a distance, which may be negative. */
export const movedBy = (arcs: Arcs, distance: number, round: number): Arcs =>
  unionOf(arcs.map(([from, to]) => arcFrom(from + distance, to - from, round)));

export const lengthOf = (arcs: Arcs): number => arcs.reduce((sum, [from, to]) => sum + to - from, 0);
