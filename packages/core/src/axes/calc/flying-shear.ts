// One cut of a flying shear as a motion over the web: along with it for the cut, then back to where it began.
// The web is the master and takes the place of time: `duration_s` counts metres of web, as if it ran at 1 m/s, so that a
// velocity of 1 is that of the web.
import { printQuantity } from '../../units/print-quantity.ts';
import { quintic } from './join.ts';
import { type LawName, lawPieces } from './motion-law.ts';
import { mustBeOverZero } from './over-zero.ts';
import type { Piece } from './segment.ts';

/** Lengths of web in m. */
export interface Shear {
  readonly cutLength: number;
  /** At the speed of the web. */
  readonly working: number;
  /** From rest to the speed of the web, and again from it to rest; the carriage goes half as far meanwhile. */
  readonly accelerate: number;
  /** The law of the return. */
  readonly law: LawName;
}

/**
 * From rest at 0 along with the web and back to rest at 0, over `cutLength` of web. Acceleration is 0 at both ends of the
 * working zone and of the way out. Throws a RangeError for lengths that are not over 0, or that leave no web for the return.
 */
export function flyingShear({ cutLength, working, accelerate, law }: Shear): readonly Piece[] {
  mustBeOverZero({
    'the length of a cut': cutLength,
    'the working zone': working,
    'the way of accelerating': accelerate,
  });
  const forwards = accelerate + working + accelerate;
  const back = cutLength - forwards;
  if (back <= 0)
    throw new RangeError(
      `a carriage that goes along for ${printQuantity(forwards, 'm')} has no web left to return over in cuts of ${printQuantity(cutLength, 'm')}`,
    );
  const rest = (position: number) => ({ position, velocity: 0, acceleration: 0 });
  const along = (position: number) => ({ position, velocity: 1, acceleration: 0 });
  const [begin, end] = [accelerate / 2, accelerate / 2 + working];
  const furthest = accelerate + working;
  return [
    quintic(accelerate, rest(0), along(begin)),
    { duration_s: working, polynomial: [begin, 1] },
    quintic(accelerate, along(end), rest(furthest)),
    ...lawPieces(law, -furthest, back, furthest),
  ];
}
