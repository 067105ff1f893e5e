// racks.output, racks.outputs, racks.counting, racks.filter: does a channel bear its point, in figures?
import { question } from '../../checks/finding.ts';
import { outputKinds } from '../../physics/point.ts';
import { plural } from '../../problems/wording.ts';
import type { Value } from '../../reading/values.ts';
import { given, Missing, missing } from '../../working/missing.ts';
import type { Origin } from '../../working/origin.ts';
import { isLeaf, Quantity } from '../../working/quantity.ts';
import { currentDrawn } from '../calc/sums.ts';
import type { LaidChannel } from '../laid-out.ts';
import type { PlannedRacks } from '../planned.ts';
import type { ChannelGroup, Point } from '../rack.ts';

/** Points of which the file says the same, a figure by one line of it, on channels that are alike: one finding tells of all of them. */
interface Placed {
  readonly point: Point;
  readonly channel: LaidChannel;
  readonly more: number;
}

/** Points of which the file says a figure, on the channels that it names, whether or not these suit. */
const placedWith =
  (key: 'current' | 'frequency' | 'pulse' | 'fails_to') =>
  ({ locations }: PlannedRacks): readonly Placed[] => {
    const alike = new Map<string, Placed>();
    for (const { racks } of locations)
      for (const { modules } of racks)
        for (const { module, channels } of modules)
          for (const channel of channels)
            for (const point of channel.points) {
              const figure = point[key];
              if (figure === undefined) continue;
              const said = typeof figure === 'string' ? figure : point.path;
              const writtenAt = figure instanceof Quantity && isLeaf(figure) ? figure.by.writtenAt : said;
              const part = module.part instanceof Missing ? module.path : module.part;
              const name = [point.location, part, channel.groupAt, writtenAt, filterAt(point)].join(' ');
              const first = alike.get(name);
              alike.set(name, first === undefined ? { point, channel, more: 0 } : { ...first, more: first.more + 1 });
            }
    return [...alike.values()];
  };

const filterAt = ({ filter }: Point): string => (filter instanceof Quantity ? (filter.by as Origin).writtenAt : '');

const andMore = ({ more }: Placed): string =>
  more === 0 ? '' : `; the same of ${more} more ${more === 1 ? 'point' : 'points'} of that line`;

const stated = <T>(value: Value<T> | undefined, { module }: LaidChannel, what: string, example: string): Value<T> =>
  value ?? missing(`${module.module.path}.channels`, 'absent', what, example);

const common = {
  name: ({ point }: Placed) => point.name,
  path: ({ point }: Placed) => point.path,
};

export const output = question<PlannedRacks, Placed>({
  id: 'racks.output',
  title: 'Output current',
  asks: 'Does the output give the current of its load?',
  page: `Asked of every output on a channel of which \`current\` is said. Demand: the current of the load. Capacity: the current of
one output of the module. Loads that draw more when they are switched on are not asked about: give the larger current.`,
  advice: 'a module with larger outputs, a relay between',
  subjects: placedWith('current'),
  ...common,
  reserve: { share: 0, source: 'judgement', because: 'the module states what its output gives for any length of time' },
  demand: ({ point }) => point.current!,
  capacity: ({ channel }) => stated(channel.group.current, channel, 'the current of an output', '0.5 A'),
  says: (demand, capacity, placed) => `the load takes ${demand}, the output gives ${capacity}${andMore(placed)}`,
});

interface Sharing {
  readonly label: string;
  readonly path: string;
  readonly group: ChannelGroup;
  readonly points: readonly Point[];
}

export const outputs = question<PlannedRacks, Sharing>({
  id: 'racks.outputs',
  title: 'Output group current',
  asks: 'Do outputs that share a supply give the currents of all their loads at once?',
  page: `Asked of every group of channels that states \`current_sum\` and has points with a \`current\`. Demand: the currents of all
its loads, as if all were on at once. Capacity: what the group gives together. A point whose current is not said makes it unknown.`,
  advice: 'loads on several modules, a module that gives more',
  subjects: ({ locations }) =>
    locations.flatMap(({ racks }) => racks.flatMap(({ modules }) => modules.flatMap(groupsOf))),
  name: ({ label }) => label,
  path: ({ path }) => path,
  reserve: { share: 0, source: 'judgement', because: 'all loads at once is the worst already' },
  demand: ({ label, points }) =>
    given(
      {
        i: points.map(
          ({ current, path }): Value<Quantity<'A'>> =>
            current ?? missing(`${path}.current`, 'absent', 'a current', '0.5 A'),
        ),
      },
      ({ i }) => currentDrawn({ i }, label),
    ),
  capacity: ({ group }) => group.current_sum!,
  says: (demand, capacity) => `all loads take ${demand} together, the group gives ${capacity}`,
});

const isLoad = ({ kind }: Point): boolean => outputKinds.some((each) => each === kind);

function groupsOf({
  module,
  label,
  channels,
}: {
  module: { path: string; groups: unknown };
  label: string;
  channels: readonly LaidChannel[];
}): readonly Sharing[] {
  const groups = [...new Set(channels.map(({ group }) => group))];
  return groups.flatMap((group, at) => {
    const points = channels.flatMap((channel) => (channel.group === group ? channel.points.filter(isLoad) : []));
    const asked = group.current_sum !== undefined && points.some(({ current }) => current !== undefined);
    return asked
      ? [{ label: groups.length > 1 ? `${label}.group_${at + 1}` : label, path: module.path, group, points }]
      : [];
  });
}

export const counting = question<PlannedRacks, Placed>({
  id: 'racks.counting',
  title: 'Counted frequency',
  asks: 'Does the channel follow the highest frequency?',
  page: `Asked of every point on a channel of which \`frequency\` is said. Demand: the highest frequency that comes in. Capacity: the
highest that the channel counts.`,
  advice: 'a faster counter, fewer steps of the encoder',
  subjects: placedWith('frequency'),
  ...common,
  reserve: { share: 0.2, source: 'common-practice', because: 'edges are never quite even' },
  demand: ({ point }) => point.frequency!,
  capacity: ({ channel }) => stated(channel.group.frequency, channel, 'the highest frequency', '100 kHz'),
  says: (demand, capacity, placed) => `${demand} come in, the channel counts ${capacity}${andMore(placed)}`,
});

export const filter = question<PlannedRacks, Placed>({
  id: 'racks.filter',
  title: 'Filter of an input',
  asks: 'Is the signal there for longer than the filter of its input?',
  page: `Asked of every point on a channel of which \`pulse\` is said, or \`pulse_every\` where a task counts its pulses. Demand: the filter of the input: that of the point, where the
file says one, else the module's. Capacity: the shortest time that the signal is there or away, as \`pulse\` says or as it follows from \`pulse_every\`,
\`pulse_on\` and the speed. What the filter costs in a chain,
\`timing.chain\` tells.`,
  advice: 'a shorter filter, a longer signal, a fast input',
  subjects: placedWith('pulse'),
  ...common,
  reserve: {
    share: 0.2,
    source: 'judgement',
    because: 'a signal bounces at its edges, which the filter waits out as well',
  },
  demand: ({ point, channel }) =>
    point.filter ?? stated(channel.group.filter, channel, 'the filter of an input', '3 ms'),
  capacity: ({ point }) => point.pulse!,
  says: (demand, capacity, placed) =>
    `the filter waits ${demand}, the signal is there for ${capacity}${andMore(placed)}`,
});

export const failsTo = question<PlannedRacks, Placed>({
  id: 'racks.fails_to',
  title: 'Output on failure',
  asks: 'Does the output do what it shall when the controller is gone?',
  page: `Asked of every output on a channel of which \`fails_to\` is said: off, hold or on. The module states what its outputs can do
when no more data come. Without power every output is off, whatever it can do here, and a fault of the module may leave it on:
nothing that must stop a machine may rest on it.`,
  advice: 'a module whose outputs can do it',
  subjects: (racks) => placedWith('fails_to')(racks).filter(({ point }) => isLoad(point)),
  ...common,
  answer: ({ point, channel, more }) => {
    const can = stated(
      channel.group.fails_to,
      channel,
      'what its outputs do when the controller is gone',
      '[off, hold]',
    );
    return given({ wanted: point.fails_to, can }, ({ wanted, can }) => ({
      yes: can.some((each) => each === wanted),
      because: `it shall go to ${wanted}, and its module states ${can.join(', ')}${more === 0 ? '' : `; the same of ${plural(more, 'point')} more`}`,
    }));
  },
});
