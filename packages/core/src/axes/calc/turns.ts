// When the tool turns round within a piece: every time, and none that only rounding makes.
import { binomial } from './between-points.ts';
import { rootBetween } from './root.ts';
import { highestDegree, type Piece } from './segment.ts';

/** A speed below this part of the highest is that of rounding, and turns nothing round (our judgement). */
const rest = 1e-10;

/**
 * From the start of the piece, in order. Most pieces have bounds of their speed that say at once that there is none; else,
 * between the roots of its derivative a function has one root at most, so that roots are found from the highest derivative
 * on: that of a polynomial is a constant, and what is left of a sine beside it is a sine.
 */
export function turnsOf(piece: Piece): readonly number[] {
  const { least, most } = boundsOf(piece);
  if (least >= -rest * most || most <= -rest * least) return [];
  const derivatives = derivativesOf(piece);
  const { duration_s, sine } = piece;
  let roots = sine === undefined ? [] : waveRoots(piece, derivatives.length);
  for (const of of derivatives.slice(1).toReversed()) roots = rootsBetween(of, [0, ...roots, duration_s], 0);
  const speed = derivatives[0]!;
  const points = [0, ...roots, duration_s];
  return rootsBetween(speed, points, rest * Math.max(...points.map((t) => Math.abs(speed(t)))));
}

// ── bounds of the speed ──────────────────────────────────────────────────────────────────────────────────────────────

/** What the powers of the part of the time count for in the coefficients by Bernstein, between which a polynomial lies. */
const counts = Array.from({ length: highestDegree }, (_, degree) =>
  Array.from({ length: degree + 1 }, (__, at) =>
    Array.from({ length: at + 1 }, (___, power) => binomial(at, power) / binomial(degree, power)),
  ),
);

/** Speeds that a piece does not leave: the polynomial between its coefficients, the sine by its height. */
function boundsOf({ duration_s, polynomial, sine }: Piece): { readonly least: number; readonly most: number } {
  const wave = sine === undefined ? 0 : Math.abs(sine.amplitude * sine.rate_rad_per_s);
  const degree = polynomial.length - 2;
  if (degree < 0) return { least: -wave, most: wave };
  let [least, most] = [Infinity, -Infinity];
  for (const row of counts[degree]!) {
    let [sum, time] = [0, 1];
    for (let power = 0; power < row.length; power++) {
      sum += row[power]! * (power + 1) * polynomial[power + 1]! * time;
      time *= duration_s;
    }
    if (sum < least) least = sum;
    if (sum > most) most = sum;
  }
  return { least: least - wave, most: most + wave };
}

// ── roots ────────────────────────────────────────────────────────────────────────────────────────────────────────────

type Function = (t: number) => number;

/** Roots between points between which the function goes one way; what is not over the floor has no sign. */
function rootsBetween(of: Function, points: readonly number[], floor: number): number[] {
  const roots: number[] = [];
  let [before, value] = [0, 0];
  for (const to of points) {
    const next = of(to);
    if (Math.abs(next) <= floor) continue;
    if (next * value < 0) roots.push(rootBetween(of, [before, to], [value, next]));
    [before, value] = [to, next];
  }
  return roots;
}

/** The speed and its derivatives, as long as the polynomial gives them anything. */
function derivativesOf({ polynomial, sine }: Piece): readonly Function[] {
  const all: Function[] = [];
  let coefficients = polynomial.slice(1).map((each, at) => each * (at + 1));
  for (let order = 1; order === 1 || coefficients.length > 0; order++) {
    const own = coefficients;
    const { amplitude, rate_rad_per_s, phase_rad } = sine ?? { amplitude: 0, rate_rad_per_s: 0, phase_rad: 0 };
    const height = amplitude * rate_rad_per_s ** order;
    const ahead_rad = phase_rad + (order * Math.PI) / 2;
    all.push((t) => {
      let value = 0;
      for (let power = own.length - 1; power >= 0; power--) value = value * t + own[power]!;
      return height === 0 ? value : value + height * Math.sin(rate_rad_per_s * t + ahead_rad);
    });
    coefficients = own.slice(1).map((each, at) => each * (at + 1));
  }
  return all;
}

/** Roots of the derivative behind so many others, of which nothing is left but the sine. */
function waveRoots({ duration_s, sine }: Piece, order: number): number[] {
  const { rate_rad_per_s, phase_rad } = sine!;
  const begins = phase_rad + ((order + 1) * Math.PI) / 2;
  const ends = begins + rate_rad_per_s * duration_s;
  const roots: number[] = [];
  for (let half = Math.ceil(Math.min(begins, ends) / Math.PI); half * Math.PI < Math.max(begins, ends); half++)
    roots.push((half * Math.PI - begins) / rate_rad_per_s);
  return roots.filter((t) => t > 0 && t < duration_s).toSorted((one, other) => one - other);
}
