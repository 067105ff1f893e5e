// All that is known of the racks of a machine: what the checks are asked of and what is shown.
import type { PointKind } from '../physics/point.ts';
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { counted } from '../working/counted.ts';
import { given, Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { channelsLeft, channelsThere, currentDrawn, placesTaken, spareOfAll } from './calc/sums.ts';
import { type LaidLocation, type LaidRack, layOut, nameOf } from './laid-out.ts';
import type { Module, Point, RackDesign } from './rack.ts';
import type { Spare } from './section.ts';
import { canBe } from './suits.ts';
import type { WiringSettings } from './wiring-settings.ts';

export interface PlannedRack extends LaidRack {
  readonly taken: Value<Quantity<'1'>>;
  readonly drawn: Value<Quantity<'A'>>;
}

/** What there is of one kind at a location. */
export interface KindOfPoints {
  readonly location: string;
  readonly path: string;
  readonly kind: PointKind;
  readonly points: readonly Point[];
  readonly used: Quantity<'1'>;
  /** Channels that can be of the kind; one that can be of several kinds counts for each unless another kind uses it. */
  readonly there: Value<Quantity<'1'>>;
  readonly spare: Value<Quantity<'1'>>;
}

export interface PlannedLocation extends Omit<LaidLocation, 'racks'> {
  readonly racks: readonly PlannedRack[];
  readonly kinds: readonly KindOfPoints[];
}

export interface PlannedRacks {
  readonly locations: readonly PlannedLocation[];
  readonly wiring: WiringSettings;
}

export function planRacks({ locations, spare, wiring }: RackDesign): PlannedRacks {
  const together = locations.flatMap(({ points }) => points.filter((point) => nameOf(point.together) !== undefined));
  return {
    wiring,
    locations: locations.map((each) => {
      const laid = layOut(each, together);
      return { ...laid, racks: laid.racks.map(summed), kinds: kindsOf(laid, spare) };
    }),
  };
}

export function summed(rack: LaidRack): PlannedRack {
  const { label, rack: said } = rack;
  const { modules } = said;
  const all = modules instanceof Missing ? [] : modules;
  const places = [...said.beside, ...all].map((each) => each.places);
  const currents = [...said.beside, ...all].flatMap(({ draws }) => draws ?? []);
  return {
    ...rack,
    taken: given({ modules, p: places }, ({ p }) => placesTaken({ p }, label)),
    drawn: given({ modules, i: currents }, ({ i }) => currentDrawn({ i }, label)),
  };
}

function kindsOf(laid: LaidLocation, spare: Spare | undefined): readonly KindOfPoints[] {
  const { location } = laid;
  const kinds = [...new Set(location.points.flatMap(({ kind }) => (kind instanceof Missing ? [] : [kind])))];
  return kinds.map((kind) => {
    const points = location.points.filter((each) => each.kind === kind);
    return {
      location: location.name,
      path: location.path,
      kind,
      points,
      used: pointsOf(points.length, location.name, kind),
      there: channelsOf(laid, kind),
      spare: spareOf(spare, kind),
    };
  });
}

/** The same with a point more. */
export const withPoint = (kind: KindOfPoints, point: Point): KindOfPoints => {
  const points = [...kind.points, point];
  return { ...kind, points, used: pointsOf(points.length, kind.location, kind.kind) };
};

/** How many points of a kind the file has at a location. */
const pointsOf = (count: number, location: string, kind: PointKind): Quantity<'1'> =>
  counted('points', count, `count.${location}.${kind}`);

function channelsOf({ location, racks }: LaidLocation, kind: PointKind): Value<Quantity<'1'>> {
  const about = `${location.name}.${kind}`;
  if (location.racks instanceof Missing) return location.racks;
  const n = location.racks.flatMap(({ modules }) =>
    modules instanceof Missing ? [modules] : modules.flatMap((module) => countsOf(module, kind)),
  );
  const taken = racks
    .flatMap((rack) => rack.modules.flatMap(({ channels }) => channels))
    .filter(({ group, points }) => canBe(group, kind) && points.some((each) => each.kind !== kind));
  const all = given({ n }, (known) => channelsThere(known, about));
  if (taken.length === 0) return all;
  const t = counted('points', taken.length, `count.${about}.used_by_other_kinds`);
  return given({ n: all }, (known) => channelsLeft({ ...known, t }, about));
}

/** How many channels each group of a module has that can be of a kind. */
const countsOf = ({ groups }: Module, kind: PointKind): readonly Value<Quantity<'1'>>[] =>
  groups instanceof Missing ? [groups] : groups.flatMap((group) => (canBe(group, kind) ? [group.count] : []));

/** Common practice: a quarter of what is used, which is a fifth of all. */
const usualSpare = assumed('reserves.racks.spare', 0.2, '1', {
  source: 'common-practice',
  because: 'one channel in five is left for what is added while the machine is put to work',
  as: '%',
});

function spareOf(spare: Spare | undefined, kind: PointKind): Value<Quantity<'1'>> {
  const wanted = spare?.ofKind[kind] ?? spare?.every;
  if (spare === undefined || wanted === undefined) return usualSpare;
  if (wanted instanceof Missing || spare.of === 'total') return wanted;
  return spareOfAll({ s: wanted }, kind);
}
