// The tables of racks: racks, modules, spare by kind, points, and the parts list with its cost.
import type { Cell, LaterTable, Table } from '../checks/view.ts';
import { type Part, rebase } from '../reading/parts.ts';
import type { Value } from '../reading/values.ts';
import { counted } from '../working/counted.ts';
import { given, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { costOfAll, costOfParts } from './calc/sums.ts';
import { kindNames } from './kind-names.ts';
import { channelSaid, type LaidChannel } from './laid-out.ts';
import { rackKinds } from './parts.ts';
import type { PlannedLocation, PlannedRack } from './planned.ts';
import type { Point } from './rack.ts';
import type { Totals } from './totals.ts';

export const named = (value: Value<string>): string => (value instanceof Missing ? 'described here' : value);

export function racksTable(racks: readonly PlannedRack[]): Table {
  return {
    name: 'racks',
    title: 'Racks',
    note: 'current: what controller or station and modules draw at most, and what the supply gives',
    columns: ['rack', 'part', 'width', 'places taken', 'of', 'current', 'of at most'],
    rows: racks.map(({ label, rack, taken, drawn }) => [
      label,
      named(rack.part),
      rack.width,
      taken,
      rack.places,
      drawn,
      rack.gives,
    ]),
  };
}

export function modulesTable({ modules }: Totals): Table {
  return {
    name: 'modules',
    title: 'Modules at their places',
    note: 'used: channels with a point on them; show with racks. before the place has the terminals of a module',
    columns: ['place', 'part', 'channels', 'used', 'draws'],
    rows: modules.map(({ module, channels, used }) => [
      module.label,
      named(module.module.part),
      channels,
      used,
      module.module.draws,
    ]),
  };
}

export function spareTable({ kinds }: Totals): Table {
  return {
    name: 'spare',
    title: 'Spare channels, kind by kind',
    note: 'free: the share of all channels that can be of the kind; one that can be of several kinds counts for each as long as no other uses it',
    columns: ['location', 'kind', 'points', 'channels', 'left', 'free', 'wanted'],
    rows: kinds.map(({ of, free, share }) => [
      of.location,
      kindNames[of.kind],
      of.used,
      of.there,
      free,
      share ?? 'none is there',
      of.spare,
    ]),
  };
}

/** More rows than these are read by who looks for one of them (our judgement). */
const mostRows = 48;

/** A point for each row; a long table is only printed when it is asked for. */
export function pointsTable(locations: readonly PlannedLocation[]): LaterTable {
  const count = locations.reduce((sum, { location }) => sum + location.points.length, 0);
  const title = 'Points and where they sit';
  const make = (): Table => ({
    name: 'points',
    title,
    columns: ['point', 'kind', 'at', 'channel', 'module', 'what it is', 'wire', 'found'],
    rows: locations.flatMap((location) => {
      const seats = seatsAt(location);
      return location.location.points.map((point) => pointRow(point, seats));
    }),
  });
  return { name: 'points', title, make, ...(count > mostRows && { alone: true as const }) };
}

export interface Seats {
  readonly channels: ReadonlyMap<Point, LaidChannel>;
  readonly wrong: ReadonlyMap<Point, string>;
}

export const seatsAt = ({ racks, wrong }: PlannedLocation): Seats => ({
  channels: new Map(
    racks.flatMap(({ modules }) =>
      modules.flatMap(({ channels }) =>
        channels.flatMap((channel) => channel.points.map((point) => [point, channel] as const)),
      ),
    ),
  ),
  wrong: new Map(wrong.map(({ point, why }) => [point, why])),
});

function pointRow(point: Point, { channels, wrong }: Seats): readonly Cell[] {
  const { name, kind, location, title, wire } = point;
  const channel = channels.get(point);
  return [
    name,
    kind instanceof Missing ? kind : kindNames[kind],
    location,
    channel?.label ?? channelSaid(point) ?? 'open',
    channel === undefined ? '' : named(channel.module.module.part),
    title === undefined || title instanceof Missing ? '' : title,
    wire ?? '',
    wrong.get(point) ?? foundOf(point, channel),
  ];
}

const foundOf = (point: Point, channel: LaidChannel | undefined): string => {
  if (channel !== undefined) return 'suits';
  return channelSaid(point) === undefined ? 'no channel yet' : 'it is not known what stands there';
};

/** The parts of a kind that the catalogues have. */
export type Offered = (kind: string) => readonly Part[];

/** Racks, supplies, joints and modules: how many of each part, and what they cost. */
export function partsTable(locations: readonly PlannedLocation[], offered: Offered): Table {
  const counts = new Map<string, number>();
  const add = (part: Value<string>): void => void counts.set(named(part), (counts.get(named(part)) ?? 0) + 1);
  for (const { racks } of locations)
    for (const { rack, beside, modules } of racks) {
      add(rack.part);
      for (const each of beside)
        if (each.beside.what === 'supply' || each.beside.what === 'extender') add(each.beside.part);
      for (const { module } of modules) add(module.part);
      for (const { module } of modules) for (const each of module.comesWith) add(each);
    }
  const byName = new Map(rackKinds.flatMap(({ kind }) => offered(kind)).map((part) => [part.name, part]));
  const rows = [...counts].map(([name, count]) => {
    const part = byName.get(name);
    const n = counted('racks', count, `count.${name}`);
    const path = `parts.${name}.cost`;
    const cost = part?.cost ?? missing(path, 'absent', 'a cost', '120');
    const one =
      part === undefined || cost instanceof Missing ? cost : rebase(cost, path, [], { ...part, condition: undefined });
    const all = given({ n, c: one }, (known) => costOfParts(known, name));
    return { name, title: part?.title ?? '', n, one, all };
  });
  const c: readonly Value<Quantity<'cost'>>[] = rows.map(({ all }) => all);
  return {
    name: 'parts',
    title: 'Parts list of the racks',
    note: 'in the currency of the catalogue; the controller and the stations are parts of the network and not among them',
    columns: ['part', 'what it is', 'count', 'cost of one', 'cost'],
    rows: [
      ...rows.map(({ name, title, n, one, all }): readonly Cell[] => [
        name,
        title instanceof Missing ? '' : title,
        n,
        one,
        all,
      ]),
      ...(rows.length === 0 ? [] : [['together', '', '', '', given({ c }, (known) => costOfAll(known, 'all'))]]),
    ],
  };
}
