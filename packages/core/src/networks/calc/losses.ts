// Losses in a row that trip a drive: how long until then, where each update is lost with the same chance and independently
// of the others. The m-th loss in a row trips, m − 1 are bridged. What comes in bursts is in `bursts.ts` and `two-state.ts`.
import { formula, method } from '../../working/formula.ts';
import { sumOver } from '../../working/total.ts';
import { type AbsorbingChain, leftWithin, stepsUntil } from './absorbing.ts';
import { mustBeCount, mustBeProbability } from './probability.ts';

/** Infinity where nothing is ever lost. */
export const meanUpdatesToTrip = formula({
  id: 'networks.trip.mean_updates',
  title: 'mean number of updates to a trip by random losses',
  text: '(1 - q^m)/((1 - q)*q^m)',
  gives: '1',
  symbols: { q: '1', m: '1' },
  means: { q: 'chance that an update is lost', m: 'losses in a row that trip' },
  try: { q: [1e-3, 0.9], m: [1, 6, 1] },
  source: 'feller',
  at: 'chapter XIII.7, from memory',
  proof: 'N9',
  of: meanUpdates,
});

export const meanTimeToTrip = formula({
  id: 'networks.trip.mean_time',
  title: 'mean time to a trip by random losses',
  text: 'T*(1 - q^m)/((1 - q)*q^m)',
  gives: 's',
  symbols: { T: 's', q: '1', m: '1' },
  means: { T: 'period of the updates', q: 'chance that an update is lost', m: 'losses in a row that trip' },
  try: { T: [1e-4, 1e-2], q: [1e-3, 0.9], m: [1, 6, 1] },
  source: 'feller',
  at: 'chapter XIII.7, from memory',
  proof: '278.06 h at 1 ms',
  of: (T: number, q: number, m: number) => T * meanUpdates(q, m),
});

/** Where nothing is ever lost, or so seldom that the mean is larger than any number here, what is certain of it. */
export const meanTimeToTripAtLeast = formula({
  id: 'networks.trip.mean_time_at_least',
  title: 'mean time to a trip by random losses, at least',
  text: 'min(T*(1 - q^m)/((1 - q)*q^m), t)',
  gives: 's',
  symbols: { T: 's', q: '1', m: '1', t: 's' },
  means: {
    T: 'period of the updates',
    q: 'chance that an update is lost',
    m: 'losses in a row that trip',
    t: 'longest time that can be told',
  },
  try: { T: [1e-4, 1e-2], q: [1e-2, 0.9], m: [1, 4, 1], t: [1e-3, 1] },
  source: 'feller',
  at: 'chapter XIII.7, from memory',
  proof: 'no loss at all, and losses too rare for any number',
  of: (T: number, q: number, m: number, t: number) => Math.min(T * meanUpdates(q, m), t),
});

/** Infinity where nothing is ever lost. */
export const medianTimeToTrip = method({
  id: 'networks.trip.median_time',
  title: 'time within which every second machine has tripped by random losses',
  prose: 'T times the least number of updates among which m in a row are lost with a probability of ½',
  gives: 's',
  symbols: { T: 's', q: '1', m: '1' },
  means: { T: 'period of the updates', q: 'chance that an update is lost', m: 'losses in a row that trip' },
  source: 'feller',
  at: 'chapter XIII.7, from memory',
  proof: 'N10',
  of: (T: number, q: number, m: number) => T * stepsUntil(lossRuns(q, m), 0.5),
});

/** The chance of none is the rest to 1. */
export const chanceOfTrip = method({
  id: 'networks.trip.chance',
  title: 'chance of a trip by random losses within a time',
  prose:
    'probability that among as many updates as t holds m in a row are lost, counted run by run, without approximation',
  gives: '1',
  symbols: { t: 's', T: 's', q: '1', m: '1' },
  means: {
    t: 'a shift, a week, a year',
    T: 'period of the updates',
    q: 'chance that an update is lost',
    m: 'losses in a row that trip',
  },
  source: 'feller',
  at: 'chapter XIII.7, from memory',
  proof: 'recursion over runs of losses',
  of: (t: number, T: number, q: number, m: number) => leftWithin(lossRuns(q, m), updatesIn(t, T)),
});

/**
 * Of all stations together. What makes one station lose makes no other lose less, so that they miss each other's trips no more than
 * if they were independent (Harris 1960); and a station that has begun to lose is never farther from a trip than one that has not,
 * so that none of them comes about sooner than by chance alone with the same mean (Marshall and Proschan 1972, from memory).
 */
export const meanTimeToTripOfAny = formula({
  id: 'networks.trip.mean_of_any',
  title: 'mean time until random losses trip any of them, at least',
  text: '1/sum(1 ./ t)',
  gives: 's',
  symbols: { t: 's[]' },
  means: { t: 'mean time to a trip of each station' },
  try: { t: [1, 1e6] },
  source: 'judgement',
  at: 'a bound by theorems on associated and on new-better-than-used times, from memory',
  proof: 'trips of several stations, state by state',
  of: (t: readonly number[]) => 1 / sumOver(t, (each) => 1 / each),
});

export const noTripOfAny = method({
  id: 'networks.trip.none_of_any',
  title: 'chance that random losses trip none of them within a time, at least',
  prose: 'the product of the chances of each; those that share repeats or a frame lose together, and then it is more',
  gives: '1',
  as: '%',
  symbols: { n: '1[]' },
  means: { n: 'chance of no trip, of each station' },
  source: 'judgement',
  at: 'a bound by a theorem on associated events, from memory',
  proof: 'trips of several stations, state by state',
  of: (n: readonly number[]) => n.reduce((all, each) => all * each, 1),
});

/** Whole updates within a time; what rounding takes off the last one is given back. */
export const updatesIn = (time_s: number, period_s: number): number => Math.floor((time_s / period_s) * (1 + 1e-15));

/**
 * The states are 0 to m − 1 losses in a row, and the m-th leaves the chain. Throws a RangeError for a loss that is no
 * probability and for an m that is not a whole number from 1 on.
 */
export function lossRuns(loss: number, inARow: number): AbsorbingChain {
  mustBeProbability(loss, 'the loss of an update');
  mustBeCount(inARow, 1, 'the number of losses in a row');
  const states = Array.from({ length: inARow }, (_, run) => run);
  return {
    start: states.map((run) => Number(run === 0)),
    stays: states.map((run) => states.map((next) => (next === 0 ? 1 - loss : next === run + 1 ? loss : 0))),
    leaves: states.map((run) => (run === inARow - 1 ? loss : 0)),
  };
}

/** A run of m begins with one of m − 1; then it goes on with the chance q, or all begins anew. */
function meanUpdates(loss: number, inARow: number): number {
  let mean = 0;
  for (let run = 0; run < inARow; run++) mean = (mean + 1) / loss;
  return mean;
}
