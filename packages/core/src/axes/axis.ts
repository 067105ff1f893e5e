// An axis and its master with everything filled in that the file and its parts say.
import type { Read } from '../reading/field.ts';
import type { section } from '../reading/groups.ts';
import type { Value } from '../reading/values.ts';
import type { Quantity } from '../working/quantity.ts';
import type { LossActsOn } from './calc/efficiency.ts';
import type { driveFigures, motorFields, resistorFields } from './parts.ts';
import type { AxisSection, ElementSection, MasterSection, MotionSection } from './section.ts';

export interface Stop {
  readonly name: string;
  readonly path: string;
  readonly within: Value<Quantity<'s'>>;
  readonly reaction: Value<Quantity<'s'>> | undefined;
  /** In m or rad of the master. */
  readonly way_at_most: Value<Quantity> | undefined;
  /** Of IEC 60204-1; absent where the file does not say it. */
  readonly category: Value<'0' | '1' | '2'> | undefined;
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

interface Used {
  readonly path: string;
  /** The name of its part; missing where it has none. */
  readonly part: Value<string>;
  /** Whether the file says anything of it. */
  readonly absent: boolean;
}

export type Motor = Used & Read<ReturnType<typeof section<typeof motorFields>>>;
export type Drive = Used & Read<ReturnType<typeof section<typeof driveFigures>>>;
export type Resistor = Used & Read<ReturnType<typeof section<typeof resistorFields>>>;

export interface Bus {
  readonly name: string;
  readonly path: string;
  /** Those that the file describes the motion of, by name. */
  readonly axes: readonly Axis[];
  readonly resistor: Resistor | undefined;
  readonly capacitance: Value<Quantity<'F'>> | undefined;
}

/** What the place and the mains are like. */
export interface Site {
  readonly ambient: Value<Quantity<'K abs'>>;
  readonly altitude: Value<Quantity<'m'>>;
  readonly mains: Value<Quantity<'V'>>;
  readonly low: Value<Quantity<'V'>>;
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
  readonly drive: Drive;
  readonly site: Site;
  readonly gain: AxisSection['gain'];
  /** Of the speed, past the position loop; nothing of it unless the file says so. */
  readonly feedForward: Value<Quantity<'1'>>;
  readonly followsWithin: AxisSection['follows_within'];
  readonly inertiaRatioAtMost: AxisSection['inertia_ratio_at_most'];
  readonly stated: AxisSection['stated'];
}
