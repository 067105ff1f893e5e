// A simulation as a job: split into chunks, which run anywhere and in any order, and merged to the same counts.
//
// Chunks are independent runs, each with its own stream of random bits. A chunk starts in the state in which the noise is on the
// whole (state of the channel and phase of the pulses are drawn), so that no time is needed to settle; the updates of one
// pattern before it are played to know what a run of losses follows, and one that begins in a chunk is followed to its end.
import { streamsOf } from '../../../physics/random-bits.ts';
import { hopsOf, overOf } from './hops.ts';
import type { SimulationChunk, SimulationCounts, SimulationJob, StationCounts } from './plan.ts';

/** The scatter among so many tells the error to a tenth. Our judgement. */
export const fewestChunks = 64;
/** About a tenth of a second. Our judgement. */
const mostEvents = 4_000_000;
/** Traces that a whole simulation keeps. Our judgement. */
export const mostTraces = 16;

/** Throws a RangeError for cycles that are no whole number from 1 on, and for a jump over noise that does not allow it. */
export function splitSimulation({ plan, cycles, seed, skipAhead = false }: SimulationJob): readonly SimulationChunk[] {
  if (!Number.isSafeInteger(cycles) || cycles < 1)
    throw new RangeError('The number of cycles must be a whole number from 1 on.');
  if (skipAhead && (plan.twoState !== undefined || plan.pulses.length > 0))
    throw new RangeError('Cycles can be jumped over with random bit errors alone.');
  if (
    skipAhead &&
    plan.cycles.some(({ exchanges }) =>
      exchanges.some(({ hops, otherWay }) => overOf([...hops, ...(otherWay?.hops ?? [])]) > plan.cycle_ps),
    )
  )
    throw new RangeError('No cycle is without a loss: an exchange ends behind the end of its cycle.');
  const hops = Math.max(1, hopsOf(plan) / plan.cycles.length);
  const count = Math.min(cycles, Math.max(fewestChunks, skipAhead ? 0 : Math.ceil((cycles * hops) / mostEvents)));
  return streamsOf(seed, count).map((state, at) => {
    const first = Math.floor((cycles / count) * at);
    return { plan, first, cycles: Math.floor((cycles / count) * (at + 1)) - first, skipAhead, state };
  });
}

/** All counts of one job, in the order of its chunks. */
export const mergeSimulation = (results: readonly SimulationCounts[]): SimulationCounts => ({
  cycles: sum(results.map(({ cycles }) => cycles)),
  events: sum(results.map(({ events }) => events)),
  stations: (results[0]?.stations ?? []).map((_, at) => joined(results.map(({ stations }) => stations[at]!))),
  traces: results.flatMap(({ traces }) => traces).slice(0, mostTraces),
});

export interface LostShare {
  readonly value: number;
  /** Standard uncertainty, from the scatter among chunks: right for errors that come in bunches, too. */
  readonly error: number;
}

/** The share of lost updates of a station. */
export function lostShare(results: readonly SimulationCounts[], station: number): LostShare {
  const each = results.map(({ stations }) => stations[station]!);
  const updates = sum(each.map((one) => one.updates));
  const value = sum(each.map(({ lost }) => lost)) / updates;
  const squares = sum(each.map((one) => (one.lost - value * one.updates) ** 2));
  return { value, error: Math.sqrt((squares * each.length) / (each.length - 1)) / updates };
}

function joined(each: readonly StationCounts[]): StationCounts {
  const longest = Math.max(...each.map(({ runs }) => runs.length));
  return {
    updates: sum(each.map(({ updates }) => updates)),
    lost: sum(each.map(({ lost }) => lost)),
    runs: Array.from({ length: longest }, (_, at) => sum(each.map(({ runs }) => runs[at] ?? 0))),
    repeats: sum(each.map(({ repeats }) => repeats)),
    late: sum(each.map(({ late }) => late)),
    trips: sum(each.map(({ trips }) => trips)),
  };
}

const sum = (values: readonly number[]): number => values.reduce((all, each) => all + each, 0);
