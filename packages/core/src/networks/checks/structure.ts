// What a network must be, answered by yes or no: its topology, its addresses, its plugs, its port of the controller.
import { question } from '../../checks/finding.ts';
import { plural } from '../../problems/wording.ts';
import { given, Missing } from '../../working/missing.ts';
import { print } from '../../working/working.ts';
import { laying } from '../laying.ts';
import { type Network, stationsOf } from '../network.ts';
import type { Planned } from '../planned.ts';

type Networks = readonly Planned[];

const about = {
  subjects: (networks: Networks) => networks.map((planned) => planned.network),
  name: (network: Network) => network.name,
};

export const topology = question<Networks, Network>({
  ...about,
  id: 'networks.topology',
  title: 'Topology',
  asks: 'Does the profile allow the runs to be laid like this, and what passes the frames on?',
  page: `The shape is told by the runs: a ring comes back to the controller; a line never branches; in a star every station
hangs on one hub or switch; all else is a tree. Holds when the profile lists the shape, and when it lists every kind of
device that passes frames on beside the stations: a hub cannot serve a profile in which both directions speak at once, a
switch that stores frames cannot serve one that counts on every bit being passed on.`,
  advice: 'runs or devices that the answer names, or another profile',
  path: (network) => `${network.path}.runs`,
  answer: laying,
});

export const addresses = question<Networks, Network>({
  ...about,
  id: 'networks.addresses',
  title: 'Addresses',
  asks: 'Has every station an address of its own that the profile allows?',
  page: `Addresses that the file gives must lie in the profile's range, must not be taken by the network itself, and must differ.
Stations without one are numbered by the network; there must be free addresses enough for them.`,
  advice: 'an address for each station alone, or a second network',
  path: (network) => `${network.path}.profile.addresses`,
  answer: (network) => {
    const { from, to, taken_by_the_network } = network.profile.addresses;
    return given({ from, to, taken: taken_by_the_network, wired: network.wired }, ({ from, to, taken }) => {
      const stations = stationsOf(network);
      const kept = taken.map((each) => each.value);
      const owners = new Map<number, string>();
      for (const { name, address } of stations) {
        if (address instanceof Missing) continue;
        const other = owners.get(address.value);
        if (other !== undefined)
          return { yes: false, because: `${other} and ${name} both have address ${print(address)}` };
        if (kept.includes(address.value))
          return { yes: false, because: `${name} has address ${print(address)}, which the network keeps for itself` };
        if (address.value < from.value || address.value > to.value)
          return {
            yes: false,
            because: `${name} has address ${print(address)}; ${print(from)} to ${print(to)} are allowed`,
          };
        owners.set(address.value, name);
      }
      const room = to.value - from.value + 1 - kept.filter((each) => each >= from.value && each <= to.value).length;
      const yes = stations.length <= room;
      return {
        yes,
        because: yes
          ? `${plural(stations.length, 'station')}, ${room} ${room === 1 ? 'address' : 'addresses'}`
          : `${plural(stations.length, 'station')} need an address each, there ${room === 1 ? 'is' : 'are'} ${room}`,
      };
    });
  },
});

export const plugs = question<Networks, Network>({
  ...about,
  id: 'networks.plugs',
  title: 'Plugs',
  asks: 'Has every device as many plugs as runs lead to it?',
  page: `Counts the runs at every station, hub, switch and coupling against the plugs that its part states.`,
  advice: 'a hub or switch with more plugs, a run that starts elsewhere',
  path: (network) => `${network.path}.runs`,
  answer: (network) =>
    given({ plugs: network.devices.map((device) => device.plugs), wired: network.wired }, ({ plugs }) => {
      const short = network.devices.filter((device, index) => device.plugged > plugs[index]!.value);
      const because = short
        .map(
          (device) =>
            `${device.name} has ${plural(device.plugged, 'run')} and ${plural(print(plugs[network.devices.indexOf(device)]!), 'plug')}`,
        )
        .join('; ');
      return { yes: short.length === 0, because: because || 'every run has its plug' };
    }),
});

interface Port {
  readonly name: string;
  readonly networks: readonly Network[];
}

export const port = question<Networks, Port>({
  id: 'networks.port',
  title: 'Port',
  asks: 'Has the controller the port, and has the network it for itself?',
  page: `Each network needs a port of the controller for itself. Two disciplines cannot share one: each of them owns the line
for the whole cycle, and a station of the one would take the frames of the other for noise. Two networks of one profile on
one port are one network with the stations of both; it has one cycle, and must be written as one.`,
  advice: 'another port, a larger controller, or one network for all',
  subjects: (networks) => {
    const ports = new Map<string, Network[]>();
    for (const { network } of networks) {
      const name = network.port instanceof Missing ? network.name : `port_${network.port.value}`;
      ports.set(name, [...(ports.get(name) ?? []), network]);
    }
    return [...ports].map(([name, sharing]) => ({ name, networks: sharing }));
  },
  name: ({ name }) => name,
  path: ({ networks }) => `${networks[0]!.path}.port`,
  answer: ({ networks }) =>
    given({ ports: networks[0]!.controller.ports, port: networks[0]!.port }, (known) => {
      const names = networks.map(({ name }) => name).join(' and ');
      if (known.port.value > known.ports.value)
        return {
          yes: false,
          because: `${names}: the controller has ${plural(print(known.ports), 'port')} for networks, port ${print(known.port)} is asked for`,
        };
      if (networks.length === 1) return { yes: true, because: `${names} has port ${print(known.port)} for itself` };
      const profiles = new Set(networks.map(({ profile }) => (typeof profile.part === 'string' ? profile.part : '')));
      const free =
        known.ports.value >= networks.length
          ? 'give one of them another port'
          : `the controller has ${plural(print(known.ports), 'port')}: take a larger one`;
      return profiles.size > 1
        ? {
            yes: false,
            because: `${names} follow different rules (${[...profiles].join(', ')}) on one port: ${free}, or put all stations under one profile`,
          }
        : {
            yes: false,
            because: `${names} share port ${print(known.port)} and follow the same rules: write them as one network with one cycle, or ${free}`,
          };
    }),
});
