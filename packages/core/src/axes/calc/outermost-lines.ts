// The largest of many |b + m·x| for any x from 0 on, without looking at all of them: only lines on the outside of the hull
// of their points (m, b) are ever the largest.

export interface OutermostLines {
  readonly slopes: Float64Array;
  readonly starts: Float64Array;
}

export function farthestOut(slopes: Float64Array, starts: Float64Array): OutermostLines {
  const count = slopes.length;
  // Each line stands beside its own with the other sign.
  const [m, b] = [new Float64Array(2 * count), new Float64Array(2 * count)];
  let [top, right] = [0, 0];
  for (let at = 0; at < 2 * count; at++) {
    const sign = at < count ? 1 : -1;
    m[at] = sign * slopes[at % count]!;
    b[at] = sign * starts[at % count]!;
    if (b[at]! > b[top]! || (b[at]! === b[top]! && m[at]! > m[top]!)) top = at;
    if (m[at]! > m[right]! || (m[at]! === m[right]! && b[at]! > b[right]!)) right = at;
  }
  if (count === 0) return { slopes: m, starts: b };
  const all = Array.from(m, (_, at) => at);
  const outside = [top, ...(m[right]! > m[top]! ? [...between(all, top, right), right] : [])];
  return { slopes: Float64Array.from(outside, (at) => m[at]!), starts: Float64Array.from(outside, (at) => b[at]!) };

  /** Those beyond the chord from one to the other, which is the further right. */
  function between(candidates: readonly number[], from: number, to: number): readonly number[] {
    const [run, rise] = [m[to]! - m[from]!, b[to]! - b[from]!];
    let [farthest, most] = [-1, 0];
    const beyond: number[] = [];
    for (const at of candidates) {
      const height = run * (b[at]! - b[from]!) - rise * (m[at]! - m[from]!);
      if (!(height > 0)) continue;
      beyond.push(at);
      if (height > most) [farthest, most] = [at, height];
    }
    // A chord from one point to the same leaves nothing: two that differ by rounding alone end here.
    if (farthest === -1 || farthest === from || farthest === to) return [];
    return [...between(beyond, from, farthest), farthest, ...between(beyond, farthest, to)];
  }
}

/** `x` is not below 0; 0 where there is no line. */
export function highestAt({ slopes, starts }: OutermostLines, x: number): number {
  let most = 0;
  for (let at = 0; at < slopes.length; at++) {
    const height = starts[at]! + slopes[at]! * x;
    if (height > most) most = height;
  }
  return most;
}
