// What a cycle asks of a drive: currents from torques, how long it stands above its continuous current, and its heat.
import { formula } from '../../working/formula.ts';
import { mustBeOverZero } from './over-zero.ts';

/** A stretch in which the current, of either sign, goes in a straight line. */
export interface CurrentPiece {
  readonly lasts_s: number;
  readonly start_A: number;
  readonly end_A: number;
}

export interface DriveLimits {
  readonly continuous_A: number;
  readonly peak_A: number;
}

/**
 * The longest overload of a cycle that repeats itself, in time at peak current: in each stretch above the continuous
 * current ∫(i² − i_c²)dt, over i_p² − i_c². A stretch may go on over the end of the cycle; if it never ends, it is
 * infinite. Between two stretches the drive is taken to recover in full, so a cycle of many short ones also has to keep
 * its effective current below the continuous one. Our judgement. Throws a RangeError for a measure that cannot be.
 */
export function longestOverload(pieces: readonly CurrentPiece[], { continuous_A, peak_A }: DriveLimits): number {
  mustBeOverZero({ 'the continuous current': continuous_A, 'the peak current less it': peak_A - continuous_A });
  // Twice round, since a stretch may go on over the end of the cycle.
  let [most, sum, rested] = [0, 0, false];
  for (let at = 0; at < 2 * pieces.length; at++) {
    const piece = pieces[at % pieces.length]!;
    mustBePiece(piece);
    const [from, to] = [Math.abs(piece.start_A), Math.abs(piece.end_A)];
    if (from <= continuous_A && to <= continuous_A) {
      sum = 0;
      rested = true;
    } else if (from > continuous_A && to > continuous_A && piece.start_A * piece.end_A > 0) {
      sum += excessOf(piece.lasts_s, from, to, continuous_A);
    } else
      for (const { above, excess } of partsOf(piece, continuous_A)) {
        rested ||= !above;
        sum = above ? sum + excess : 0;
        if (sum > most) most = sum;
      }
    if (sum > most) most = sum;
  }
  if (!rested && pieces.length > 0) return Infinity;
  return most / (peak_A ** 2 - continuous_A ** 2);
}

/** Of the square of a current that goes in a straight line over that of the continuous one, in A²·s. */
const excessOf = (lasts_s: number, a: number, b: number, continuous_A: number): number =>
  lasts_s * ((a * a + a * b + b * b) / 3 - continuous_A ** 2);

/** The mean of the current without its sign; NaN for no piece. */
export function meanCurrentOf(pieces: readonly CurrentPiece[]): number {
  let [charge, span_s] = [0, 0];
  for (const piece of pieces) {
    mustBePiece(piece);
    for (const [from, to] of cutAt(piece, [0])) charge += (to - from) * Math.abs(currentAt(piece, (from + to) / 2));
    span_s += piece.lasts_s;
  }
  return charge / span_s;
}

/** A piece cut where it goes through the continuous current; the excess counts in A²·s. */
function partsOf(piece: CurrentPiece, continuous_A: number) {
  return cutAt(piece, [-continuous_A, continuous_A]).map(([from, to]) => {
    const [a, b] = [currentAt(piece, from), currentAt(piece, to)];
    const above = Math.abs(currentAt(piece, (from + to) / 2)) > continuous_A;
    return { above, excess: excessOf(to - from, a, b, continuous_A) };
  });
}

function mustBePiece({ lasts_s, start_A, end_A }: CurrentPiece): void {
  if (!(lasts_s > 0 && lasts_s < Infinity)) throw new RangeError(`a piece that lasts ${lasts_s} s`);
  if (!Number.isFinite(start_A + end_A)) throw new RangeError(`a current from ${start_A} A to ${end_A} A`);
}

const currentAt = ({ lasts_s, start_A, end_A }: CurrentPiece, time_s: number): number =>
  start_A + ((end_A - start_A) * time_s) / lasts_s;

function cutAt(piece: CurrentPiece, currents: readonly number[]): readonly (readonly [from_s: number, to_s: number])[] {
  const { lasts_s, start_A, end_A } = piece;
  const cuts = currents
    .map((current) => ((current - start_A) / (end_A - start_A)) * lasts_s)
    .filter((time_s) => time_s > 0 && time_s < lasts_s)
    .toSorted((one, other) => one - other);
  return [0, ...cuts].map((from, at) => [from, cuts[at] ?? lasts_s] as const);
}

/** Torque goes with the current: saturation and weakening of the field are left out. */
export const currentOfTorque = formula({
  id: 'axes.drive.current',
  title: 'current for a torque',
  text: 'T/k',
  gives: 'A',
  symbols: { T: 'N·m', k: 'N·m/A' },
  means: { T: 'effective, highest or mean torque', k: 'torque constant, for the effective current' },
  try: { T: [0, 200], k: [0.1, 3] },
  source: 'definition',
  proof: 'the current gives back the torque and its mean losses',
  of: (T: number, k: number) => T / k,
});

export const driveLosses = formula({
  id: 'axes.drive.losses',
  title: 'mean heat that a drive makes',
  text: 'P + u*I',
  gives: 'W',
  symbols: { P: 'W', u: 'V', I: 'A' },
  means: { P: 'heat without any current', u: 'heat for each ampere', I: 'mean current, without its sign' },
  try: { P: [5, 100], u: [1, 20], I: [0, 100] },
  source: 'common-practice',
  proof: 'the current gives back the torque and its mean losses',
  of: (P: number, u: number, I: number) => P + u * I,
});
