// What there is in numbers beside what checks ask for: free channels by kind, channels by module, points that are carried.
import type { Value } from '../reading/values.ts';
import { counted } from '../working/counted.ts';
import { given, Missing } from '../working/missing.ts';
import { onceForEach } from '../working/once.ts';
import type { Quantity } from '../working/quantity.ts';
import { channelsFree, channelsThere, freeShare } from './calc/sums.ts';
import type { LaidModule } from './laid-out.ts';
import type { KindOfPoints, PlannedLocation, PlannedRack, PlannedRacks } from './planned.ts';

type Count = Value<Quantity<'1'>>;

export interface KindTotal {
  readonly of: KindOfPoints;
  readonly free: Count;
  /** Missing channels make it missing; nothing where there is no channel at all. */
  readonly share: Count | undefined;
}

export interface ModuleTotal {
  readonly module: LaidModule;
  readonly channels: Count;
  readonly used: Quantity<'1'>;
}

export interface Totals {
  readonly racks: Quantity<'1'>;
  readonly points: Quantity<'1'>;
  /** Points on channels that suit them. */
  readonly carried: Quantity<'1'>;
  readonly kinds: readonly KindTotal[];
  readonly modules: readonly ModuleTotal[];
}

/** Of a location, or of all together. */
export const totalsOf = onceForEach(({ locations }: PlannedRacks): Totals => sumOf(locations, ''));
export const totalsAt = onceForEach(
  (location: PlannedLocation): Totals => sumOf([location], `.${location.location.name}`),
);

function sumOf(locations: readonly PlannedLocation[], of: string): Totals {
  const racks = locations.flatMap((each) => each.racks);
  const number = (count: (each: PlannedLocation) => number): number =>
    locations.reduce((sum, each) => sum + count(each), 0);
  return {
    racks: counted('racks', racks.length, `count${of}.racks`),
    points: counted(
      'points',
      number(({ location }) => location.points.length),
      `count${of}.points`,
    ),
    carried: counted(
      'points',
      number(({ placed }) => placed.length),
      `count${of}.carried`,
    ),
    kinds: locations.flatMap(({ kinds }) => kinds.map(kindTotal)),
    modules: racks.flatMap(modulesOf),
  };
}

const kindTotal = onceForEach((of: KindOfPoints): KindTotal => {
  const about = `${of.location}.${of.kind}`;
  const asked = { n: of.there, u: of.used };
  const none = !(of.there instanceof Missing) && of.there.value === 0;
  return {
    of,
    free: given(asked, (known) => channelsFree(known, about)),
    share: none ? undefined : given(asked, (known) => freeShare(known, about)),
  };
});

const modulesOf = onceForEach(({ modules }: PlannedRack): readonly ModuleTotal[] =>
  modules.map((module) => {
    const { groups, path } = module.module;
    const about = module.place === undefined ? path : module.label;
    const n: readonly Count[] = groups instanceof Missing ? [groups] : groups.map(({ count }) => count);
    const used = module.channels.filter(({ points }) => points.length > 0).length;
    return {
      module,
      channels: given({ n }, (known) => channelsThere(known, about)),
      used: counted('points', used, `count.${about}`),
    };
  }),
);

/** The kind of which the least is free, as far as it is known. */
export const scarcest = ({ kinds }: Totals): KindTotal | undefined =>
  kinds
    .filter(({ share }) => share !== undefined && !(share instanceof Missing))
    .toSorted((one, other) => (one.share as Quantity).value - (other.share as Quantity).value)[0];
