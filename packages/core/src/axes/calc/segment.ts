// A motion as a list of pieces in closed form: each a polynomial in time and at most one sine.
// Positions are in m or in rad, whichever the axis moves in, and their derivatives in that unit by s, s² and s³.

export interface Sine {
  /** amplitude · sin(rate · t + phase), in the unit of the position. */
  readonly amplitude: number;
  readonly rate_rad_per_s: number;
  readonly phase_rad: number;
}

/** The sum of both over a duration; time counts from the start of the piece. */
export interface Piece {
  readonly duration_s: number;
  /** Coefficients of t⁰, t¹ and so on, up to t⁷. */
  readonly polynomial: readonly number[];
  readonly sine?: Sine;
}

export interface Segment extends Piece {
  readonly start_s: number;
}

/** Segments without a gap. Where one ends and the next begins is a breakpoint. */
export type Motion = readonly Segment[];

export interface State {
  readonly position: number;
  readonly velocity: number;
  readonly acceleration: number;
  readonly jerk: number;
}

/** The highest power of time in a piece: that of the 4-5-6-7 polynomial. */
export const highestDegree = 7;

/** Sets pieces one behind the other; those of no duration fall out. Throws a RangeError for a piece that cannot be. */
export function chain(pieces: readonly Piece[], start_s = 0): Motion {
  const motion: Segment[] = [];
  let next_s = start_s;
  for (const { duration_s, polynomial, sine } of pieces) {
    if (!(duration_s >= 0 && duration_s < Infinity)) throw new RangeError(`no piece lasts ${duration_s} s`);
    if (polynomial.length > highestDegree + 1) throw new RangeError(`a polynomial of degree ${polynomial.length - 1}`);
    if (duration_s === 0) continue;
    motion.push({ start_s: next_s, duration_s, polynomial, ...(sine !== undefined && { sine }) });
    next_s += duration_s;
  }
  return motion;
}

/** Standing still. */
export const dwell = (duration_s: number, position: number): Piece => ({ duration_s, polynomial: [position] });

/** Pieces stretched by a factor in position and another in time, then shifted in position. */
export function scaled(
  pieces: readonly Piece[],
  by: { readonly stroke: number; readonly time: number; readonly from?: number },
): readonly Piece[] {
  const { stroke, time, from = 0 } = by;
  return pieces.map(({ duration_s, polynomial, sine }) => ({
    duration_s: duration_s * time,
    polynomial: [0, ...polynomial.slice(1)].map((c, power) =>
      power === 0 ? from + stroke * (polynomial[0] ?? 0) : (stroke * c) / time ** power,
    ),
    ...(sine !== undefined && {
      sine: { ...sine, amplitude: stroke * sine.amplitude, rate_rad_per_s: sine.rate_rad_per_s / time },
    }),
  }));
}

/** Start of the first segment, all breakpoints, end of the last. */
export const breakpoints_s = (motion: Motion): readonly number[] =>
  motion.flatMap((segment, at) => (at === 0 ? [segment.start_s, end_s(segment)] : [end_s(segment)]));

export const span_s = (motion: Motion): number =>
  motion.length === 0 ? 0 : end_s(motion.at(-1)!) - motion[0]!.start_s;

/**
 * Position and derivatives at a time. At a breakpoint the segment that begins there counts, at the end the last one.
 * Throws a RangeError for a time outside the motion by more than rounding (1e-12 of its span).
 */
export function stateAt(motion: Motion, t_s: number): State {
  const segment = segmentAt(motion, t_s);
  return stateOf(segment, t_s - segment.start_s);
}

/** The same within one piece, in time from its start. */
export const stateOf = (piece: Piece, t_s: number): State =>
  moveTo({ position: 0, velocity: 0, acceleration: 0, jerk: 0 }, piece, t_s);

/** A state that a loop writes over from one instant to the next, since objects are what such a loop would wait for. */
export type MovingState = { -readonly [Each in keyof State]: State[Each] };

/** Writes the state of a piece over the one before and hands it back. */
export function moveTo(state: MovingState, { polynomial, sine }: Piece, t_s: number): State {
  // Horner's scheme for the value and, in the same pass, for the derivatives over 1, 2 and 6.
  let p = 0;
  let p1 = 0;
  let p2 = 0;
  let p3 = 0;
  for (let power = polynomial.length - 1; power >= 0; power--) {
    p3 = p3 * t_s + p2;
    p2 = p2 * t_s + p1;
    p1 = p1 * t_s + p;
    p = p * t_s + polynomial[power]!;
  }
  state.position = p;
  state.velocity = p1;
  state.acceleration = 2 * p2;
  state.jerk = 6 * p3;
  if (sine === undefined) return state;
  const { amplitude, rate_rad_per_s: rate, phase_rad } = sine;
  const up = amplitude * Math.sin(rate * t_s + phase_rad);
  const along = amplitude * Math.cos(rate * t_s + phase_rad);
  state.position += up;
  state.velocity += rate * along;
  state.acceleration -= rate * rate * up;
  state.jerk -= rate * rate * rate * along;
  return state;
}

export const end_s = ({ start_s, duration_s }: Segment): number => start_s + duration_s;

function segmentAt(motion: Motion, t_s: number): Segment {
  const forgiven_s = 1e-12 * span_s(motion);
  const first = motion[0];
  if (first === undefined || !(t_s >= first.start_s - forgiven_s && t_s <= end_s(motion.at(-1)!) + forgiven_s))
    throw new RangeError(`the motion has no state at ${t_s} s`);
  let [low, high] = [0, motion.length - 1];
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (motion[middle]!.start_s <= t_s) low = middle;
    else high = middle - 1;
  }
  return motion[low]!;
}
