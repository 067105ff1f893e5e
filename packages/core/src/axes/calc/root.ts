// Where a function of one number changes its sign between two others.

/** More than any takes: one step of three at least halves what is left. */
const mostSteps = 200;

/**
 * By chords (the Illinois way of false position), and by halving where they are slow, as closely as numbers stand. `before`
 * and `after` are the values at both ends and differ in sign. Told is the end that lies beyond the root, so
 * that what follows does not find it again.
 */
export function rootBetween(
  of: (t: number) => number,
  [from, to]: readonly [number, number],
  [before, after]: readonly [number, number],
): number {
  let [low, high, atLow, atHigh, width] = [from, to, before, after, to - from];
  for (let step = 1; step <= mostSteps; step++) {
    const middle = (low + high) / 2;
    if (!(middle > low && middle < high)) break;
    // A chord may end at one of the ends, and leave the other far away: it is set in by the next number.
    const next = Number.EPSILON * Math.max(Math.abs(low), Math.abs(high));
    const chord = high - (atHigh * (high - low)) / (atHigh - atLow);
    const inside = Math.min(Math.max(chord, low + next), high - next);
    const slow = step % 3 === 0 && high - low > width / 4;
    const at = slow || !(inside > low && inside < high) ? middle : inside;
    if (step % 3 === 0) width = high - low;
    const value = of(at);
    if (value === 0) return at;
    if (value * before > 0) {
      low = at;
      atLow = value;
      atHigh /= 2;
    } else {
      high = at;
      atHigh = value;
      atLow /= 2;
    }
  }
  return high;
}
