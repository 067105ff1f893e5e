// The course of a case: position, speed, acceleration of the tool and torque of the motor, instant by instant.
import { type Going, goingOf, type Powers, shaftTorque } from './calc/drive-line.ts';
import { end_s, stateOf } from './calc/segment.ts';
import { turnsOf } from './calc/turns.ts';
import type { Case } from './demand.ts';
import { motionOf } from './phase.ts';
import { wayOf } from './steps.ts';

export interface TracePoint extends Powers {
  readonly time_s: number;
  /** Of the tool, in m or rad, and its derivatives. */
  readonly position: number;
  readonly velocity: number;
  readonly acceleration: number;
}

/**
 * So many points on each piece of the motion, both of its ends among them, so that a step stands as two points at one
 * time. Torque is over 0 in the direction of a positive motion; powers are in W, and what is not lost or stored is process.
 */
export function traceOf({ phases, line, rising_per_s }: Case, pointsOnPiece: number): readonly TracePoint[] {
  const points: TracePoint[] = [];
  let [from, start_s] = [0, 0];
  for (const { phase } of phases) {
    const motion = motionOf(phase);
    for (const segment of motion) {
      const turns = [0, ...turnsOf(segment), segment.duration_s];
      for (let at = 0; at < pointsOnPiece; at++) {
        const t = (segment.duration_s * at) / (pointsOnPiece - 1);
        points.push(pointAt(t));
      }

      function pointAt(t: number): TracePoint {
        const state = stateOf(segment, t);
        const going = goingAt(t);
        // Where the tool turns round or comes to rest, a speed that goes the other way is rounding.
        const velocity = going === 0 ? state.velocity : going * Math.max(0, going * state.velocity);
        const position = from + state.position;
        const acceleration = state.acceleration + rising_per_s * velocity;
        const time_s = start_s + segment.start_s + t;
        const powers: Powers = { torque: 0, speed: 0, kinetic: 0, process: 0, friction: 0, stages: 0 };
        const torque = shaftTorque(line, { position, velocity, acceleration }, time_s, going, { powers });
        return { ...powers, torque, time_s, position, velocity, acceleration };
      }

      /** At a turning point friction acts as it does before. */
      function goingAt(t: number): Going {
        const at = Math.max(
          1,
          turns.findIndex((turn) => turn >= t),
        );
        const inside = stateOf(segment, (turns[at - 1]! + turns[at]!) / 2);
        return goingOf(inside.velocity, inside.acceleration);
      }
    }
    const last = motion.at(-1);
    start_s += last === undefined ? 0 : end_s(last);
    from += wayOf(motion);
  }
  return points;
}
