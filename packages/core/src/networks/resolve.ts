// A network of the file with its parts filled in: devices along the runs, and the defaults that are assumed.
import type { Field } from '../reading/field.ts';
import { fill, type Part, type PartLookUp, type PartUse, partName } from '../reading/parts.ts';
import { Reading } from '../reading/reading.ts';
import type { Value } from '../reading/values.ts';
import type { Unit } from '../units/si.ts';
import { assumed } from '../working/assumed.ts';
import { isAbsent, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { SourceId } from '../working/sources.ts';
import { longestPattern, patternOf } from './calc/phases.ts';
import {
  type Controller,
  type Device,
  multipleOf,
  type Network,
  type Passing,
  type Profile,
  type Run,
  type Way,
} from './network.ts';
import {
  cableFields,
  controllerFields,
  controllerKind,
  couplingKind,
  hubKind,
  nodeFields,
  profileFields,
  profileKind,
  type stationUse,
  switchKind,
} from './parts.ts';
import { bitErrorsOf, countersOf, noiseOf } from './resolve-noise.ts';
import type { NetworkSection, NodeUse, RunSection, Wire, Wiring } from './section.ts';
import { topologyOf } from './topology.ts';

export type { Network };

/** What the networks need of an axis. */
export interface Axis {
  readonly name: string;
  readonly drive: PartUse<typeof stationUse>;
  readonly cycle_at_most: Value<Quantity<'s'>>;
  /** In m or rad. */
  readonly tolerance: Value<Quantity> | undefined;
}

/** Fills one network. Stations that no run reaches are left out; the reading has reported them. */
export function resolveNetwork(
  network: NetworkSection,
  wiring: Wiring,
  axes: readonly Axis[],
  controller: Controller,
  partOf: PartLookUp,
): Network {
  const { path } = network;
  const noise = noiseOf(network, wiring.wires);
  const runs = new Map(wiring.wires.map((wire) => [wire, runOf(wire, network, partOf)]));
  const devices = new Map<string, Device>();
  const kindless: Missing[] = [];
  for (const station of wiring.stations) {
    const use = useOf(station, network, axes)!;
    const part = partOf(use.use);
    const filled = fill(use.use, part, nodeFields);
    if (part === undefined && use.axis === undefined && !isAbsent(use.use.part)) kindless.push(kindOf(use.use));
    const kind =
      part?.kind === hubKind.kind || part?.kind === switchKind.kind || part?.kind === couplingKind.kind
        ? part.kind
        : 'station';
    devices.set(station, {
      name: station,
      path: use.use.path,
      kind: kind as Device['kind'],
      axis: use.axis !== undefined,
      cycleAtMost: use.axis === undefined || isAbsent(use.axis.cycle_at_most) ? undefined : use.axis.cycle_at_most,
      passing: kind === 'hub' || kind === 'coupling' ? 'bits' : passingOf(filled.waits),
      ...filled,
      waits:
        filled.waits === 'frame'
          ? missing(`${use.use.path}.waits`, 'absent', 'a data size', '22 octets')
          : filled.waits,
      every: isAbsent(filled.every) ? undefined : filled.every,
      collisionDelay: filled.collision_delay,
      tolerance: use.axis?.tolerance,
      tripAfter: orOfNetwork(filled.trip_after, network.noise?.trip_after),
      missed: orOfNetwork(filled.missed, network.noise?.missed),
      plugged: wiring.wires.filter((wire) => wire.from === station || wire.to === station).length,
      way: wayTo(station, wiring.wireTo, runs, devices),
      otherWay: undefined,
    });
  }
  if (patternOf([...devices.values()].map(multipleOf)) > longestPattern) withoutMultiples(devices);
  if (wiring.closing !== undefined) addOtherWays(wiring, runs, devices);
  return {
    name: network.name,
    path,
    port: network.port,
    profile: { ...fill(network.profile, partOf(network.profile), profileFields), part: partName(network.profile) },
    cycle: network.cycle,
    repeats: orAssume(
      network.repeats,
      2,
      '1',
      `${path}.repeats`,
      'judgement',
      'one loss can be made good, and one more in the same cycle',
    ),
    non_cyclic: orAssume(
      network.non_cyclic,
      4096,
      'bit',
      `${path}.non_cyclic`,
      'judgement',
      'room for one parameter telegram of medium size',
    ),
    clock: network.clock,
    offset: network.offset,
    startJitter: network.start_jitter,
    syncEvent: network.sync_event,
    topology: topologyOf(wiring, [...devices.values()]),
    devices: [...devices.values()],
    runs: [...runs.values()],
    wired: kindless[0] ?? wiredOf(network, wiring, [...devices.values()]),
    noise,
    counters: countersOf(network, wiring.wires),
    controller,
  };
}

export function resolveController(controller: PartUse<typeof controllerFields>, partOf: PartLookUp): Controller {
  return {
    ...fill(controller, partOf(controller), controllerFields),
    part: partName(controller),
    path: controller.path,
  };
}

/** Controllers and profiles of the catalogues, for comparing them side by side; looked up only when asked for. */
export interface Alternatives {
  readonly controllers: () => readonly Controller[];
  readonly profiles: () => readonly Profile[];
  /** Hubs and switches, as devices that nothing is plugged into yet. */
  readonly centres: () => readonly Device[];
}

export function alternativesAmong(ofKind: (kind: string) => readonly Part[]): Alternatives {
  return {
    controllers: () =>
      ofKind(controllerKind.kind).map((part) => ({
        ...fill(bare(part, controllerFields), part, controllerFields),
        part: part.name,
        path: part.path,
      })),
    profiles: () =>
      ofKind(profileKind.kind).map((part) => ({
        ...fill(bare(part, profileFields), part, profileFields),
        part: part.name,
      })),
    centres: () => [...ofKind(hubKind.kind), ...ofKind(switchKind.kind)].map(deviceOf),
  };
}

/** A hub or switch of a catalogue, with nothing plugged in. */
function deviceOf(part: Part): Device {
  const filled = fill(bare(part, nodeFields), part, nodeFields);
  const hub = part.kind === hubKind.kind;
  return {
    name: part.name,
    path: part.path,
    kind: hub ? 'hub' : 'switch',
    axis: false,
    cycleAtMost: undefined,
    passing: hub ? 'bits' : passingOf(filled.waits),
    ...filled,
    waits:
      filled.waits === 'frame' ? missing(`${part.path}.waits`, 'absent', 'a data size', '22 octets') : filled.waits,
    every: undefined,
    collisionDelay: filled.collision_delay,
    tolerance: undefined,
    tripAfter: filled.trip_after,
    missed: filled.missed,
    plugged: 0,
    way: { runs: [], passed: [] },
    otherWay: undefined,
  };
}

/** The use of a part that adds nothing of its own. */
function bare<F extends Readonly<Record<string, Field<unknown>>>>(part: Part, fields: F): PartUse<F> {
  const reading = new Reading('machine');
  const values = Object.fromEntries(
    Object.entries(fields).map(([key, field]) => [key, field.read(undefined, `${part.path}.${key}`, reading)]),
  );
  const none = missing(part.path, 'absent', 'a part', part.name);
  return {
    ...values,
    path: part.path,
    via: [],
    part: none,
    version: none,
    kinds: [part.kind],
    absent: true,
  } as unknown as PartUse<F>;
}

function useOf(
  station: string,
  network: NetworkSection,
  axes: readonly Axis[],
): { readonly use: NodeUse; readonly axis: Axis | undefined } | undefined {
  const node = network.nodes.find((each) => each.name === station);
  if (node !== undefined) return { use: node, axis: undefined };
  const axis = axes.find((each) => each.name === station);
  // What only hubs and couplings state is absent in a drive.
  return axis && { use: axis.drive as unknown as NodeUse, axis };
}

/** A device that states nothing passes every bit on at once. */
function passingOf(waits: Value<Quantity<'bit'> | 'frame'>): Passing {
  if (waits === 'frame') return 'frame';
  if (waits instanceof Missing) return isAbsent(waits) ? 'bits' : 'start';
  return waits.value === 0 ? 'bits' : 'start';
}

function wayTo(
  station: string,
  wireTo: Wiring['wireTo'],
  runs: ReadonlyMap<Wire, Run>,
  devices: ReadonlyMap<string, Device>,
): Way {
  const { wire, before } = wireTo.get(station)!;
  const last = devices.get(before);
  return {
    runs: [...(last?.way.runs ?? []), runs.get(wire)!],
    passed: last === undefined ? [] : [...last.way.passed, last],
  };
}

/** Multiples that meet too seldom are not planned; the reader has reported them. */
function withoutMultiples(devices: Map<string, Device>): void {
  for (const [name, device] of devices) {
    if (device.every !== undefined)
      devices.set(name, {
        ...device,
        every: missing(`${device.path}.every`, 'problem', 'a number of cycles', '4 cycles'),
      });
  }
}

/** On a ring every station can be reached the other way round as well: from the closing run back. */
function addOtherWays(wiring: Wiring, runs: ReadonlyMap<Wire, Run>, devices: Map<string, Device>): void {
  let way: Way = { runs: [runs.get(wiring.closing!)!], passed: [] };
  for (const station of wiring.stations.toReversed()) {
    const device = devices.get(station)!;
    devices.set(station, { ...device, otherWay: way });
    way = { runs: [...way.runs, device.way.runs.at(-1)!], passed: [...way.passed, device] };
  }
}

/** The run is taken from the list, not from the wire: a varied machine shares the wires of the one it comes from. */
function runOf({ index, from, to }: Wire, network: NetworkSection, partOf: PartLookUp): Run {
  const run = (network.runs as readonly RunSection[])[index]!;
  const name = `${from}_${to}`;
  return {
    name,
    path: `${network.path}.runs.${name}`,
    from,
    to,
    length: run.length,
    ...fill(run.cable, partOf(run.cable), cableFields),
    bitErrors: bitErrorsOf(from, to, network),
  };
}

/** Whether a node answers or only passes on is told by its part: without one that is known, nothing is counted. */
const kindOf = ({ part, path, kinds }: NodeUse): Missing =>
  part instanceof Missing ? part : missing(`${path}.part`, 'problem', `a part of kind ${kinds.join(' or ')}`, 'hub_6');

/** A network is known as a whole when every run is, and when at least one station answers. */
function wiredOf({ runs, path }: NetworkSection, wiring: Wiring, devices: readonly Device[]): Value<true> {
  if (runs instanceof Missing) return runs;
  const example = '[controller, infeed, 2 m, solid]';
  if (!wiring.whole) return missing(`${path}.runs`, 'problem', 'a way from the controller to every station', example);
  return devices.some((device) => device.kind === 'station')
    ? true
    : missing(`${path}.runs`, 'absent', 'a run that leads to a station that answers', example);
}

/** What a station does not say, its network may say for all. */
const orOfNetwork = <T>(own: Value<T>, ofAll: Value<T> | undefined): Value<T> =>
  isAbsent(own) && ofAll !== undefined ? ofAll : own;

/** A default that is used is an assumption, and is listed as one; what is open or unknown stays so. */
function orAssume<U extends Unit>(
  value: Value<Quantity<U>>,
  figure: number,
  unit: U,
  path: string,
  source: SourceId,
  because: string,
): Value<Quantity<U>> {
  if (!isAbsent(value)) return value;
  return assumed(path, figure, unit, { source, because });
}
