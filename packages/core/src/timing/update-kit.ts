// The formulas of updates that stand twice, by the unit of the tool: in m and in rad.
import type { Quantity } from '../working/quantity.ts';
import {
  angleLag,
  carriedAngleLag,
  carriedTimeLeftInAngle,
  carriedTimeLeftOnWay,
  carriedWayLag,
  timeLeftInAngle,
  timeLeftOnWay,
  wayLag,
} from './calc/lag.ts';
import { timeForAngle, timeForWay } from './calc/lead.ts';
import {
  cubicAngleError,
  cubicJumpAngleError,
  cubicJumpWayError,
  cubicWayError,
  cycleForCubicAngle,
  cycleForCubicJumpAngle,
  cycleForCubicJumpWay,
  cycleForCubicWay,
  cycleForLinearAngle,
  cycleForLinearWay,
  cycleForSpeedJump,
  cycleForTurningJump,
  linearAngleError,
  linearWayError,
  speedJumpOfTurning,
  speedJumpOnWay,
} from './calc/setpoint-error.ts';

type Form<S extends string> = (inputs: Readonly<Record<S, Quantity>>, about: string) => Quantity;
type Time<S extends string> = (inputs: Readonly<Record<S, Quantity>>, about: string) => Quantity<'s'>;

/** Quantities must be of the kit's unit. */
export interface UpdateKit {
  readonly linear: Form<'a' | 'T'>;
  readonly cycleForLinear: Time<'e' | 'a'>;
  readonly cubic: Form<'a' | 'j' | 'T'>;
  readonly cycleForCubic: Time<'e' | 'a' | 'j'>;
  readonly cubicJump: Form<'a' | 'T'>;
  readonly cycleForCubicJump: Time<'e' | 'a'>;
  readonly jump: Form<'a' | 'T'>;
  readonly cycleForJump: Time<'v' | 'a'>;
  readonly timeFor: Time<'e' | 'v'>;
  readonly lag: Form<'v' | 'n' | 'T' | 'd'>;
  readonly timeLeft: Time<'e' | 'v' | 'd'>;
  readonly carriedLag: Form<'a' | 'n' | 'T' | 'd'>;
  readonly carriedTimeLeft: Time<'e' | 'a' | 'd'>;
}

const kits = {
  m: {
    linear: linearWayError,
    cycleForLinear: cycleForLinearWay,
    cubic: cubicWayError,
    cycleForCubic: cycleForCubicWay,
    cubicJump: cubicJumpWayError,
    cycleForCubicJump: cycleForCubicJumpWay,
    jump: speedJumpOnWay,
    cycleForJump: cycleForSpeedJump,
    timeFor: timeForWay,
    lag: wayLag,
    timeLeft: timeLeftOnWay,
    carriedLag: carriedWayLag,
    carriedTimeLeft: carriedTimeLeftOnWay,
  },
  rad: {
    linear: linearAngleError,
    cycleForLinear: cycleForLinearAngle,
    cubic: cubicAngleError,
    cycleForCubic: cycleForCubicAngle,
    cubicJump: cubicJumpAngleError,
    cycleForCubicJump: cycleForCubicJumpAngle,
    jump: speedJumpOfTurning,
    cycleForJump: cycleForTurningJump,
    timeFor: timeForAngle,
    lag: angleLag,
    timeLeft: timeLeftInAngle,
    carriedLag: carriedAngleLag,
    carriedTimeLeft: carriedTimeLeftInAngle,
  },
} as unknown as Readonly<Record<'m' | 'rad', UpdateKit>>;

/** Along or turning, as the unit begins. */
export const kitOf = ({ unit }: Quantity): UpdateKit => kits[unit === 'm' || unit.startsWith('m/') ? 'm' : 'rad'];
