// Racks and points as the rest of the domain sees them: the file with its parts filled in.
import type { PointKind } from '../physics/point.ts';
import type { Read } from '../reading/field.ts';
import type { Value } from '../reading/values.ts';
import type { Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { moduleFields, rangeField } from './parts.ts';
import type { ChannelName, LocationSection, pointFields, Spare } from './section.ts';
import type { WiringSettings } from './wiring-settings.ts';

type Count = Value<Quantity<'1'>>;
type Current = Value<Quantity<'A'>>;

/** A point, as racks need it; one whose kind is not known cannot sit anywhere. */
export type Point = {
  readonly [K in Exclude<keyof typeof pointFields, 'channel'>]: Read<(typeof pointFields)[K]>;
} & {
  readonly name: string;
  readonly path: string;
  readonly kind: Value<PointKind>;
  readonly filter: Value<Quantity<'s'>> | undefined;
  readonly channel: Value<ChannelName>;
  /** The location that its rack is at. */
  readonly location: string;
};

export type Range = Exclude<Read<typeof rangeField>, Missing>;
export type ChannelGroup = Exclude<Read<(typeof moduleFields)['channels']>, Missing>[number];

export interface Module {
  readonly path: string;
  readonly part: Value<string>;
  readonly title: Value<string>;
  readonly places: Count;
  readonly draws: Current;
  readonly groups: Value<readonly ChannelGroup[]>;
  /** Parts that it is bought with. */
  readonly comesWith: readonly string[];
  readonly octetsIn: Value<Quantity<'bit'>>;
  readonly octetsOut: Value<Quantity<'bit'>>;
}

/** What takes places of a rack and is no module. */
export interface Beside {
  readonly what: 'controller' | 'station' | 'supply' | 'extender';
  readonly path: string;
  readonly part: Value<string>;
  readonly places: Count;
  /** Section of the protective conductor that it asks for. */
  readonly protective?: Value<Quantity<'m²'>> | undefined;
  /** Nothing where it draws none. */
  readonly draws: Current | undefined;
}

export interface Rack {
  /** `main`, and `main/2` for the second rack there. */
  readonly label: string;
  readonly path: string;
  readonly part: Value<string>;
  readonly places: Count;
  readonly width: Value<Quantity<'m'>>;
  /** Section of the protective conductor that it asks for. */
  readonly protective: Value<Quantity<'m²'>> | undefined;
  readonly gives: Current;
  readonly feed: Value<'ac' | 'dc'>;
  readonly lowest: Value<Quantity<'V'>>;
  readonly highest: Value<Quantity<'V'>>;
  readonly beside: readonly Beside[];
  readonly modules: Value<readonly Module[]>;
}

export interface Location {
  readonly name: string;
  readonly path: string;
  /** What the file says of it; nothing where only points name it. */
  readonly section: LocationSection | undefined;
  readonly isStation: boolean;
  readonly head: Beside;
  /** What the contact of the controller switches that is closed as long as it works; nothing where it has none. */
  readonly healthy: { readonly voltage: Value<Quantity<'V'>>; readonly current: Current } | undefined;
  readonly racks: Value<readonly Rack[]>;
  readonly extender: { readonly part: Value<string>; readonly racksAtMost: Count };
  readonly points: readonly Point[];
}

export interface RackDesign {
  readonly locations: readonly Location[];
  /** The points of a file that describes no racks. */
  readonly alone: readonly Point[];
  readonly spare: Spare | undefined;
  readonly wiring: WiringSettings;
}
