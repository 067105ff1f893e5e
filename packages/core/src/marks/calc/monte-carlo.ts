// Propagation of distributions by trials, JCGM 101: a job is split into chunks, chunks run anywhere and in any order, and the
// results merge to the same bits whatever threads there are. Jobs, chunks and results are plain data.

import { streamsOf } from '../../physics/random-bits.ts';
import { total } from '../../working/total.ts';
import { type Contribution, type Distribution, degreesOf, offsetOf, standardOf } from './budget.ts';
import { type Matrix, triangleOf } from './correlation.ts';
import { addDraws, type Draw } from './draw.ts';
import { countOutside, type Histogram, type Range, shortestInterval, symmetricInterval } from './histogram.ts';
import type { Model } from './second-order.ts';
import { studentQuantile } from './student.ts';

interface Trials {
  readonly correlation?: Matrix;
  /** At least 10 000/(1 − coverage), says JCGM 101:2008, 7.2.2. */
  readonly trials: number;
  /** A whole number from 0 to 2^32 − 1. */
  readonly seed: number;
}

/** A budget that is a sum: every contribution times its sensitivity. */
export interface TrialJob extends Trials {
  readonly contributions: readonly Contribution[];
}

/** An input of a model: a value and what it is off by. */
export interface TrialInput {
  readonly value: number;
  readonly spread: Distribution;
  readonly degrees?: number;
}

export interface ModelJob extends Trials {
  readonly inputs: readonly TrialInput[];
}

interface Chunk {
  readonly trials: number;
  /** Where its stream of random bits starts. */
  readonly state: readonly number[];
  /** What the bins cover; values outside are counted, and count in mean and deviation. */
  readonly range: Range;
  /** About the mean, to sum squares around. */
  readonly centre: number;
}

export interface TrialChunk extends Chunk {
  readonly draws: readonly Draw[];
}

export interface ModelChunk extends Chunk {
  readonly draws: readonly Draw[];
  readonly values: readonly number[];
  readonly triangle: Matrix | undefined;
}

export interface TrialResult extends Histogram {
  readonly trials: number;
  readonly centre: number;
  /** Of the differences from the centre, and of their squares. */
  readonly sum: number;
  readonly squares: number;
}

/** A number from trials, with its own standard uncertainty from the scatter among chunks (JCGM 101:2008, 7.9.4). */
export interface Estimate {
  readonly value: number;
  readonly error: number;
  /** Degrees of freedom of the error. */
  readonly degrees: number;
}

export interface Ends {
  readonly least: Estimate;
  readonly most: Estimate;
}

export interface Outcome {
  readonly trials: number;
  readonly mean: Estimate;
  readonly deviation: Estimate;
  /** Undefined where an end is where the tails of t distributions have left the bins. */
  readonly symmetric: Ends | undefined;
  readonly shortest: Ends | undefined;
}

/** As many chunks at least: the error of each number then is known to a tenth. Our judgement. */
const fewestChunks = 50;
/** And so many trials at most in each, some ten milliseconds. Our judgement. */
const mostInChunk = 1_000_000;
const bins = 4096;
const blockTrials = 1024;
/** No value is so many deviations off in 10^14, and so large a share of a t distribution is left to each of its tails. */
const [normalReach, studentShare] = [8, 5e-4];
/** Trials that tell the range of a model. Our judgement. */
const pilotTrials = 10_000;

/**
 * The chunks of a sum. Undefined for a correlation that cannot be, and for one of what is not normally distributed with
 * infinite degrees of freedom: JCGM 101:2008, 6.4.8, knows no other. Such normal contributions are drawn as one, which has
 * exactly their joint distribution. Known degrees of freedom make a normal distribution Student's (6.4.9); those of a shape with
 * limits do not count.
 */
export function splitTrials({ contributions, correlation, ...job }: TrialJob): readonly TrialChunk[] | undefined {
  const draws = contributions.map((each) => drawOf(each, each.sensitivity));
  const triangle = drawnTriangle(draws, correlation);
  if (triangle === 'refused') return undefined;
  const isNormal = draws.map(({ shape }) => shape === 'normal');
  const normals = draws.map(({ shape, scale }) => (shape === 'normal' ? scale : 0));
  const joint = Math.sqrt(
    total(
      normals.map((_, column) => square(total(normals.map((scale, row) => scale * factorOf(triangle, row, column))))),
    ),
  );
  const drawn = [
    ...draws.filter((_, at) => !isNormal[at]),
    ...(joint > 0 ? [{ shape: 'normal', scale: joint } as const] : []),
  ];
  const centre = total(contributions.map((each) => each.sensitivity * offsetOf(each)));
  const reach = Math.max(total(drawn.map(reachOf)), Math.abs(centre) * 1e-12, 1e-300);
  return chunksOf(job).map((chunk) => ({
    ...chunk,
    draws: drawn,
    centre,
    range: { least: centre - reach, most: centre + reach },
  }));
}

/** The chunks of a model, whose range some first trials tell; undefined as for a sum. */
export function splitModelTrials(
  { inputs, correlation, ...job }: ModelJob,
  model: Model,
): readonly ModelChunk[] | undefined {
  const draws = inputs.map((input) => drawOf({ name: '', sensitivity: 1, ...input }, 1));
  const triangle = drawnTriangle(draws, correlation);
  if (triangle === 'refused') return undefined;
  const values = inputs.map((input) => input.value + offsetOf({ name: '', sensitivity: 1, ...input }));
  const [first, ...chunks] = chunksOf(job, 1);
  const results = new Float64Array(pilotTrials);
  eachTrial({ draws, values, triangle, trials: pilotTrials, state: first!.state }, model, (block, from) => {
    results.set(block, from);
  });
  const [least, most] = [results.reduce((a, b) => Math.min(a, b)), results.reduce((a, b) => Math.max(a, b))];
  const centre = total([...results]) / pilotTrials;
  const wider = Math.max(most - least, Math.abs(centre) * 1e-12, 1e-300);
  return chunks.map((chunk) => ({
    ...chunk,
    draws,
    values,
    triangle,
    centre,
    range: { least: least - wider, most: most + wider },
  }));
}

/** Runs a chunk of a sum. */
export function runTrials(chunk: TrialChunk): TrialResult {
  const state = Int32Array.from(chunk.state);
  const tally = tallyOf(chunk);
  const block = new Float64Array(blockTrials);
  for (let done = 0; done < chunk.trials; done += blockTrials) {
    block.fill(0);
    for (const draw of chunk.draws) addDraws(block, draw, state);
    addTo(tally, block, Math.min(blockTrials, chunk.trials - done));
  }
  return resultOf(chunk, tally);
}

/** Runs a chunk of a model. */
export function runModelTrials(chunk: ModelChunk, model: Model): TrialResult {
  const tally = tallyOf(chunk);
  eachTrial(chunk, model, (block) => {
    for (let at = 0; at < block.length; at++) block[at]! -= chunk.centre;
    addTo(tally, block, block.length);
  });
  return resultOf(chunk, tally);
}

/** All results of one job, in the order of its chunks. */
export function mergeTrials(results: readonly TrialResult[], coverage: number): Outcome {
  const all = results.reduce(joined);
  /** Without a spread; the bins have some width. */
  const always = estimate(meanOf(all), results.map(meanOf));
  const interval = (of: (histogram: Histogram, coverage: number) => Range | undefined): Ends | undefined => {
    if (deviationOf(all) === 0) return { least: always, most: always };
    const whole = of(all, coverage);
    const parts = results.map((result) => of(result, coverage));
    if (whole === undefined || !parts.every((part) => part !== undefined)) return undefined;
    return {
      least: estimate(
        whole.least,
        parts.map((part) => part.least),
      ),
      most: estimate(
        whole.most,
        parts.map((part) => part.most),
      ),
    };
  };
  return {
    trials: all.trials,
    mean: estimate(meanOf(all), results.map(meanOf)),
    deviation: estimate(deviationOf(all), results.map(deviationOf)),
    symmetric: interval(symmetricInterval),
    shortest: interval(shortestInterval),
  };
}

/**
 * The share of all trials outside limits, with the standard deviation of what their count leaves of it, all shares alike before
 * (a beta distribution), so that no trial outside is no certainty. Undefined where the bins do not tell it.
 */
export function shareOutside(results: readonly TrialResult[], limits: Range): Estimate | undefined {
  const all = results.reduce(joined);
  const count = countOutside(all, limits);
  if (count === undefined) return undefined;
  const [n, inside] = [all.trials, all.trials - count];
  const error = Math.sqrt(((count + 1) * (inside + 1)) / (n + 3)) / (n + 2);
  return { value: count / n, error, degrees: Infinity };
}

/** Within these limits the number is with that confidence. */
export function confidenceLimits({ value, error, degrees }: Estimate, confidence: number): Range {
  const reach = studentQuantile((1 + confidence) / 2, degrees) * error;
  return { least: value - reach, most: value + reach };
}

function drawOf(each: Contribution, sensitivity: number): Draw {
  const { spread } = each;
  const degrees = degreesOf(each);
  if (spread.shape === 'sample' && spread.of === 'one') {
    const mean = offsetOf(each);
    // Wider by as much as the standard deviation of one value is more than that of the values about their own mean.
    const scale = sensitivity * Math.sqrt(spread.values.length / degrees);
    return { shape: 'sample', scale, values: Float64Array.from(spread.values, (value) => value - mean) };
  }
  if (spread.shape === 'normal' || spread.shape === 'sample') {
    const scale = sensitivity * standardOf(spread);
    return degrees === Infinity ? { shape: 'normal', scale } : { shape: 'student', scale, degrees };
  }
  return { shape: spread.shape, scale: sensitivity * spread.halfWidth };
}

function drawnTriangle(draws: readonly Draw[], correlation: Matrix | undefined): Matrix | undefined | 'refused' {
  if (correlation === undefined) return undefined;
  const isTied = (row: number) => correlation[row]?.some((r, at) => at !== row && r !== 0);
  if (correlation.length !== draws.length || draws.some(({ shape }, at) => shape !== 'normal' && isTied(at)))
    return 'refused';
  return triangleOf(correlation) ?? 'refused';
}

function reachOf(draw: Draw): number {
  const scale = Math.abs(draw.scale);
  if (draw.shape === 'normal') return normalReach * scale;
  if (draw.shape === 'student') return Math.max(normalReach, studentQuantile(1 - studentShare, draw.degrees)) * scale;
  // A little more, since a value at the limit itself belongs to the last bin.
  return 1.001 * (draw.shape === 'sample' ? scale * Math.max(...draw.values.map(Math.abs)) : scale);
}

/** The first streams may be for something else: so many more are begun. */
function chunksOf({ trials, seed }: Trials, more = 0) {
  const count = Math.max(fewestChunks, Math.ceil(trials / mostInChunk));
  const upTo = (chunk: number): number => Math.floor((trials * chunk) / count);
  return streamsOf(seed, count + more).map((state, at) => ({
    state,
    trials: upTo(at - more + 1) - upTo(at - more),
  }));
}

/** Runs the model for each trial and hands over a block of results at a time. */
function eachTrial(
  {
    draws,
    values,
    triangle,
    trials,
    state: start,
  }: Pick<ModelChunk, 'draws' | 'values' | 'triangle' | 'trials' | 'state'>,
  model: Model,
  take: (block: Float64Array, from: number) => void,
): void {
  const state = Int32Array.from(start);
  const columns = draws.map(() => new Float64Array(blockTrials));
  const block = new Float64Array(blockTrials);
  const trial: number[] = Array(draws.length).fill(0);
  const rows = draws.map((draw, row) => draws.map((_, column) => draw.scale * factorOf(triangle, row, column)));
  for (let done = 0; done < trials; done += blockTrials) {
    const count = Math.min(blockTrials, trials - done);
    for (const [at, draw] of draws.entries()) addDraws(columns[at]!.fill(0), { ...draw, scale: 1 }, state);
    for (let at = 0; at < count; at++) {
      for (let row = 0; row < trial.length; row++) {
        let value = values[row]!;
        for (let column = 0; column <= row; column++) value += rows[row]![column]! * columns[column]![at]!;
        trial[row] = value;
      }
      block[at] = model(trial);
    }
    take(block.subarray(0, count), done);
  }
}

interface Tally {
  readonly counts: Int32Array;
  /** The least of the range, from the centre, and bins in a unit. */
  readonly least: number;
  readonly scale: number;
  sum: number;
  squares: number;
  below: number;
  above: number;
}

const tallyOf = ({ range, centre }: Chunk): Tally => ({
  counts: new Int32Array(bins),
  least: range.least - centre,
  scale: bins / (range.most - range.least),
  sum: 0,
  squares: 0,
  below: 0,
  above: 0,
});

/** Adds differences from the centre. */
function addTo(tally: Tally, block: Float64Array, count: number): void {
  const { counts, least, scale } = tally;
  let { sum, squares } = tally;
  for (let at = 0; at < count; at++) {
    const value = block[at]!;
    sum += value;
    squares += value * value;
    const place = (value - least) * scale;
    if (place >= 0 && place < bins) counts[place | 0]!++;
    else if (place < 0) tally.below++;
    else tally.above++;
  }
  tally.sum = sum;
  tally.squares = squares;
}

const resultOf = ({ range, centre, trials }: Chunk, { counts, sum, squares, below, above }: Tally): TrialResult => ({
  ...range,
  counts,
  below,
  above,
  trials,
  centre,
  sum,
  squares,
});

const joined = (one: TrialResult, other: TrialResult): TrialResult => ({
  ...one,
  counts: one.counts.map((count, bin) => count + other.counts[bin]!),
  below: one.below + other.below,
  above: one.above + other.above,
  trials: one.trials + other.trials,
  sum: one.sum + other.sum,
  squares: one.squares + other.squares,
});

const meanOf = ({ centre, sum, trials }: TrialResult): number => centre + sum / trials;

const deviationOf = ({ sum, squares, trials }: TrialResult): number =>
  Math.sqrt(Math.max(0, squares - square(sum) / trials) / (trials - 1));

/** A value of all trials, with the standard deviation of the mean of the same value of each chunk. */
function estimate(value: number, parts: readonly number[]): Estimate {
  const mean = total(parts) / parts.length;
  const degrees = parts.length - 1;
  return { value, degrees, error: Math.sqrt(total(parts.map((part) => square(part - mean))) / degrees / parts.length) };
}

/** How much of an independent value is in a correlated one. */
const factorOf = (triangle: Matrix | undefined, row: number, column: number): number =>
  triangle === undefined ? Number(row === column) : triangle[row]![column]!;

/** A power of the engine may round in another way. */
const square = (x: number): number => x * x;
