// Seeded networks of every discipline on every topology that the demonstration profiles allow, planned and walked: what
// tests hold against each other.
import { demonstration } from '@layshaft/catalogue';
import { read, resolve } from '@layshaft/core';
import { seeded } from '../../../../tests/support/seeded.ts';
import type { Part } from '../reading/parts.ts';
import { Quantity } from '../working/quantity.ts';
import { type WalkDevice, type Walked, type WalkNetwork, walk } from './cycle-walk.support.ts';
import { type Planned, plan } from './planned.ts';

const catalogue = demonstration();
const profiles = [...catalogue.parts.values()].filter((part) => part.kind === 'profile');
const words = (value: unknown): readonly string[] => value as readonly string[];
const bits = (part: Part, key: string): number => (part.values[key] as Quantity).value;

/** Every profile of the demonstration catalogue with every topology that it allows. */
export const pairs = profiles.flatMap((profile) =>
  words(profile.values.topologies).map((topology) => ({ profile, topology })),
);

export interface Case {
  readonly text: string;
  readonly network: WalkNetwork;
  /** On a ring: the cable that closes it. */
  readonly closing_ps: number | undefined;
}

/** A seeded network of a profile, as a machine file and as what the walk takes. */
function caseOf(profile: Part, topology: string, seed: number): Case {
  const random = seeded(seed);
  const whole = (least: number, most: number): number => least + Math.floor(random() * (most - least + 1));
  const pick = <T>(from: readonly T[]): T => from[whole(0, from.length - 1)]!;
  const passers = words(profile.values.passes);
  const devices: WalkDevice[] = [];
  const add = (parent: number, kind: WalkDevice['kind'], waits: WalkDevice['waits'] = 0): number => {
    const station = kind === 'station';
    devices.push({
      name: `d${devices.length}`,
      parent,
      kind,
      cable_ps: whole(1, 80) * 5000,
      forwarding_ps: kind === 'coupling' ? 0 : whole(0, 900) * 1000,
      waits,
      turnaround_ps: station ? whole(100, 9000) * 1000 : 0,
      command_octets: station ? whole(0, 90) : 0,
      answer_octets: station ? (random() < 0.05 ? whole(400, 700) : whole(1, 90)) : 0,
      every: station && random() < 0.25 ? whole(2, 4) : 1,
    });
    return devices.length - 1;
  };
  const passer = (parent: number): number => {
    const kind = pick(passers);
    return kind === 'hub'
      ? add(parent, 'hub')
      : add(parent, 'switch', kind === 'branch' ? 0 : kind === 'start' ? whole(1, 40) : 'frame');
  };
  const count = whole(1, 14);
  if (topology === 'line' || topology === 'ring') {
    let end = -1;
    for (let station = 0; station < count; station++) {
      if (topology === 'line' && random() < 0.1) end = add(end, 'coupling');
      end = add(end, 'station');
    }
  } else {
    const centre = passer(-1);
    const inner = [centre];
    if (topology === 'tree') for (let more = whole(1, 2); more > 0; more--) inner.push(passer(pick(inner)));
    const ends = inner.filter((index) => index === centre || topology === 'tree');
    for (const index of inner) add(index, 'station');
    for (let station = 1; station < count; station++) {
      const parent = pick(ends);
      const added = add(parent, 'station');
      if (topology === 'tree') ends.push(added);
    }
    if (topology === 'star') add(centre, 'station');
    // A tree that happens to be a star or a line is made one by a second station behind the first.
    if (topology === 'tree')
      add(
        devices.findIndex((device) => device.kind === 'station'),
        'station',
      );
  }
  const network: WalkNetwork = {
    discipline: profile.values.discipline as WalkNetwork['discipline'],
    shared: profile.values.line === 'shared',
    octet_ps: (8 * 1e12) / bits(profile, 'rate'),
    preamble: bits(profile, 'preamble') / 8,
    gap: bits(profile, 'gap') / 8,
    least: bits(profile, 'frame_at_least') / 8,
    most: bits(profile, 'frame_at_most') / 8,
    overhead: bits(profile, 'overhead') / 8,
    start: bits(profile, 'start_frame') / 8,
    opens: bits(profile, 'window_opens') / 8,
    closes: bits(profile, 'window_closes') / 8,
    chainGap_ps: profile.values.answer_gap instanceof Quantity ? profile.values.answer_gap.value * 1e12 : 0,
    repeats: whole(0, 4),
    nonCyclic: whole(64, 1500),
    devices,
  };
  const closing_ps = topology === 'ring' ? whole(1, 80) * 5000 : undefined;
  return { text: textOf(profile.name, network, closing_ps), network, closing_ps };
}

function textOf(profile: string, { devices, repeats, nonCyclic }: WalkNetwork, closing_ps: number | undefined): string {
  const parts = {
    hub: () => 'hub_12',
    coupling: () => 'bulkhead',
    station: () => '',
    switch: (waits: unknown) => (waits === 'frame' ? 'switch_8' : 'switch_quick_8'),
  };
  const node = (device: WalkDevice): string => {
    const forwarding = device.kind === 'coupling' ? '' : `forwarding: ${device.forwarding_ps / 1000} ns, `;
    const waits =
      device.kind === 'hub' || device.kind === 'coupling'
        ? ''
        : `waits: ${device.waits === 'frame' ? 'frame' : `${device.waits} octets`}, `;
    if (device.kind !== 'station')
      return `{ part: ${parts[device.kind](device.waits)}, ${forwarding}${waits}plugs: 20 }`;
    return `{ ${forwarding}${waits}turnaround: ${device.turnaround_ps / 1000} ns, command: ${device.command_octets} octets, answer: ${device.answer_octets} octets, plugs: 20${device.every > 1 ? `, every: ${device.every} cycles` : ''} }`;
  };
  const run = (from: string, to: string, cable_ps: number): string =>
    `      - [${from}, ${to}, ${cable_ps / 5000} m, { delay: 5 ns/m, attenuation: 0.2 dB/m }]`;
  const nameOf = (index: number): string => (index < 0 ? 'controller' : devices[index]!.name);
  return [
    'layshaft: 1',
    'controller: controller_l',
    'networks:',
    '  n:',
    `    port: 1`,
    `    profile: ${profile}`,
    '    cycle: 100 ms',
    `    repeats: ${repeats}`,
    `    non_cyclic: ${nonCyclic} octets`,
    '    nodes:',
    ...devices.map((device) => `      ${device.name}: ${node(device)}`),
    '    runs:',
    ...devices.map((device) => run(nameOf(device.parent), device.name, device.cable_ps)),
    ...(closing_ps === undefined ? [] : [run(devices.at(-1)!.name, 'controller', closing_ps)]),
    '',
  ].join('\n');
}

/** A ring with a break after so many runs: the stations beyond it are reached the other way round. */
function broken({ network, closing_ps = 0 }: Case, at: number): WalkNetwork {
  const last = network.devices.length - 1;
  const devices = network.devices.map((device, index) =>
    index < at
      ? device
      : {
          ...device,
          parent: index === last ? -1 : index + 1,
          cable_ps: index === last ? closing_ps : network.devices[index + 1]!.cable_ps,
        },
  );
  return { ...network, devices };
}

const planOf = (text: string, seed: number): Planned => {
  const design = resolve(read(text), [catalogue]);
  if (design.problems.length > 0) throw new Error(`seed ${seed}: ${design.problems[0]!.message}\n${text}`);
  return plan(design.networks[0]!);
};

const phasesOf = (planned: Planned): ReadonlyMap<string, number> =>
  new Map(planned.exchanges.map(({ device }, index) => [device.name, planned.phases[index]!]));

/** More than a picosecond apart. */
export const differs = (seconds: number, picoseconds: number): boolean => Math.abs(seconds * 1e12 - picoseconds) > 1;

/** So many networks for each pair, with their plans and walks; of a ring, a walk with every break. */
export const casesOf = (perPair: number) =>
  pairs.map(({ profile, topology }, pair) => ({
    name: `${profile.name} as a ${topology}`,
    topology,
    cases: Array.from({ length: perPair }, (_, index) => {
      const seed = 100_000 * (pair + 1) + index;
      const made = caseOf(profile, topology, seed);
      const planned = planOf(made.text, seed);
      const phases = phasesOf(planned);
      const breaks =
        made.closing_ps === undefined
          ? []
          : Array.from({ length: made.network.devices.length + 1 }, (_, at) => walk(broken(made, at), phases));
      return {
        seed,
        made,
        planned,
        walked: made.closing_ps === undefined ? walk(made.network, phases) : worst(breaks),
        breaks,
      };
    }),
  }));

/** The walk with the break that needs most; the last command as late as with any break. */
function worst(all: readonly Walked[]): Walked {
  const fullest = all.reduce((most, each) => (each.used_ps > most.used_ps ? each : most));
  return { ...fullest, commandsIn_ps: Math.max(...all.map((each) => each.commandsIn_ps)) };
}
