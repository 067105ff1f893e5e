// The formulas of motions that stand twice, by the unit of the tool: in m and in rad.
import type { Quantity } from '../working/quantity.ts';
import {
  fallingFollower,
  fallingTurning,
  gearedSpeed,
  gearedTurning,
  risingFollower,
  risingTurning,
} from './calc/follow.ts';
import {
  smoothMoveAcceleration,
  smoothMoveTime,
  smoothMoveVelocity,
  smoothTurnAcceleration,
  smoothTurnTime,
  smoothTurnVelocity,
  steppedMoveVelocity,
  steppedTurnVelocity,
} from './calc/move-time.ts';
import {
  brakingMove,
  brakingTurn,
  moveCruiseTime,
  moveRampTime,
  rampDown,
  rampUp,
  strokeAngle,
  strokeLength,
  timedSpeed,
  timedTurning,
  turnCruiseTime,
  turningDown,
  turningUp,
  turnRampTime,
} from './calc/ramp.ts';

type Form<S extends string> = (inputs: Readonly<Record<S, Quantity>>, about: string) => Quantity;
type Time<S extends string> = (inputs: Readonly<Record<S, Quantity>>, about: string) => Quantity<'s'>;

/** Quantities must be of the kit's unit; the reader has seen to it. */
export interface MotionKit {
  readonly length: Form<'L'>;
  readonly steppedVelocity: Form<'L' | 'v' | 'a' | 'd'>;
  readonly cruise: Time<'L' | 'v' | 'a' | 'd'>;
  readonly rampTime: Time<'v' | 'a'>;
  readonly braking: Form<'d'>;
  readonly timedSpeed: Form<'L' | 'T' | 'u' | 'd'>;
  readonly up: Form<'v' | 't'>;
  readonly down: Form<'v' | 't'>;
  readonly smoothAcceleration: Form<'L' | 'v' | 'a' | 'j'>;
  readonly smoothVelocity: Form<'L' | 'v' | 'p' | 'j'>;
  readonly smoothTime: Time<'L' | 'w' | 'p' | 'j'>;
  readonly geared: Form<'v' | 'z' | 'n'>;
  readonly rising: Form<'a' | 'u' | 't'>;
  readonly falling: Form<'a' | 'u' | 't'>;
}

export const kits = {
  m: {
    length: strokeLength,
    steppedVelocity: steppedMoveVelocity,
    cruise: moveCruiseTime,
    rampTime: moveRampTime,
    braking: brakingMove,
    timedSpeed,
    up: rampUp,
    down: rampDown,
    smoothAcceleration: smoothMoveAcceleration,
    smoothVelocity: smoothMoveVelocity,
    smoothTime: smoothMoveTime,
    geared: gearedSpeed,
    rising: risingFollower,
    falling: fallingFollower,
  },
  rad: {
    length: strokeAngle,
    steppedVelocity: steppedTurnVelocity,
    cruise: turnCruiseTime,
    rampTime: turnRampTime,
    braking: brakingTurn,
    timedSpeed: timedTurning,
    up: turningUp,
    down: turningDown,
    smoothAcceleration: smoothTurnAcceleration,
    smoothVelocity: smoothTurnVelocity,
    smoothTime: smoothTurnTime,
    geared: gearedTurning,
    rising: risingTurning,
    falling: fallingTurning,
  },
} as unknown as Readonly<Record<'m' | 'rad', MotionKit>>;
