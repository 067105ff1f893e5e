// Moves from rest to rest: with acceleration in steps (trapezoid or triangle of velocity) and with limited jerk.
// Positions are in m or in rad; a stroke below 0 moves backwards, a stroke of 0 takes no pieces. Limits and times that are
// not over 0 and finite are a RangeError.
import { moveKernels } from './move-time.ts';
import { dwell, type Piece } from './segment.ts';

/** All over 0, in the unit of the position by s, s² and s³. */
export interface SteppedLimits {
  readonly velocity: number;
  readonly acceleration: number;
  readonly deceleration: number;
}

export interface SmoothLimits {
  readonly velocity: number;
  /** For deceleration too. */
  readonly acceleration: number;
  readonly jerk: number;
}

/** The quickest move whose acceleration may step: a trapezoid of velocity, or a triangle for a short stroke. */
export function steppedMove(stroke: number, limits: SteppedLimits, from = 0): readonly Piece[] {
  const { velocity: v, acceleration: a, deceleration: d } = limits;
  mustBeOverZero(v, a, d);
  if (stroke === 0) return [];
  const peak = moveKernels.steppedVelocity(Math.abs(stroke), v, a, d);
  const cruise_s = Math.max(0, Math.abs(stroke) / peak - (peak * (1 / a + 1 / d)) / 2);
  return pushed(from, Math.sign(stroke), [
    { duration_s: peak / a, acceleration: a, jerk: 0 },
    { duration_s: cruise_s, acceleration: 0, jerk: 0 },
    { duration_s: peak / d, acceleration: -d, jerk: 0 },
  ]);
}

/** Shares of the time in which a move accelerates and decelerates; thirds unless said, halves make a triangle. */
export interface Ramps {
  readonly up: number;
  readonly down: number;
}

/** The move with stepped acceleration that takes a given time; without a stroke it stands still for as long. */
export function timedMove(
  stroke: number,
  duration_s: number,
  { up, down }: Ramps = { up: 1 / 3, down: 1 / 3 },
  from = 0,
): readonly Piece[] {
  mustBeOverZero(duration_s, up, down);
  if (up + down > 1 + 1e-12) throw new RangeError(`ramps take ${up + down} of a time`);
  if (stroke === 0) return [dwell(duration_s, from)];
  const peak = stroke / (duration_s * (1 - (up + down) / 2));
  return pushed(from, 1, [
    { duration_s: up * duration_s, acceleration: peak / (up * duration_s), jerk: 0 },
    { duration_s: (1 - up - down) * duration_s, acceleration: 0, jerk: 0 },
    { duration_s: down * duration_s, acceleration: -peak / (down * duration_s), jerk: 0 },
  ]);
}

/** The quickest move with limited jerk: up to seven pieces of constant jerk. */
export function smoothMove(stroke: number, limits: SmoothLimits, from = 0): readonly Piece[] {
  const { velocity: v, acceleration: a, jerk } = limits;
  mustBeOverZero(v, a, jerk);
  if (stroke === 0) return [];
  const length = Math.abs(stroke);
  const peak = moveKernels.smoothAcceleration(length, v, a, jerk);
  const reached = moveKernels.smoothVelocity(length, v, peak, jerk);
  const bend_s = peak / jerk;
  const ramp_s = Math.max(0, reached / peak - bend_s);
  const cruise_s = Math.max(0, length / reached - ramp_s - 2 * bend_s);
  return pushed(from, Math.sign(stroke), [
    { duration_s: bend_s, acceleration: 0, jerk },
    { duration_s: ramp_s, acceleration: peak, jerk: 0 },
    { duration_s: bend_s, acceleration: peak, jerk: -jerk },
    { duration_s: cruise_s, acceleration: 0, jerk: 0 },
    { duration_s: bend_s, acceleration: 0, jerk: -jerk },
    { duration_s: ramp_s, acceleration: -peak, jerk: 0 },
    { duration_s: bend_s, acceleration: -peak, jerk },
  ]);
}

interface Push {
  readonly duration_s: number;
  /** At its start. */
  readonly acceleration: number;
  readonly jerk: number;
}

/** The pieces that pushes one behind the other give, from rest; a push of no duration, or of rounding only, gives none. */
function pushed(from: number, sign: number, pushes: readonly Push[]): readonly Piece[] {
  const least_s = 1e-12 * pushes.reduce((sum, { duration_s }) => sum + duration_s, 0);
  const pieces: Piece[] = [];
  let [position, velocity] = [from, 0];
  for (const { duration_s: t, acceleration, jerk } of pushes) {
    if (t <= least_s) continue;
    const [a, j] = [sign * acceleration, sign * jerk];
    pieces.push({
      duration_s: t,
      polynomial: j === 0 ? [position, velocity, a / 2] : [position, velocity, a / 2, j / 6],
    });
    position += t * (velocity + t * (a / 2 + (t * j) / 6));
    velocity += t * (a + (t * j) / 2);
  }
  return pieces;
}

function mustBeOverZero(...values: readonly number[]): void {
  for (const value of values) if (!(value > 0 && value < Infinity)) throw new RangeError(`no move with ${value}`);
}
