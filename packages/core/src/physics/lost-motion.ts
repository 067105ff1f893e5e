// What axes tell marks (both domains): how far the tool moves against its motor while the torque of a cycle goes up and down.
import type { Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';

type Value<T> = T | Missing;

export interface LostMotion {
  readonly axis: string;
  /** `unsaid`: the train says neither stiffness nor play. `changing`: the tool is a roll of web, which changes all along. */
  readonly counts: 'yes' | 'unsaid' | 'changing';
  /** Nothing where it does not count. */
  readonly known: Value<KnownLostMotion> | undefined;
}

/** By the name of the axis; made when it is asked for, since few axes act on marks. */
export type LostMotions = (axis: string) => LostMotion | undefined;

export interface KnownLostMotion {
  /** Through the train, at the motor shaft; below 0 where it holds the load back. */
  readonly lowest: Quantity<'N·m'>;
  readonly highest: Quantity<'N·m'>;
  /** Whether the torque turns round, so that play counts. */
  readonly reverses: boolean;
  /** Between both torques; nothing where the train says no stiffness. */
  readonly windUp: Quantity<'m' | 'rad'> | undefined;
  /** Nothing where the train says none. */
  readonly play: Quantity<'m' | 'rad'> | undefined;
  /** From one end to the other: along the web, or an angle where the motion does not say what way a turn is. */
  readonly span: Quantity<'m' | 'rad'> | undefined;
}
