// networks.trip, networks.burst, networks.pattern, networks.missed: do losses of updates stay bearable for each station?
import type { Answer } from '../../checks/check.ts';
import { question } from '../../checks/finding.ts';
import type { AxisMotions } from '../../physics/axis-motion.ts';
import { plural } from '../../problems/wording.ts';
import type { Value } from '../../reading/values.ts';
import { given, Missing, missing } from '../../working/missing.ts';
import type { Quantity } from '../../working/quantity.ts';
import { print } from '../../working/working.ts';
import type { Device } from '../network.ts';
import { inBursts, longestOf, meetingWith, sourcesOf } from '../noise-bursts.ts';
import { type Losses, lossesOf, type StationLoss } from '../noise-losses.ts';
import { type Missed, missedBy } from '../noise-missed.ts';
import type { Planned } from '../planned.ts';

type Networks = readonly Planned[];

interface Station {
  /** With its network where another network has one of this name. */
  readonly name: string;
  readonly losses: Losses;
  readonly station: StationLoss;
}

function stationsOf(networks: Networks): readonly Station[] {
  const names = networks.flatMap(({ network }) => network.devices.map(({ name }) => name));
  const once = (name: string): boolean => names.indexOf(name) === names.lastIndexOf(name);
  return networks.flatMap((planned) => {
    const losses = lossesOf(planned);
    if (losses === undefined) return [];
    return losses.stations.map((station) => {
      const { name } = station.device;
      return { name: once(name) ? name : `${planned.network.name}.${name}`, losses, station };
    });
  });
}

const about = {
  name: ({ name }: Station) => name,
  path: ({ losses, station }: Station) =>
    station.device.axis ? `axes.${station.device.name}` : `${losses.planned.network.path}.nodes.${station.device.name}`,
};

const asSaid = { share: 0, source: 'judgement', because: 'what the file asks for is taken as it is' } as const;

export const trip = question<Networks, Station>({
  ...about,
  id: 'networks.trip',
  title: 'Trip by random losses',
  asks: 'Does the station run as long as wanted between two trips by random losses?',
  page: `Asked of every station where the noise of its network says \`trip_free\`. Demand: that time. Capacity: the mean
time until as many updates in a row are lost by random bit errors as \`trip_after\` says; where no bit is ever spoilt, or
losses are so rare that no number is as large as that time, the largest number that there is.

A frame is lost when any of its bits, from destination address to check sequence, is spoilt on any of the runs that it
passes. An update is lost when the command or the answer is lost in every try that it gets:

- polled and pipelined: each station has a frame each way; repeats are shared by all stations, the one that failed first
  is repeated first, and the chance that none is left is counted exactly.
- chained: the one command for all is as long as all of them, and its loss on a run costs every station behind that run at
  once; repeats, with a command of their own, are shared, and the chance that none is left is counted exactly.
- summation: a frame passes every run there and back, and is lost for all stations in it; it is repeated as a whole.
- slotted: nothing is repeated.

Where stations are served in some cycles only, each of these cycles is counted with what is served in it.

The frame that opens a cycle costs no data when it is lost: a station goes on by its own clock; \`show\` tells how often
that is. A ring is counted as it is planned, broken where that needs most.

Losses that come in bunches are another matter, and mostly the one that counts: the answer to bursts stands beside this
one as \`networks.burst\` and \`networks.pattern\`. Left out: errors that a check sequence does not find.`,
  advice: 'more losses in a row allowed, a repeat more, a better run',
  subjects: (networks) => stationsOf(networks).filter(({ losses }) => losses.noise.tripFree !== undefined),
  reserve: asSaid,
  demand: ({ losses }) => losses.noise.tripFree!,
  capacity: ({ station }) => station.tripAtLeast,
  says: (demand, capacity, { station }) =>
    `random losses trip it ${
      station.tripAtLeast === station.meanToTrip
        ? `once in ${capacity} in the mean,`
        : `less often in the mean than once in ${capacity}, the longest time that can be told;`
    } ${demand} are wanted; bursts are asked for apart`,
});

export const burst = question<Networks, Station>({
  ...about,
  id: 'networks.burst',
  title: 'Burst bridged',
  asks: 'Does the station live through the longest burst that gets onto its way?',
  page: `Asked of every station that a source of bursts under \`noise\` gets at. Demand: the longest of these bursts.
Capacity: (m − 1)·T − L, and 0 where that is below 0, with m the losses in a row that trip, T the period of the station's updates, and L the time from
the first bit of its exchange to the last. A burst counts as if it spoilt all it meets, from its first pulse to its last:
the phase between burst and cycle is nobody's choice, and pulses are mostly closer than a test generator's.

A shorter cycle with the same m bridges a shorter burst. Repeats within the cycle lie in the same burst, and other stations
use them up; they are not counted on.`,
  advice: 'more losses in a row allowed, a suppressor, cables apart',
  subjects: (networks) =>
    stationsOf(networks).filter(({ losses, station }) => longestOf(station, losses) !== undefined),
  reserve: { share: 0.1, source: 'judgement', because: 'no burst is as long as the one before' },
  demand: ({ losses, station }) => longestOf(station, losses)!,
  capacity: ({ station }) => station.bridged,
  says: (demand, capacity, { station: { bridged } }) =>
    !(bridged instanceof Missing) && bridged.value === 0
      ? `a burst lasts ${demand}, and any burst trips the station: it bridges ${capacity}`
      : `a burst lasts ${demand}, the station bridges less than ${capacity}`,
});

export const pattern = question<Networks, Station>({
  ...about,
  id: 'networks.pattern',
  title: 'Pulses without a pause',
  asks: 'Do pulses that never pause, and pulses that were recorded, leave the station enough updates?',
  page: `Asked of every station that an endless source or a recording gets at: no burst is long enough to ask
\`networks.burst\` of. The pulses are laid over the frames of the station at every phase between the two, and the most
updates in a row with a pulse on command or answer are held against the losses in a row that trip. Where cycle and pulses
stay in step for ever, a phase that meets one update meets them all: then the answer is no, for clocks do drift into it.`,
  advice: 'more losses in a row allowed, a better screen, another cycle',
  subjects: (networks) =>
    stationsOf(networks).filter(({ losses, station }) => sourcesOf(station, losses).some((each) => !inBursts(each))),
  answer: ({ losses, station }) => patternAnswer(losses, station),
});

function patternAnswer(losses: Losses, station: StationLoss): Value<Answer> {
  const rows = sourcesOf(station, losses)
    .filter((source) => !inBursts(source))
    .map((source) => meetingWith(source, station, losses));
  const lack = rows.map(({ inARow }) => inARow).find((each) => each instanceof Missing);
  if (lack !== undefined) return lack as Missing;
  const worst = rows.reduce((most, each) => (inRow(each.inARow) > inRow(most.inARow) ? each : most));
  return given({ m: station.device.tripAfter }, ({ m }) => {
    const most = inRow(worst.inARow);
    const yes = most < m.value;
    const cost =
      most === 0 ? 'no update' : Number.isFinite(most) ? `${plural(most, 'update')} in a row` : 'every update';
    return {
      yes,
      because: `${worst.source.name} can cost ${cost}; ${print(m)} in a row trip`,
    };
  });
}

const inRow = (value: Value<Quantity<'1'>>): number => (value instanceof Missing ? 0 : value.value);

/** A tolerance in the unit in which the axis moves. */
const toleranceAs = (error: Value<Quantity>, { name, tolerance }: Device): Value<Quantity> =>
  given({ error, tolerance: tolerance! }, (known) =>
    known.tolerance.unit === known.error.unit
      ? known.tolerance
      : missing(
          `axes.${name}.tolerance`,
          'problem',
          known.error.unit === 'm' ? 'a length, for the axis moves along' : 'an angle, for the axis turns',
          known.error.unit === 'm' ? '0.05 mm' : '0.05°',
        ),
  );

/** What networks ask with the motions of axes at hand. */
export interface NetworksWithMotions {
  readonly networks: Networks;
  readonly motions: AxisMotions;
}

interface MissedStation extends Station {
  readonly missed: Missed;
}

export const missed = question<NetworksWithMotions, MissedStation>({
  ...about,
  id: 'networks.missed',
  title: 'Missed updates',
  asks: 'Does the axis stay within its tolerance while as many updates are missing as do not trip it?',
  page: `Asked of every axis with a \`tolerance\` whose network says something of noise. Demand: how far the tool is from
where it should be after (m − 1) updates have been missed, at its highest speed and highest acceleration: a drive that
holds its set position lacks v·t + a·t²/2, one that extrapolates at the speed that it had lacks a·t²/2. Capacity: the
tolerance.

Speed and acceleration are the highest of the motion, and need not come together. An axis that runs on without updates can
hurt somebody: how long it may is for the risk assessment, local codes and licensed practice. Left out: the following error, which is
there all the time, and what the drive does when the next update comes in.`,
  advice: 'a drive that extrapolates, an earlier trip, a shorter cycle',
  subjects: ({ networks, motions }) =>
    stationsOf(networks).flatMap((each) => {
      if (each.station.device.tolerance === undefined) return [];
      const found = missedBy(each.station, each.losses, motions);
      return found === undefined ? [] : [{ ...each, missed: found }];
    }),
  reserve: asSaid,
  demand: ({ missed: { error } }) => error,
  capacity: ({ station, missed: { error } }) => toleranceAs(error, station.device),
  says: (demand, capacity) => `missed updates put it off by up to ${demand}, ${capacity} are tolerated`,
});
