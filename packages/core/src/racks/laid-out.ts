// Racks with everything at its place: places numbered, channels numbered, points on their channels.
import { given, isOpen, Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { Beside, ChannelGroup, Location, Module, Point, Rack } from './rack.ts';
import { whyNot } from './suits.ts';

export interface LaidChannel {
  readonly module: LaidModule;
  /** Through all groups of the module, from 1. */
  readonly number: number;
  readonly group: ChannelGroup;
  /** Which of the groups of its module, from 0. */
  readonly groupAt: number;
  /** `main.3.7` */
  readonly label: string;
  /** More than one is an error of the file. */
  readonly points: readonly Point[];
}

export interface LaidModule {
  readonly module: Module;
  readonly rack: LaidRack;
  /** The first of its places; nothing where what stands before it does not say how many it takes. */
  readonly place: number | undefined;
  /** `main.3` */
  readonly label: string;
  /** None where its part is not known. */
  readonly channels: readonly LaidChannel[];
}

export interface LaidRack {
  readonly rack: Rack;
  readonly label: string;
  /** In the order of their places. */
  readonly beside: readonly { readonly beside: Beside; readonly place: number | undefined }[];
  readonly modules: readonly LaidModule[];
}

export interface LaidLocation {
  readonly location: Location;
  readonly racks: readonly LaidRack[];
  /** Points on a channel that suits them, one on each. */
  readonly placed: readonly { readonly point: Point; readonly channel: LaidChannel }[];
  /** Points of which no channel is said. */
  readonly unplaced: readonly Point[];
  /** Points whose channel is not there, taken, or does not suit, in words. */
  readonly wrong: readonly { readonly point: Point; readonly why: string }[];
  /** What has to be known before it can be said which channels some of the points sit on. */
  readonly unsettled: readonly Missing[];
}

/** `all` are the points of the machine: some that shall be together may be elsewhere. */
export function layOut(location: Location, all: readonly Point[] = location.points): LaidLocation {
  const seats = new Map<string, Point[]>();
  for (const point of location.points) {
    const { channel } = point;
    if (channel instanceof Missing) continue;
    const name = `${channel.rack}.${channel.place}.${channel.channel}`;
    const there = seats.get(name);
    if (there === undefined) seats.set(name, [point]);
    else there.push(point);
  }
  const racks = location.racks instanceof Missing ? [] : location.racks.map((rack, at) => layRack(rack, at + 1, seats));
  const channels = racks.flatMap(({ modules }) => modules.flatMap((module) => module.channels));
  const on = new Map(channels.flatMap((channel) => channel.points.map((point) => [point, channel] as const)));
  const at = new Map(location.points.map((point) => [point, on.get(point)]));
  const unsettled = new Map([...at].flatMap(([point, channel]) => lackOf(point, channel, location, racks)));
  const wrong = location.points.flatMap((point) => {
    const why = unsettled.has(point) ? undefined : whyWrong(point, at.get(point), location);
    return why === undefined ? [] : [{ point, why }];
  });
  const bad = new Set(wrong.map(({ point }) => point));
  return {
    location,
    racks,
    placed: [...at].flatMap(([point, channel]) =>
      channel === undefined || bad.has(point) ? [] : [{ point, channel }],
    ),
    unplaced: location.points.filter(({ channel }) => channel instanceof Missing),
    wrong: [...wrong, ...torn(at, bad, all)],
    unsettled: [...unsettled.values()],
  };
}

/** What is not known of the rack that a point says it sits in, where its channel is not found. */
function lackOf(
  point: Point,
  channel: LaidChannel | undefined,
  { name }: Location,
  racks: readonly LaidRack[],
): readonly (readonly [Point, Missing])[] {
  if (channel !== undefined || point.channel instanceof Missing || point.channel.location !== name) return [];
  const rack = racks[point.channel.rack - 1]?.rack;
  if (rack === undefined) return [];
  const { beside, modules } = rack;
  const asked = modules instanceof Missing ? modules : modules.map(({ places, groups }) => [places, groups]);
  const known = given({ asked, before: beside.filter(isBefore).map(({ places }) => places) }, () => undefined);
  return known === undefined ? [] : [[point, known]];
}

/** The points on a channel, by rack, place and channel. */
type Seats = ReadonlyMap<string, readonly Point[]>;

function layRack(rack: Rack, number: number, seats: Seats): LaidRack {
  let next: number | undefined = 1;
  const take = (places: Quantity<'1'> | Missing): number | undefined => {
    const place = next;
    next = next === undefined || places instanceof Missing ? undefined : next + places.value;
    return place;
  };
  const laid: { -readonly [K in keyof LaidRack]: LaidRack[K] } = {
    rack,
    label: rack.label,
    beside: rack.beside.filter(isBefore).map((each) => ({ beside: each, place: take(each.places) })),
    modules: [],
  };
  const modules = rack.modules instanceof Missing ? [] : rack.modules;
  laid.modules = modules.map((module) => layModule(module, laid, take(module.places), { number, seats }));
  const joints = rack.beside.filter((each) => !isBefore(each));
  laid.beside = [...laid.beside, ...joints.map((each) => ({ beside: each, place: lastPlace(rack, each, next) }))];
  return laid;
}

/** Whether it stands before the modules. */
const isBefore = ({ what }: Beside): boolean => what !== 'extender';

/** A joint stands in the last places of its rack, so that no module moves when racks are joined; behind the modules where these leave it no room. */
function lastPlace({ places }: Rack, joint: Beside, next: number | undefined): number | undefined {
  if (places instanceof Missing || joint.places instanceof Missing || next === undefined) return undefined;
  return Math.max(places.value - joint.places.value + 1, next);
}

function layModule(
  module: Module,
  rack: LaidRack,
  place: number | undefined,
  { number, seats }: { readonly number: number; readonly seats: Seats },
): LaidModule {
  const label = `${rack.label}.${place ?? '?'}`;
  const laid: { -readonly [K in keyof LaidModule]: LaidModule[K] } = { module, rack, place, label, channels: [] };
  let from = 0;
  laid.channels = (module.groups instanceof Missing ? [] : module.groups).flatMap((group, groupAt) => {
    const count = group.count instanceof Missing ? 0 : group.count.value;
    const channels = Array.from({ length: count }, (_, at): LaidChannel => {
      const channel = from + at + 1;
      const points = seats.get(`${number}.${place}.${channel}`) ?? [];
      return { module: laid, number: channel, group, groupAt, label: `${label}.${channel}`, points };
    });
    from += count;
    return channels;
  });
  return laid;
}

function whyWrong(point: Point, channel: LaidChannel | undefined, location: Location): string | undefined {
  if (point.channel instanceof Missing || location.racks instanceof Missing) return undefined;
  if (point.channel.location !== location.name)
    return `${point.name} is at ${location.name} and on a channel of ${point.channel.location}`;
  const label = channelSaid(point);
  if (channel === undefined) return `there is no channel ${label} for ${point.name}`;
  const others = channel.points.filter((each) => each !== point);
  if (others.length > 0) return `${[point, ...others].map(({ name }) => name).join(' and ')} share ${label}`;
  const why = whyNot(point, channel.group);
  return why === undefined ? undefined : `${point.name} does not suit ${label}: ${why}`;
}

/** Points that shall be together and are not, shall be apart and are not, or mix potentials in one group of channels. */
function torn(
  at: ReadonlyMap<Point, LaidChannel | undefined>,
  bad: ReadonlySet<Point>,
  all: readonly Point[],
): LaidLocation['wrong'] {
  const wrong: { readonly point: Point; readonly why: string }[] = [];
  const first = new Map<string, { point: Point; channel: LaidChannel }>();
  const onModule = new Map<LaidModule, Map<string, Point>>();
  const potentials = new Map<string, Point>();
  for (const [point, channel] of at) {
    if (channel === undefined || bad.has(point)) continue;
    const [together, apart] = [nameOf(point.together), nameOf(point.apart)];
    const potential = nameOf(point.potential) ?? '';
    if (together !== undefined) {
      const other = first.get(together);
      if (other === undefined) first.set(together, { point, channel });
      else if (other.channel.module !== channel.module)
        wrong.push({ point, why: `${other.point.name} and ${point.name} shall be together and sit on two modules` });
      const far = all.find((each) => nameOf(each.together) === together && each.location !== point.location);
      if (other === undefined && far !== undefined)
        wrong.push({ point, why: `${point.name} and ${far.name}, which is at ${far.location}, shall be together` });
    }
    if (apart !== undefined) {
      const names = onModule.get(channel.module) ?? new Map<string, Point>();
      const other = names.get(apart);
      if (other !== undefined)
        wrong.push({ point, why: `${other.name} and ${point.name} shall be apart and sit on one module` });
      onModule.set(channel.module, names.set(apart, other ?? point));
    }
    const group = `${channel.module.label} ${channel.groupAt}`;
    const other = potentials.get(group);
    if (other === undefined) potentials.set(group, point);
    else if ((nameOf(other.potential) ?? '') !== potential)
      wrong.push({
        point,
        why: `${other.name} and ${point.name} have different potentials and share a group of channels`,
      });
  }
  return wrong;
}

/** The channel that a point says it sits on, as it is written; nothing where it says none. */
export const channelSaid = ({ channel }: Point): string | undefined =>
  channel instanceof Missing || channel.at.node.kind !== 'leaf' ? undefined : channel.at.node.text;

/** The name that a point gives where it may give one. */
export const nameOf = (value: Point['together']): string | undefined =>
  value === undefined || value instanceof Missing ? undefined : value.name;

/** Whether more racks or modules may be put in at a location. */
export const mayGrow = ({ section }: Location): boolean =>
  section === undefined ||
  section.open ||
  [section.rack.part, section.power.part, section.modules, section.added, section.further].some(isOpen);
