// axes, timing: what decides how often an axis must get a setpoint.
import type { Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';

type Value<T> = T | Missing;

export interface AxisUpdate {
  readonly name: string;
  readonly path: string;
  /** Of the tool: m/s or rad/s, and the same by s and s². */
  readonly speed: Value<Quantity>;
  readonly acceleration: Value<Quantity>;
  /** Nothing where the acceleration jumps. */
  readonly jerk: Value<Quantity> | undefined;
  /** What turns with the shaft of the motor, and how fast at most. */
  readonly shaft: { readonly inertias: readonly Value<Quantity<'kg·m²'>>[]; readonly speed: Value<Quantity<'rad/s'>> };
  /** In m or rad; nothing where the file does not say it. */
  readonly tolerance: Value<Quantity> | undefined;
  /** In m/s or rad/s; nothing where the file does not say it. */
  readonly speedStep: Value<Quantity> | undefined;
  /** Whether the position loop closes over the network. */
  readonly overNetwork: boolean;
  readonly follows: FollowedAxis;
  readonly counted: CountedMaster | undefined;
  /** The axes that it must agree with. */
  readonly partners: readonly Value<FollowedAxis>[];
}

/** How an axis takes setpoints over, and how closely it follows them. */
export interface FollowedAxis {
  readonly name: string;
  readonly path: string;
  readonly master: string | undefined;
  readonly gain: Value<Quantity<'1/s'>> | undefined;
  /** The share of the speed that is fed forward past the position loop. */
  readonly feedForward: Value<Quantity<'1'>>;
  readonly drive: {
    readonly path: string;
    readonly part: Value<string>;
    readonly interpolates: Value<'none' | 'linear' | 'cubic'>;
    readonly setpoints: Value<'in_step' | 'on_arrival' | 'own_clock'>;
    readonly setpoint_cycles: Value<Quantity<'1'>>;
    readonly setpoint_jitter: Value<Quantity<'s'>>;
    readonly clock_apart: Value<Quantity<'1'>>;
  };
}

/** A master whose position an encoder outside the drives gives. */
export interface CountedMaster {
  readonly name: string;
  readonly sample: Value<Quantity<'s'>>;
  readonly filter: Value<Quantity<'s'>> | undefined;
  /** Whether the controller carries its position on at the speed last seen. */
  readonly lead: Value<'none' | 'speed'>;
  /** Of the tool, while the master goes along the steeper one of its ramps. */
  readonly ramp: Value<Quantity>;
}
