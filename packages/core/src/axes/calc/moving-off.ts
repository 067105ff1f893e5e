// Where the tool moves off from rest, and what that asks for with the friction at rest.
import { type More, type PlainLine, shaftTorque } from './drive-line.ts';
import type { Stretch } from './phase-torque.ts';
import { type Segment, stateOf } from './segment.ts';
import { turnsOf } from './turns.ts';

export interface MovingOff {
  /** The tool is at rest where it begins. */
  readonly segment: Segment;
  readonly going: 1 | -1;
  readonly quickening: number;
}

/** A speed below this part of the one that follows is that of rounding (our judgement). */
const rest = 1e-9;

/**
 * At the beginning of a stretch, and behind each piece in which it stands; where the master gets up to speed, wherever a
 * piece begins, since the master may have stood there. None where no friction at rest is more than in motion.
 */
export function movingsOff({ stages }: PlainLine, { motion, rising_per_s }: Stretch): readonly MovingOff[] {
  if (stages.every(({ breakaway, coulomb }) => breakaway <= coulomb)) return [];
  let standing = true;
  return motion.flatMap((segment): readonly MovingOff[] => {
    const stood = standing;
    const speed = stateOf(segment, (turnsOf(segment)[0] ?? segment.duration_s) / 2).velocity;
    standing = speed === 0;
    if (standing) return [];
    const { velocity, acceleration } = stateOf(segment, 0);
    const going = speed > 0 ? 1 : -1;
    if (Math.abs(velocity) <= rest * Math.abs(speed))
      return stood ? [{ segment, going, quickening: acceleration }] : [];
    return rising_per_s > 0 ? [{ segment, going, quickening: rising_per_s * velocity }] : [];
  });
}

/** The torque at the end of the line. */
export function movingOffTorque(line: PlainLine, stretch: Stretch, moving: MovingOff, more?: More): number {
  const { segment, going, quickening } = moving;
  const { from, start_s, motion } = stretch;
  const { position } = stateOf(segment, 0);
  const time_s = start_s + segment.start_s - motion[0]!.start_s;
  const tool = { position: from + position, velocity: 0, acceleration: quickening };
  return shaftTorque(line, tool, time_s, going, { ...more, starting: true });
}

/** That of the highest torque. */
export function hardestMovingOff(line: PlainLine, stretch: Stretch): MovingOff | undefined {
  let hardest: MovingOff | undefined;
  let highest = -1;
  for (const each of movingsOff(line, stretch)) {
    const torque = Math.abs(movingOffTorque(line, stretch, each));
    if (torque > highest) [hardest, highest] = [each, torque];
  }
  return hardest;
}
