// The limits that a profile states: stations, length of a link and of all cable, attenuation, hops, payload, collisions.
import { question } from '../../checks/finding.ts';
import { plural } from '../../problems/wording.ts';
import type { Value } from '../../reading/values.ts';
import { given, isAbsent, Missing } from '../../working/missing.ts';
import type { Quantity } from '../../working/quantity.ts';
import {
  collisionRoundTrip,
  largestPayload,
  linkLength,
  longestLink,
  payloadCapacity,
  weakestLink,
} from '../calc/limits.ts';
import { commandForAll } from '../calc/streams.ts';
import { stationData } from '../calc/summation.ts';
import { counted } from '../kernel.ts';
import { type Link, linksOf } from '../links.ts';
import { type Device, type Network, stationsOf } from '../network.ts';
import type { Planned } from '../planned.ts';
import { cableDelays } from '../ways.ts';

type Networks = readonly Planned[];

const about = {
  subjects: (networks: Networks) => networks.map((planned) => planned.network),
  name: (network: Network) => network.name,
};
const asStated = { share: 0, source: 'judgement', because: 'a stated limit is taken as it is' } as const;

/** Asked only where the profile states the limit. */
const where = (limit: (network: Network) => unknown) => (networks: Networks) =>
  about.subjects(networks).filter((network) => !isAbsent(limit(network)));

export const stations = question<Networks, Network>({
  ...about,
  id: 'networks.stations',
  title: 'Stations',
  asks: 'Does the profile allow so many stations?',
  page: `Demand: the stations that answer, axes included; hubs, switches and couplings do not count. Capacity: the most
stations that the profile states.`,
  advice: 'a second network, or another profile',
  path: (network) => `${network.path}.runs`,
  reserve: asStated,
  demand: (network) => given({ wired: network.wired }, () => counted(stationsOf(network).length, network, 'stations')),
  capacity: (network) => network.profile.stations_at_most,
  says: (demand, capacity) => `${demand} of ${plural(capacity, 'station')} ${demand === '1' ? 'is' : 'are'} taken`,
});

/** The link with the largest of a value, among those whose value is known. */
function largest(network: Network, value: (link: Link) => Value<Quantity>): Link | undefined {
  const links = linksOf(network).filter((link) => !(value(link) instanceof Missing));
  return links.reduce<Link | undefined>(
    (most, link) =>
      most === undefined || (value(link) as Quantity).value > (value(most) as Quantity).value ? link : most,
    undefined,
  );
}

const ends = (link: Link | undefined): string =>
  link === undefined ? 'a link' : `the link from ${link.from} to ${link.to}`;

export const spacing = question<Networks, Network>({
  ...about,
  id: 'networks.spacing',
  title: 'Longest link',
  asks: 'Is no link longer than the profile allows?',
  page: `A link is the cable between two devices that pass the signal on; couplings between do not end it. Demand: the longest
link. Capacity: the longest link that the profile states.`,
  advice: 'a hub, switch or station in between, or a shorter way',
  path: (network) => `${network.path}.runs`,
  reserve: asStated,
  demand: (network) =>
    given({ l: linksOf(network).map((link) => link.length), wired: network.wired }, ({ l }) =>
      longestLink({ l }, network.name),
    ),
  capacity: (network) => network.profile.spacing_at_most,
  says: (demand, capacity, network) =>
    `${ends(largest(network, (link) => link.length))} is ${demand} long, ${capacity} are allowed`,
});

export const attenuation = question<Networks, Network>({
  ...about,
  id: 'networks.attenuation',
  title: 'Attenuation',
  asks: 'Does every link leave enough of the signal?',
  page: `Demand: the link that takes most from the signal: the length of each of its cables times what the cable takes for
each metre, and what its couplings take. Capacity: the most that a link may take, as the profile states it.

Stranded wires for moving runs take about half as much again as solid ones (common practice, no source): 90 m of solid and
10 m of stranded cable are as good as 70 m of stranded cable alone. Temperature, bending and age are left out.`,
  advice: 'solid wires where nothing moves, a shorter way, a hub between',
  path: (network) => `${network.path}.runs`,
  reserve: asStated,
  demand: (network) =>
    given({ k: linksOf(network).map((link) => link.attenuation), wired: network.wired }, ({ k }) =>
      weakestLink({ k }, network.name),
    ),
  capacity: (network) => network.profile.attenuation_at_most,
  says: (demand, capacity, network) =>
    `${ends(largest(network, (link) => link.attenuation))} takes ${demand}, ${capacity} are allowed`,
});

export const length = question<Networks, Network>({
  ...about,
  id: 'networks.length',
  title: 'All cable',
  asks: 'Is the cable of the network together not longer than the profile allows?',
  page: `Asked where the profile states a limit for all cable together. Demand: the sum of all runs. Capacity: the limit.`,
  advice: 'shorter ways, a second network, or another profile',
  subjects: where((network) => network.profile.length_at_most),
  path: (network) => `${network.path}.runs`,
  reserve: asStated,
  demand: (network) =>
    given({ l: network.runs.map((run) => run.length), wired: network.wired }, ({ l }) =>
      linkLength({ l }, network.name),
    ),
  capacity: (network) => network.profile.length_at_most,
  says: (demand, capacity) => `${demand} of cable, ${capacity} are allowed`,
});

const hopsTo = (device: Device): number =>
  Math.max(
    ...[device.way, device.otherWay ?? device.way].map(
      (way) => way.passed.filter((each) => each.kind !== 'coupling').length,
    ),
  );

export const hops = question<Networks, Network>({
  ...about,
  id: 'networks.hops',
  title: 'Hops',
  asks: 'Does no frame pass more devices than the profile allows?',
  page: `Asked where the profile states a limit. Demand: the devices that a frame passes on its way to the farthest station;
on a ring, the longer way round. Capacity: the limit.`,
  advice: 'a hub or switch from which several short lines start',
  subjects: where((network) => network.profile.hops_at_most),
  path: (network) => `${network.path}.runs`,
  reserve: asStated,
  demand: (network) =>
    given({ wired: network.wired }, () => counted(Math.max(...network.devices.map(hopsTo)), network, 'hops')),
  capacity: (network) => network.profile.hops_at_most,
  says: (demand, capacity) =>
    `the farthest station is behind ${plural(demand, 'device')}, ${capacity} ${capacity === '1' ? 'is' : 'are'} allowed`,
});

export const frame = question<Networks, Network>({
  ...about,
  id: 'networks.frame',
  title: 'Largest payload',
  asks: 'Does every payload fit into a frame?',
  page: `Demand: the largest payload that goes into one frame: of a command or an answer; of both together for the summation
discipline; of all commands together for the chained discipline. Capacity: the longest frame less its overhead.`,
  advice: 'a smaller payload, or the data in turns over several cycles',
  path: (network) => `${network.path}.profile`,
  reserve: asStated,
  demand: (network) =>
    given({ P: payloadsOf(network), wired: network.wired }, ({ P }) => largestPayload({ P }, network.name)),
  capacity: ({ profile, name }) =>
    given({ M: profile.frame_at_most, h: profile.overhead }, (known) => payloadCapacity(known, name)),
  says: (demand, capacity) => `the largest payload is ${demand}, a frame carries ${capacity}`,
});

function payloadsOf(network: Network): readonly Value<Quantity<'bit'>>[] {
  const all = stationsOf(network);
  const { discipline } = network.profile;
  if (discipline === 'summation') {
    return all.map((device) =>
      given({ P: device.command, Q: device.answer }, (known) => stationData(known, `${network.name}.${device.name}`)),
    );
  }
  const single = all.flatMap((device) => [device.command, device.answer]);
  if (discipline !== 'chained') return single;
  return [...single, given({ P: all.map((device) => device.command) }, (known) => commandForAll(known, network.name))];
}

export const collisions = question<Networks, Network>({
  ...about,
  id: 'networks.collisions',
  title: 'Collision window',
  asks: 'Is a collision noticed in time, however far apart the two stations are?',
  page: `Asked only where the profile resolves collisions; a profile in which nobody speaks unasked has none. Demand: the
round trip to the farthest station: what two stations add, what every repeater adds, and twice the propagation. Capacity:
the window that the profile states.`,
  advice: 'shorter cables, fewer hubs in a row, or another profile',
  subjects: where((network) => network.profile.collision_window),
  path: (network) => `${network.path}.runs`,
  reserve: asStated,
  demand: (network) => {
    const cables = cableDelays(network);
    const trips = network.devices.map((device) =>
      given(
        {
          d: network.profile.collision_delay,
          h: device.way.passed.filter((each) => each.kind === 'hub').map((each) => each.collisionDelay),
          c: device.way.runs.map((run) => cables.get(run)!),
          R: network.profile.rate,
        },
        (known) => collisionRoundTrip(known, `${network.name}.${device.name}`),
      ),
    );
    return given({ P: trips, wired: network.wired }, ({ P }) =>
      P.reduce((most, each) => (each.value > most.value ? each : most)),
    );
  },
  capacity: (network) => network.profile.collision_window,
  says: (demand, capacity) => `a collision is noticed after ${demand}, within ${capacity} it must be`,
});
