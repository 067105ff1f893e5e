// The highest speed and the highest jerk of the tool in a cycle, either way: of the motion alone, whatever the train.
import type { Value } from '../reading/values.ts';
import { openMethod } from '../working/formula.ts';
import { given } from '../working/missing.ts';
import { onceForEach } from '../working/once.ts';
import type { Quantity } from '../working/quantity.ts';
import { highestIn } from './calc/highest-in-piece.ts';
import { type Piece, stateOf } from './calc/segment.ts';
import type { AxisDemand } from './demand.ts';
import { highestOf, inputsOf } from './highest-acceleration.ts';
import { motionOf } from './phase.ts';

const spec = {
  prose: 'the highest of each piece of the motion, at one of its ends or where it rises no further between them',
  source: 'definition',
  proof: 'speed, acceleration and jerk of laws are highest as their tables say',
} as const;
const speed = { ...spec, title: 'highest speed of the tool in the cycle, either way' } as const;
const speedAlong = openMethod({ ...speed, id: 'axes.motion.highest_speed', gives: 'm/s' });
const speedTurning = openMethod({ ...speed, id: 'axes.motion.highest_turning_speed', gives: 'rad/s' });
const jerk = { ...spec, title: 'highest jerk of the tool in the cycle, either way' } as const;
const jerkAlong = openMethod({ ...jerk, id: 'axes.motion.highest_jerk', gives: 'm/s³' });
const jerkTurning = openMethod({ ...jerk, id: 'axes.motion.highest_turning_jerk', gives: 'rad/s³' });

export const highestSpeedOfMotion = onceForEach(
  ({ motion, axis }: AxisDemand): Value<Quantity> =>
    given({ motion }, ({ motion: { phases, unit } }): Quantity => {
      const of = highestOf(phases, 'velocity');
      return (unit === 'm' ? speedAlong : speedTurning)({ ...inputsOf(phases), of }, axis.name);
    }),
);

/** Nothing where the acceleration jumps, from the end of the cycle to its start too: no jerk is the highest then. */
export const highestJerk = onceForEach(({ motion, axis }: AxisDemand): Value<Quantity> | undefined =>
  given({ motion }, ({ motion: { phases, unit } }): Quantity | undefined => {
    if (jumps(phases.flatMap(motionOf))) return undefined;
    const of = highestOf(phases, 'jerk');
    return (unit === 'm' ? jerkAlong : jerkTurning)({ ...inputsOf(phases), of }, axis.name);
  }),
);

/** By more than rounding leaves of the highest acceleration. */
function jumps(pieces: readonly Piece[]): boolean {
  const least = 1e-9 * Math.max(...pieces.map((piece) => highestIn(piece, 'acceleration')));
  return pieces.some((piece, at) => {
    const { acceleration: to } = stateOf(piece, piece.duration_s);
    const { acceleration: from } = stateOf(pieces[(at + 1) % pieces.length]!, 0);
    return Math.abs(to - from) > least;
  });
}
