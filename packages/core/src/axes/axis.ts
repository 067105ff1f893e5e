// An axis and its master with everything filled in that the file and its parts say.
import type { Value } from '../reading/values.ts';
import type { Quantity } from '../working/quantity.ts';
import type { LossActsOn } from './calc/efficiency.ts';
import type { AxisSection, ElementSection, MasterSection, MotionSection } from './section.ts';

export interface Stop {
  readonly name: string;
  readonly within: Value<Quantity<'s'>>;
  /** Of IEC 60204-1; absent where the file does not say it. */
  readonly category: Value<Quantity<'1'>> | undefined;
}

export interface Master {
  readonly name: string;
  readonly path: string;
  /** In m/s or rad/s. */
  readonly speed: Value<Quantity>;
  /** Whether it runs along or turns; missing with its speed. */
  readonly unit: Value<'m' | 'rad'>;
  /** Time for one product at full speed. */
  readonly product: Value<Quantity<'s'>>;
  /** Where its position is counted, and not made by the controller. */
  readonly encoder: MasterSection['encoder'];
  readonly ramp_up: Value<Quantity<'s'>> | undefined;
  readonly ramp_down: Value<Quantity<'s'>> | undefined;
  readonly stops: readonly Stop[];
}

export interface Motor {
  readonly path: string;
  /** The name of its part; missing where it has none. */
  readonly part: Value<string>;
  /** Whether the file says anything of it. */
  readonly absent: boolean;
  readonly inertia: Value<Quantity<'kg·m²'>>;
  readonly torque: Value<Quantity<'N·m'>>;
  readonly torque_peak: Value<Quantity<'N·m'>>;
  readonly speed: Value<Quantity<'rad/s'>>;
  readonly brake: Value<Quantity<'N·m'>>;
  readonly cooling_at_rest: Value<Quantity<'1'>>;
}

export interface Axis {
  readonly name: string;
  readonly path: string;
  readonly motion: MotionSection;
  /** What it follows; undefined for an axis with a cycle of its own. */
  readonly master: Value<Master> | undefined;
  /** The elements, gears with what their parts say. */
  readonly train: Value<readonly ElementSection[]>;
  readonly lossesOn: Value<LossActsOn>;
  /** Whether the file says so, or the printed default holds. */
  readonly lossesSaid: boolean;
  readonly motor: Motor;
  readonly inertiaRatioAtMost: AxisSection['inertia_ratio_at_most'];
  readonly stated: AxisSection['stated'];
}
