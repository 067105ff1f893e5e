// Every discipline on every topology that the demonstration profiles allow: the closed forms against the walk.
import { readFileSync } from 'node:fs';
import { demonstration } from '@layshaft/catalogue';
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../tests/support/seeded.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import type { Part } from '../reading/parts.ts';
import { Quantity } from '../working/quantity.ts';
import { known, q } from '../working/testing.support.ts';
import { repeatsWithReserve } from './calc/cycle.ts';
import { balance, loadsOf, patternOf } from './calc/phases.ts';
import { type WalkDevice, type Walked, type WalkNetwork, walk } from './cycle-walk.support.ts';
import type { Network } from './network.ts';
import { type Planned, plan } from './planned.ts';

const catalogue = demonstration();
const profiles = [...catalogue.parts.values()].filter((part) => part.kind === 'profile');
const words = (value: unknown): readonly string[] => value as readonly string[];
const bits = (part: Part, key: string): number => (part.values[key] as Quantity).value;

const pairs = profiles.flatMap((profile) =>
  words(profile.values.topologies).map((topology) => ({ profile, topology })),
);
const perPair = 200;

interface Case {
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

const differs = (seconds: number, picoseconds: number): boolean => Math.abs(seconds * 1e12 - picoseconds) > 1;

const results = pairs.map(({ profile, topology }, pair) => ({
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

describe(`closed forms and walk, ${perPair} seeded networks for each of ${pairs.length} pairs of profile and topology`, () => {
  it.each(results)('cycle walked frame by frame agrees within a picosecond: $name', ({ cases, topology }) => {
    expect(cases.length).toBe(perPair);
    for (const { seed, planned, walked } of cases) {
      expect(planned.network.topology, `seed ${seed}`).toBe(topology);
      if (differs(known(planned.used), walked.used_ps))
        expect(known(planned.used) * 1e12, `seed ${seed}`).toBe(walked.used_ps);
      if (differs(known(planned.syncShift), walked.commandsIn_ps))
        expect(known(planned.syncShift) * 1e12, `seed ${seed}`).toBe(walked.commandsIn_ps);
      expect(walked.conflicts, `seed ${seed}: frames that wait`).toBe(0);
    }
  });

  it('cycle walked exchange by exchange, and the split adds up to the cycle', () => {
    for (const { cases } of results) {
      for (const { seed, planned } of cases) {
        const sum = planned.shares.reduce((total, { time }) => total + known(time), 0);
        expect(differs(sum, 1e11), `seed ${seed}`).toBe(false);
      }
    }
  });

  it('arrival walked hop by hop agrees within a picosecond', () => {
    for (const { cases, topology } of results.filter((each) => each.topology !== 'ring')) {
      for (const { seed, planned, walked } of cases) {
        for (const { device, there, answered } of planned.exchanges) {
          expect(
            differs(known(there), walked.there_ps.get(device.name)!),
            `${topology}, seed ${seed}, ${device.name}`,
          ).toBe(false);
          expect(
            differs(known(answered), walked.answered_ps.get(device.name)!),
            `${topology}, seed ${seed}, ${device.name}`,
          ).toBe(false);
        }
      }
    }
  });

  it('one repeat more does not fit, and those that fit do', () => {
    for (const { cases } of results) {
      for (const { seed, planned } of cases.slice(0, 40)) {
        const [fit, reserved, free, longest] = [
          known(planned.repeatsThatFit),
          known(planned.network.repeats),
          known(planned.free),
          Math.max(...planned.repeatable.map(known)),
        ];
        expect((fit - reserved) * longest, `seed ${seed}`).toBeLessThanOrEqual(free + 1e-12);
        expect((fit - reserved + 1) * longest, `seed ${seed}`).toBeGreaterThan(free - 1e-12);
        const { network, used, repeatable } = planned;
        const share = q(0.2, '1');
        const given = { n: network.repeats, q: share, T: network.cycle, u: used, x: repeatable };
        const kept = repeatsWithReserve(given as Parameters<typeof repeatsWithReserve>[0], 'n').value;
        const left = free - 0.2 * known(network.cycle);
        expect((kept - reserved) * longest, `seed ${seed}`).toBeLessThanOrEqual(left + 1e-12);
        expect((kept - reserved + 1) * longest, `seed ${seed}`).toBeGreaterThan(left - 1e-12);
      }
    }
  });

  /** How many cases a changed closed form is told apart in. */
  const found = (change: (planned: Planned) => number): number =>
    results.flatMap(({ cases }) => cases).filter(({ planned, walked }) => differs(change(planned), walked.used_ps))
      .length;
  const replanned = (change: (network: Network) => Network) =>
    found(({ network }) => known(plan(change(network)).used));
  const less = (value: unknown, by: number): never => {
    const quantity = value as Quantity;
    return new Quantity(quantity.value - by, quantity.unit, quantity.by, quantity.inputs, quantity.about) as never;
  };

  it('a hop that is missed is found', () => {
    const missed = replanned((network) => {
      const devices = network.devices.map((device) => ({
        ...device,
        way: { ...device.way, passed: device.way.passed.slice(1) },
      }));
      return { ...network, topology: 'line', devices };
    });
    expect(missed).toBeGreaterThan(100);
  });
  it('a gap that is missed is found', () =>
    expect(
      replanned((network) => ({ ...network, profile: { ...network.profile, gap: less(network.profile.gap, 96) } })),
    ).toBeGreaterThan(1000));
  it('a tag that is missed is found', () =>
    expect(
      replanned((network) => ({
        ...network,
        profile: { ...network.profile, overhead: less(network.profile.overhead, 32) },
      })),
    ).toBeGreaterThan(1000));
  it('a repeat at the length of the last exchange is found', () => {
    const wrong = found(
      (planned) =>
        known(planned.used) -
        known(planned.repeats) +
        known(planned.network.repeats) * known(planned.repeatable.at(-1)!),
    );
    expect(wrong).toBeGreaterThan(300);
  });
  it('phases that are not balanced are found', () => {
    const unbalanced = results
      .flatMap(({ cases }) => cases)
      .filter(
        ({ planned, made, walked }) =>
          made.closing_ps === undefined &&
          planned.pattern > 1 &&
          differs(
            walk(made.network, new Map(planned.exchanges.map(({ device }) => [device.name, 0]))).used_ps * 1e-12,
            walked.used_ps,
          ),
      );
    expect(unbalanced.length).toBeGreaterThan(100);
  });

  it('the walk imports nothing', () => {
    const text = readFileSync(new URL('./cycle-walk.support.ts', import.meta.url), 'utf8');
    expect(text.match(/^\s*(import|export .* from)\b/gm)).toBeNull();
    expect('import x from "y"'.match(/^\s*(import|export .* from)\b/gm)).not.toBeNull();
  });
});

describe('phases', () => {
  /** Every choice of phases, one after another. */
  function bestOfAll(loads: readonly number[], multiples: readonly number[]): number {
    const pattern = patternOf(multiples);
    let best = Number.POSITIVE_INFINITY;
    const total = multiples.reduce((product, each) => product * each, 1);
    for (let choice = 0; choice < total; choice++) {
      let rest = choice;
      const phases = multiples.map((each) => {
        const phase = rest % each;
        rest = Math.floor(rest / each);
        return phase;
      });
      best = Math.min(best, Math.max(...loadsOf(loads, multiples, phases, pattern)));
    }
    return best;
  }

  it('leave the fullest cycle as empty as the best of all choices, on 400 small sets', () => {
    for (let seed = 1; seed <= 400; seed++) {
      const random = seeded(seed);
      const multiples = Array.from({ length: 2 + Math.floor(random() * 6) }, () => 1 + Math.floor(random() * 4));
      const loads = multiples.map(() => (random() < 0.4 ? 10 : 1 + Math.floor(random() * 30)));
      const fullest = Math.max(...loadsOf(loads, multiples, balance(loads, multiples), patternOf(multiples)));
      expect(fullest, `seed ${seed}`).toBe(bestOfAll(loads, multiples));
    }
  });
});
