// The highest of a derivative of the position within a piece, either way.
import { type Piece, stateOf } from './segment.ts';
import { turnsOf } from './turns.ts';

/** How often the position is differentiated. */
export const derivatives = { velocity: 1, acceleration: 2, jerk: 3 } as const;
export type Derivative = keyof typeof derivatives;

/** At one of both ends, or where it turns round between them. */
export function highestIn(piece: Piece, of: Derivative): number {
  let asked = piece;
  for (let order = 0; order < derivatives[of]; order++) asked = derived(asked);
  const places = [0, ...turnsOf(asked), piece.duration_s];
  return Math.max(...places.map((t) => Math.abs(stateOf(asked, t).position)));
}

function derived({ duration_s, polynomial, sine }: Piece): Piece {
  const falling = polynomial.slice(1).map((each, power) => each * (power + 1));
  if (sine === undefined) return { duration_s, polynomial: falling };
  const { amplitude, rate_rad_per_s, phase_rad } = sine;
  const ahead = { amplitude: amplitude * rate_rad_per_s, rate_rad_per_s, phase_rad: phase_rad + Math.PI / 2 };
  return { duration_s, polynomial: falling, sine: ahead };
}
