// The motion laws of cams and indexing moves: from rest to rest, one unit of stroke in one unit of time.
import type { SourceId } from '../../working/sources.ts';
import { chain, type Motion, type Piece, type State, scaled, stateAt, stateOf } from './segment.ts';

/** Coefficients multiply stroke/time for a velocity, stroke/time² for an acceleration, stroke/time³ for a jerk. */
export interface MotionLaw {
  /** One unit of stroke in one second. */
  readonly unit: Motion;
  readonly peakVelocity: number;
  readonly peakAcceleration: number;
  /** Infinity where the acceleration steps at the ends or in the middle. */
  readonly peakJerk: number;
  /** The largest jerk between the steps. */
  readonly peakJerkInside: number;
  /** The largest product of velocity and acceleration: what a pure inertia asks for in power. */
  readonly peakProduct: number;
  readonly rmsAcceleration: number;
  readonly source: SourceId;
}

const { PI: π, SQRT2, sqrt } = Math;

const trapezoid = {
  peak: (8 * π) / (2 + π),
  /** What the quarter of a sine takes away or gives in velocity. */
  ramp: 2 / (2 + π),
  /** Velocity where the acceleration begins to fall. */
  before: 2 - 2 / (2 + π),
};

/** Sine of the angle in the fall of the modified trapezoid at which velocity times acceleration is largest. */
const trapezoidSine = (sqrt(trapezoid.before ** 2 + 8 * trapezoid.ramp ** 2) - trapezoid.before) / (4 * trapezoid.ramp);

/** The cosine for the modified sine, a root of 6·c² − c − 3. */
const modifiedCosine = (1 - sqrt(73)) / 12;

const laws = {
  constant_acceleration: {
    unit: chain(family(0, 0)),
    peakVelocity: 2,
    peakAcceleration: 4,
    peakJerk: Infinity,
    peakJerkInside: 0,
    peakProduct: 8,
    rmsAcceleration: 4,
    source: 'vdi-2143',
  },
  simple_harmonic: {
    unit: chain(family(0, 1)),
    peakVelocity: π / 2,
    peakAcceleration: π ** 2 / 2,
    peakJerk: Infinity,
    peakJerkInside: π ** 3 / 2,
    peakProduct: π ** 3 / 8,
    rmsAcceleration: π ** 2 / (2 * SQRT2),
    source: 'vdi-2143',
  },
  cycloidal: {
    unit: chain([{ duration_s: 1, polynomial: [0, 1], sine: sine(-1 / (2 * π), 2 * π, 0) }]),
    peakVelocity: 2,
    peakAcceleration: 2 * π,
    peakJerk: 4 * π ** 2,
    peakJerkInside: 4 * π ** 2,
    peakProduct: (3 * sqrt(3) * π) / 2,
    rmsAcceleration: SQRT2 * π,
    source: 'vdi-2143',
  },
  modified_trapezoid: {
    unit: chain(family(1 / 4, 1 / 4)),
    peakVelocity: 2,
    peakAcceleration: trapezoid.peak,
    peakJerk: 4 * π * trapezoid.peak,
    peakJerkInside: 4 * π * trapezoid.peak,
    peakProduct: trapezoid.peak * sqrt(1 - trapezoidSine ** 2) * (trapezoid.before + trapezoid.ramp * trapezoidSine),
    rmsAcceleration: (trapezoid.peak * sqrt(3)) / 2,
    source: 'rothbart',
  },
  modified_sine: {
    unit: chain(family(1 / 4, 3 / 4)),
    peakVelocity: (4 * π) / (4 + π),
    peakAcceleration: (4 * π ** 2) / (4 + π),
    peakJerk: (16 * π ** 3) / (4 + π),
    peakJerkInside: (16 * π ** 3) / (4 + π),
    peakProduct: ((4 * π ** 3) / (4 + π) ** 2) * (1 - 3 * modifiedCosine) * sqrt(1 - modifiedCosine ** 2),
    rmsAcceleration: (2 * SQRT2 * π ** 2) / (4 + π),
    source: 'rothbart',
  },
  polynomial_345: {
    unit: chain([{ duration_s: 1, polynomial: [0, 0, 0, 10, -15, 6] }]),
    peakVelocity: 15 / 8,
    peakAcceleration: 10 / sqrt(3),
    peakJerk: 60,
    peakJerkInside: 60,
    peakProduct: ((1800 / 64) * (6 / 7) ** 3) / sqrt(7),
    rmsAcceleration: sqrt(120 / 7),
    source: 'vdi-2143',
  },
  polynomial_4567: {
    unit: chain([{ duration_s: 1, polynomial: [0, 0, 0, 0, 35, -84, 70, -20] }]),
    peakVelocity: 35 / 16,
    peakAcceleration: (84 * sqrt(5)) / 25,
    peakJerk: 105 / 2,
    peakJerkInside: 105 / 2,
    peakProduct: ((58_800 / 1024) * (10 / 11) ** 5) / sqrt(11),
    rmsAcceleration: sqrt(280 / 11),
    source: 'vdi-2143',
  },
} as const satisfies Record<string, MotionLaw>;

/** The laws by the word that the machine file has for them. */
export type LawName = keyof typeof laws;
export const motionLaws: Readonly<Record<LawName, MotionLaw>> = laws;
export const lawNames = Object.keys(laws) as readonly LawName[];

/** Position and derivatives of the unit law at a share of its time, from 0 to 1; a RangeError beyond. */
export const lawAt = (law: LawName, x: number): State => stateAt(motionLaws[law].unit, x);

/** A law over a stroke of m or rad, down where it is negative, in a time over 0. */
export const lawPieces = (law: LawName, stroke: number, duration_s: number, from = 0): readonly Piece[] =>
  scaled(motionLaws[law].unit, { stroke, time: duration_s, from });

/** Peak acceleration of the law of that family whose acceleration rises along a sine for b/2 and falls along a cosine for d. */
export function familyPeak(b: number, d: number): number {
  return (4 * π ** 2) / ((π ** 2 - 8) * (b ** 2 - d ** 2) - 2 * π * (π - 2) * b + π ** 2);
}

/**
 * The family of laws whose acceleration goes sine, constant, cosine, constant, sine: it rises for b/2, stays for c/2, falls
 * to its negative for d, stays and comes back; b + c + d = 1.
 */
function family(b: number, d: number): readonly Piece[] {
  const A = familyPeak(b, d);
  const stay = (1 - b - d) / 2;
  const parts: readonly ((p: number, v: number) => Piece)[] = [
    (p, v) => along(p, v, b / 2, sine(-A * (b / π) ** 2, π / b, 0)),
    (p, v) => ({ duration_s: stay, polynomial: [p, v, A / 2] }),
    (p, v) => along(p, v, d, sine(-A * (d / π) ** 2, π / d, π / 2)),
    (p, v) => ({ duration_s: stay, polynomial: [p, v, -A / 2] }),
    (p, v) => along(p, v, b / 2, sine(-A * (b / π) ** 2, π / b, -π / 2)),
  ];
  const pieces: Piece[] = [];
  for (const part of parts) {
    const last = pieces.at(-1);
    const { position, velocity } = last === undefined ? { position: 0, velocity: 0 } : stateOf(last, last.duration_s);
    const piece = part(position, velocity);
    if (piece.duration_s > 0) pieces.push(piece);
  }
  return pieces;
}

/** A sine with the straight line that makes it begin at a position and a velocity. */
function along(position: number, velocity: number, duration_s: number, wave: Piece['sine'] & {}): Piece {
  const { amplitude, rate_rad_per_s, phase_rad } = wave;
  const line = [
    position - amplitude * Math.sin(phase_rad),
    velocity - amplitude * rate_rad_per_s * Math.cos(phase_rad),
  ];
  return { duration_s, polynomial: line, sine: wave };
}

function sine(amplitude: number, rate_rad_per_s: number, phase_rad: number) {
  return { amplitude, rate_rad_per_s, phase_rad };
}
