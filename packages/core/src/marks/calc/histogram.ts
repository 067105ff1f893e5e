// Coverage intervals from counts of trials in bins, the trials of a bin taken as even over it.

export interface Range {
  readonly least: number;
  readonly most: number;
}

export interface Histogram extends Range {
  /** Trials in each bin, from the least on; all bins are of one width. */
  readonly counts: Int32Array;
  readonly below: number;
  readonly above: number;
}

/** The interval with as many trials below it as above; undefined where an end is beyond the bins. */
export function symmetricInterval(histogram: Histogram, coverage: number): Range | undefined {
  const before = runningCounts(histogram);
  const trials = before.at(-1)! + histogram.above;
  const [least, most] = [(1 - coverage) / 2, (1 + coverage) / 2].map((share) => placeOf(before, share * trials));
  return least === undefined || most === undefined ? undefined : inUnits(histogram, least, most);
}

/** The shortest of all intervals with that share of the trials; undefined where even the widest has less. JCGM 101:2008, 5.3.4. */
export function shortestInterval(histogram: Histogram, coverage: number): Range | undefined {
  const before = runningCounts(histogram);
  const bins = histogram.counts.length;
  const inside = coverage * (before[bins]! + histogram.above);
  let [least, most] = [0, Infinity];
  // One end of the shortest is an edge of a bin, since between edges the width changes evenly. Both ends only move up.
  for (let edge = 0, other = 0; edge <= bins; edge++) {
    while (other < bins && before[other]! - before[edge]! < inside) other++;
    if (before[other]! - before[edge]! < inside) break;
    const end = other - (before[other]! - before[edge]! - inside) / Math.max(1, histogram.counts[other - 1] ?? 1);
    if (end - edge < most - least) [least, most] = [edge, end];
  }
  for (let edge = bins, other = bins; edge >= 0; edge--) {
    while (other > 0 && before[edge]! - before[other]! < inside) other--;
    if (before[edge]! - before[other]! < inside) break;
    const start = other + (before[edge]! - before[other]! - inside) / Math.max(1, histogram.counts[other] ?? 1);
    if (edge - start < most - least) [least, most] = [start, edge];
  }
  return most === Infinity ? undefined : inUnits(histogram, least, most);
}

/** How many trials are outside the limits, to either side; undefined where a limit is among what the bins do not hold. */
export function countOutside(histogram: Histogram, { least, most }: Range): number | undefined {
  const before = runningCounts(histogram);
  const bins = histogram.counts.length;
  const below = (limit: number): number | undefined => {
    const place = ((limit - histogram.least) / (histogram.most - histogram.least)) * bins;
    if (place < 0) return histogram.below === 0 ? 0 : undefined;
    if (place > bins) return histogram.above === 0 ? before[bins] : undefined;
    const bin = Math.min(Math.floor(place), bins - 1);
    return before[bin]! + (place - bin) * histogram.counts[bin]!;
  };
  const [low, high] = [below(least), below(most)];
  return low === undefined || high === undefined ? undefined : low + (before[bins]! + histogram.above - high);
}

/** The trials below each edge, those below all bins with them. */
function runningCounts({ counts, below }: Histogram): Float64Array {
  const before = new Float64Array(counts.length + 1);
  before[0] = below;
  for (let bin = 0; bin < counts.length; bin++) before[bin + 1] = before[bin]! + counts[bin]!;
  return before;
}

/** Where so many trials are below, in bins. */
function placeOf(before: Float64Array, trials: number): number | undefined {
  const edge = before.findIndex((count) => count >= trials);
  if (edge < 0 || (edge === 0 && before[0]! > trials)) return undefined;
  return edge === 0 ? 0 : edge - (before[edge]! - trials) / (before[edge]! - before[edge - 1]!);
}

const inUnits = ({ least, most, counts }: Histogram, from: number, to: number): Range => ({
  least: least + ((most - least) * from) / counts.length,
  most: least + ((most - least) * to) / counts.length,
});
