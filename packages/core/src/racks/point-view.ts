// What `show` tells of one point: where it sits, what it asks of its channel and what the channel states.
import type { Finding } from '../checks/finding.ts';
import { moved } from '../checks/moved-input.ts';
import type { Cell, Table, View } from '../checks/view.ts';
import type { Value } from '../reading/values.ts';
import { Missing } from '../working/missing.ts';
import { isLeaf, Quantity } from '../working/quantity.ts';
import { kindNames } from './kind-names.ts';
import { channelSaid, type LaidChannel } from './laid-out.ts';
import type { PlannedLocation } from './planned.ts';
import type { ChannelGroup, Point, Range } from './rack.ts';
import { named, seatsAt } from './tables.ts';

/** `findings` are those of the machine; the ones about the point are picked. */
export function pointView(location: PlannedLocation, point: Point, findings: readonly Finding[]): View {
  const { channels, wrong } = seatsAt(location);
  const channel = channels.get(point);
  const about = findings.filter(
    ({ path, check, subject }) => path === point.path || (check.startsWith('racks.') && subject === point.name),
  );
  return {
    address: point.path,
    title: `Point ${point.name}`,
    says: result(point, channel, wrong.get(point)),
    inputs: [
      ...moved(`${point.path}.current`, 'Current of its load', point.current),
      ...moved(`${point.path}.frequency`, 'Highest frequency', point.frequency),
      ...moved(`${point.path}.pulse`, 'Shortest signal', follows(point.pulse) ? undefined : point.pulse),
      ...moved(`${point.path}.filter`, 'Filter of its input', point.filter),
      ...moved(`${point.path}.update`, 'Longest time between two looks', point.update),
    ],
    pictures: [],
    tables: [
      suitsTable(point, channel),
      seatTable(point, channel),
      ...(about.length === 0 ? [] : [findingsTable(about)]),
    ],
    later: [],
  };
}

function result(point: Point, channel: LaidChannel | undefined, why: string | undefined): readonly Cell[] {
  const { name, location, kind } = point;
  const said = channelSaid(point);
  const what = kind instanceof Missing ? 'a point whose kind is not known' : kindNames[kind];
  if (why !== undefined) return [`${name}, ${what}: ${why}.`];
  if (channel === undefined && said !== undefined)
    return [`${name}, ${what}, sits on channel ${said}, and it is not known what stands there.`];
  if (channel === undefined) return [`${name}, ${what} at ${location}, has no channel yet.`];
  const module = named(channel.module.module.part);
  return [
    `${name}, ${what}, sits on channel ${channel.label} of ${module === 'described here' ? 'its module' : module}, which suits it.`,
  ];
}

/** Whether it comes of other values, and is none to move. */
const follows = (value: Value<Quantity> | undefined): boolean => value instanceof Quantity && !isLeaf(value);

type Said = Quantity | Missing | string | number | undefined;

/** What the point asks for beside what its channel states; rows of which neither says anything are left out. */
function suitsTable(point: Point, channel: LaidChannel | undefined): Table {
  const group: Partial<ChannelGroup> = channel?.group ?? {};
  const rows: readonly (readonly [string, Said, Said])[] = [
    ['kind', point.kind instanceof Missing ? point.kind : kindNames[point.kind], kindsOf(group.kinds)],
    ['type by IEC 61131-2', point.type, group.type],
    ['takes the current (sink) or gives it (source)', point.level, group.level],
    ['current of one', point.current, group.current],
    ['current of all in the group', undefined, group.current_sum],
    ['range', rangeOf(point.range), rangesOf(group.ranges)],
    ['sensor', point.sensor, wordsOf(group.sensors)],
    ['when the controller is gone', point.fails_to, wordsOf(group.fails_to)],
    ['highest frequency', point.frequency, group.frequency],
    ['shortest signal', point.pulse, undefined],
    ['filter', point.filter, group.filter],
    ['longest time between two looks', point.update, undefined],
    ['terminals of its channel', undefined, group.terminals],
  ];
  return {
    name: 'channel',
    title: 'What the point says, and what its channel states',
    columns: ['what', 'point', 'channel'],
    rows: rows
      .filter(([, own, stated]) => own !== undefined || stated !== undefined)
      .map(([what, own, stated]) => [what, cellOf(own), cellOf(stated)]),
  };
}

const cellOf = (said: Said): Cell => (typeof said === 'number' ? String(said) : (said ?? ''));

const kindsOf = (kinds: ChannelGroup['kinds'] | undefined): Said =>
  kinds === undefined || kinds instanceof Missing
    ? kinds
    : kinds
        .map((kind) => ((kind as unknown) instanceof Missing ? '' : kindNames[kind as keyof typeof kindNames]))
        .join(', ');

const wordsOf = (words: ChannelGroup['sensors'] | ChannelGroup['fails_to']): Said =>
  words === undefined || words instanceof Missing ? words : words.filter((each) => typeof each === 'string').join(', ');

const rangeOf = (range: Point['range']): Said =>
  range === undefined || range instanceof Missing ? range : textOf(range);

const rangesOf = (ranges: ChannelGroup['ranges']): Said =>
  ranges === undefined || ranges instanceof Missing
    ? ranges
    : ranges.flatMap((each) => (each instanceof Missing ? [] : [textOf(each)])).join(', ');

const textOf = ({ from, to }: Range): string => `${endOf(from)} to ${endOf(to)}`;
const endOf = (end: Range['from']): string =>
  end instanceof Missing ? 'unknown' : (end.by as { written: string }).written;

/** Where it sits, and what it belongs to. */
function seatTable(
  { location, together, apart, potential, cabinet, wire, title }: Point,
  channel: LaidChannel | undefined,
): Table {
  const name = (value: Point['together']): Said =>
    value === undefined || value instanceof Missing ? value : value.name;
  const rows: readonly (readonly [string, Said])[] = [
    ['what it is', title],
    ['rack', channel?.module.rack.label ?? location],
    ['module', channel && `${channel.module.label}, ${named(channel.module.module.part)}`],
    ['channel', channel?.number ?? 'open'],
    ['group of channels of the module', channel && channel.groupAt + 1],
    ['on one module with', name(together)],
    ['never on one module with others of', name(apart)],
    ['potential', name(potential)],
    ['cabinet', name(cabinet)],
    ['wire', wire],
  ];
  return {
    name: 'seat',
    title: 'Where it sits',
    columns: ['what', 'value'],
    rows: rows.filter(([, value]) => value !== undefined).map(([what, value]) => [what, cellOf(value)]),
  };
}

const findingsTable = (findings: readonly Finding[]): Table => ({
  name: 'findings',
  title: 'What was found about it',
  columns: ['check', 'verdict', 'margin', 'what it says'],
  rows: findings.map(({ title, verdict, margin, says }) => [title, verdict, margin ?? '', says]),
});
