// A cam by its points: the cubic spline through them, which goes on without a jump up to its acceleration.
// The master takes the place of time: `duration_s` counts its m or rad from the first point on, as if it went one of them a
// second, and a velocity is in m or rad of the axis by m or rad of the master.
import type { Piece } from './segment.ts';

/**
 * What holds at the ends. 'periodic': velocity and acceleration are the same at both, positions may differ, so that each
 * round goes on by as much. 'rest': velocity is 0 at both. 'natural': acceleration is 0 at both.
 */
export type CamEnds = 'periodic' | 'rest' | 'natural';

/**
 * One cubic for each interval between points of master and tool, in the order of the master. Throws a RangeError for fewer
 * than 2 points, or 3 of a periodic cam, for master values that do not increase, and for numbers that are not finite.
 */
export function camTable(
  points: readonly (readonly [master: number, tool: number])[],
  ends: CamEnds,
): readonly Piece[] {
  mustBeTable(points, ends);
  const tool = points.map((point) => point[1]);
  const widths = points.slice(1).map((point, at) => point[0] - points[at]![0]);
  const slopes = widths.map((width, at) => (tool[at + 1]! - tool[at]!) / width);
  const a = accelerations(widths, slopes, ends);
  return widths.map((h, at) => {
    const [from, to] = [a[at]!, a[at + 1]!];
    return {
      duration_s: h,
      polynomial: [tool[at]!, slopes[at]! - (h * (2 * from + to)) / 6, from / 2, (to - from) / (6 * h)],
    };
  });
}

/**
 * Accelerations at the points: where two cubics meet, their velocities agree. For intervals h and h' with mean slopes s
 * and s', and accelerations a, b, c one behind another, that is h·a + 2·(h + h')·b + h'·c = 6·(s' − s).
 */
function accelerations(widths: readonly number[], slopes: readonly number[], ends: CamEnds): readonly number[] {
  const last = widths.length;
  const inner: readonly Row[] = slopes.slice(1).map((slope, at) => {
    const [h, next] = [widths[at]!, widths[at + 1]!];
    return { before: h, own: 2 * (h + next), behind: next, sum: 6 * (slope - slopes[at]!) };
  });
  const set = (value: number): Row => ({ before: 0, own: 1, behind: 0, sum: value });
  if (ends === 'natural') return solved([set(0), ...inner, set(0)]);
  const [h0, hn] = [widths[0]!, widths[last - 1]!];
  if (ends === 'rest')
    return solved([
      { before: 0, own: 2 * h0, behind: h0, sum: 6 * slopes[0]! },
      ...inner,
      { before: hn, own: 2 * hn, behind: 0, sum: -6 * slopes[last - 1]! },
    ]);
  // Both ends have one acceleration. All others are what they are with 0 there, and in proportion to it beyond that; the
  // ends' own row then says how large it is.
  const without = solved([set(0), ...inner, set(0)]);
  const each = solved([set(1), ...inner.map((row) => ({ ...row, sum: 0 })), set(1)]);
  const neighbours = (of: readonly number[]) => hn * of[last - 1]! + h0 * of[1]!;
  const atEnds = (6 * (slopes[0]! - slopes[last - 1]!) - neighbours(without)) / (2 * (hn + h0) + neighbours(each));
  return without.map((value, at) => value + atEnds * each[at]!);
}

/** before · the unknown before + own · the row's own unknown + behind · the unknown behind = sum. */
interface Row {
  readonly before: number;
  readonly own: number;
  readonly behind: number;
  readonly sum: number;
}

/** Elimination down the rows and back up; own coefficients outweigh the others, so that no pivot is sought. */
function solved(rows: readonly Row[]): readonly number[] {
  const behind: number[] = [];
  const unknown: number[] = [];
  for (const [at, row] of rows.entries()) {
    const pivot = row.own - row.before * (behind[at - 1] ?? 0);
    behind.push(row.behind / pivot);
    unknown.push((row.sum - row.before * (unknown[at - 1] ?? 0)) / pivot);
  }
  for (let at = rows.length - 2; at >= 0; at--) unknown[at]! -= behind[at]! * unknown[at + 1]!;
  return unknown;
}

function mustBeTable(points: readonly (readonly [number, number])[], ends: CamEnds): void {
  const least = ends === 'periodic' ? 3 : 2;
  if (points.length < least)
    throw new RangeError(`a cam with ends '${ends}' has ${least} points or more, and here ${points.length}`);
  for (const [at, [master, tool]] of points.entries()) {
    if (!Number.isFinite(master) || !Number.isFinite(tool))
      throw new RangeError(`point ${at + 1} of the cam is not finite: ${master}, ${tool}`);
    if (at > 0 && master <= points[at - 1]![0])
      throw new RangeError(`the master does not go on from point ${at} of the cam to the next`);
  }
}
