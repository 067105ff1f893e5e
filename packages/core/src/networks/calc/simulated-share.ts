// The interval in which a simulated share of lost updates lies, by the scatter among independent parts of the simulation.
import { lossInterval } from './binomial.ts';
import { lostShare } from './simulate/job.ts';
import type { SimulationCounts } from './simulate/plan.ts';

export interface ShareInterval {
  readonly least: number;
  readonly most: number;
}

/** 99 %: of a hundred stations one may lie outside. Our judgement. */
export const simulatedConfidence = 0.99;

/** From so many losses on their scatter is told by the parts alone. Our judgement. */
const manyLosses = 1000;

/** The 0.995 quantiles of Student's t as printed in tables: the last row whose degrees of freedom are there counts. */
const quantiles: readonly (readonly [degrees: number, quantile: number])[] = [
  [1, 63.657],
  [2, 9.925],
  [3, 5.841],
  [4, 4.604],
  [5, 4.032],
  [6, 3.707],
  [7, 3.499],
  [8, 3.355],
  [9, 3.25],
  [10, 3.169],
  [15, 2.947],
  [20, 2.845],
  [30, 2.75],
  [40, 2.704],
  [60, 2.66],
  [120, 2.617],
];

/** For fewer degrees of freedom than are there it is larger, so that an interval is never too narrow. */
export const studentAtLeast = (degrees: number): number =>
  quantiles.findLast(([least]) => least <= degrees)?.[1] ?? Number.POSITIVE_INFINITY;

/** Undefined where one part alone, or no update, tells nothing. */
export function shareBetween(results: readonly SimulationCounts[], station: number): ShareInterval | undefined {
  const each = results.map(({ stations }) => stations[station]!);
  const updates = each.reduce((sum, one) => sum + one.updates, 0);
  if (each.length < 2 || updates === 0) return undefined;
  const lost = each.reduce((sum, one) => sum + one.lost, 0);
  const { value, error } = lostShare(results, station);
  const reach = studentAtLeast(each.length - 1) * error;
  const scattered = { least: Math.max(0, value - reach), most: Math.min(1, value + reach) };
  if (Math.min(lost, updates - lost) >= manyLosses) return scattered;
  const counted = lossInterval(lost, updates, simulatedConfidence);
  return { least: Math.min(scattered.least, counted.least), most: Math.max(scattered.most, counted.most) };
}
