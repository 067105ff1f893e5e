// The section `networks` of a machine file, and what must be true of its runs before anything is computed.

import type { Read } from '../reading/field.ts';
import { group, list, optional, row, section } from '../reading/groups.ts';
import { type PartUse, partUse } from '../reading/parts.ts';
import type { Reading } from '../reading/reading.ts';
import type { Node } from '../reading/tree.ts';
import { count, type Named, name, quantity, type Value, word } from '../reading/values.ts';
import { nearest } from '../units/nearest.ts';
import { Missing } from '../working/missing.ts';
import { longestPattern, patternOf } from './calc/phases.ts';
import { countersField, noiseField } from './noise-fields.ts';
import {
  cableFields,
  cableKind,
  couplingKind,
  hubKind,
  nodeFields,
  profileFields,
  profileKind,
  stationKind,
  type stationUse,
  switchKind,
} from './parts.ts';

/** The name that the controller has in runs; no station may take it. */
export const controllerName = 'controller';

const end = (which: string) =>
  name({ about: `The station at which the run ${which}.`, due: 'a station', example: 'infeed' });

const runField = row(
  {
    from: end('starts, seen from the controller'),
    to: end('ends'),
    length: quantity('m', { about: 'The length of the cable.', least: 0, example: '1.5 m' }),
    cable: partUse([cableKind], cableFields, { about: 'The cable of the run.', example: 'solid' }),
  },
  { about: 'One cable: from, to, length, cable.', example: '[hub, infeed, 1.5 m, solid]' },
);

export const networksField = group(
  section(
    {
      port: count({ about: 'The port of the controller that the network is on.', least: 1, example: '1' }),
      profile: partUse([profileKind], profileFields, { about: 'The rules of the network.', example: 'polled_100' }),
      cycle: quantity('s', { about: 'The period in which every station is served.', above: 0, example: '500 µs' }),
      repeats: count({ about: 'Re-polls reserved in each cycle, shared by all stations.', least: 0, example: '2' }),
      non_cyclic: quantity('bit', {
        about: 'The frame that the non-cyclic window has room for, from destination address to check sequence.',
        least: 0,
        example: '512 octets',
      }),
      clock: optional(
        word(['shared', 'own'], {
          about:
            'Whether its cycles keep step with tasks and other networks, or go by a clock of their own; shared unless said.',
        }),
      ),
      offset: optional(
        quantity('s', {
          about:
            'When its cycles start on the clock that networks and tasks share; with those of the others unless said.',
          least: 0,
          example: '250 µs',
        }),
      ),
      start_jitter: optional(
        quantity('s', { about: 'By how much a cycle may start late.', least: 0, example: '5 µs' }),
      ),
      sync_event: optional(
        quantity('s', {
          about: 'From the start of the cycle until all stations take over their set values together.',
          above: 0,
          example: '250 µs',
        }),
      ),
      runs: list(runField, { about: 'The cables, from the controller outwards.', nameOf: runName }),
      nodes: group(
        partUse([stationKind, hubKind, switchKind, couplingKind], nodeFields, {
          about: 'What is on the network beside the axes.',
          example: 'hub_6',
        }),
        {
          about: 'What is on the network beside the axes, by name.',
          reserved: { [controllerName]: 'the controller has it' },
        },
      ),
      noise: noiseField,
      counters: countersField,
    },
    { about: 'A network.' },
  ),
  { about: 'Real-time networks, by name.' },
);

export type NodeUse = PartUse<typeof nodeFields>;
export type NetworkSection = Read<typeof networksField>[number];
export type RunSection = Exclude<Read<typeof runField>, Missing>;

/** `hub_infeed` for a run from hub to infeed: how runs are addressed. */
function runName(node: Node): string | undefined {
  const [from, to] = node.kind === 'list' ? node.items : [];
  return from?.kind === 'leaf' && to?.kind === 'leaf' && from.text && to.text ? `${from.text}_${to.text}` : undefined;
}

/** A run that can be read, with the names of both ends; `index` is its place in the list of runs. */
export interface Wire {
  readonly index: number;
  readonly run: RunSection;
  readonly from: string;
  readonly to: string;
}

/** A network's runs seen from the controller: for each station the chain of wires that leads to it. */
export interface Wiring {
  /** In the order in which the controller reaches them. */
  readonly stations: readonly string[];
  readonly wireTo: ReadonlyMap<string, { readonly wire: Wire; readonly before: string }>;
  /** All wires that lead somewhere, the one that closes a ring included. */
  readonly wires: readonly Wire[];
  /** The run by which a ring comes back to the controller. */
  readonly closing: Wire | undefined;
  /** Whether every run was read and leads somewhere; without that nothing is known of the network as a whole. */
  readonly whole: boolean;
}

type Followed = Omit<Wiring, 'whole'>;

/** Reports stations whose multiples of the cycle meet too seldom, at the one with which it becomes too much. */
export function compareMultiples(
  wiring: Wiring,
  uses: ReadonlyMap<string, PartUse<typeof stationUse>>,
  reading: Reading,
): void {
  let pattern = 1;
  for (const station of wiring.stations) {
    const use = uses.get(station);
    if (use?.every === undefined || use.every instanceof Missing) continue;
    const before = pattern;
    pattern = patternOf([pattern, use.every.value]);
    const at = reading.places.get(`${use.path}.every`);
    if (before > longestPattern || pattern <= longestPattern || at === undefined) continue;
    reading.problem(at, 'value', {
      code: 'multiples-apart',
      message: `with this multiple the stations repeat their order after ${pattern} cycles; at most ${longestPattern} are planned`,
      remedy: 'Take multiples that meet sooner, such as 2, 4 and 8 cycles.',
    });
  }
}

/**
 * Follows the runs from the controller. Reports names that do not exist, loops, and stations that no run reaches. What
 * may follow from a run that has a problem is not reported beside it.
 */
export function follow(network: NetworkSection, axes: readonly string[], reading: Reading): Wiring {
  const nodes = network.nodes.map((node) => node.name);
  const names: Names = {
    known: new Set([controllerName, ...nodes, ...axes]),
    refused: (name) => [`axes.${name}`, `${network.path}.nodes.${name}`].some((path) => reading.places.has(path)),
    reported: new Set(),
  };
  const runs = network.runs instanceof Missing ? [] : network.runs;
  const wires = once(
    runs.flatMap((run, index) => wireOf(run, index, names, reading)),
    reading,
  );
  const broken = reading.places.get(network.path)?.section.parsed.broken === true;
  const wired = new Set(wires.flatMap((wire) => [wire.from, wire.to]));
  const read = wires.length === runs.length && !broken;
  const apart = read ? network.nodes.filter((node) => !wired.has(node.name)) : [];
  for (const node of apart) reportNotWired(node.path, node.name, network, reading);
  const sound = read && apart.length === 0;
  for (const row of rowsOnRuns(network)) reportNoRun(row, wires, read, reading);
  const followed = followRing(wires) ?? followTree(wires, sound ? reading : undefined);
  return { ...followed, whole: sound && followed.wires.length === wires.length };
}

/** Two ends by which a run is named elsewhere. */
export interface Ends {
  readonly from: Value<Named>;
  readonly to: Value<Named>;
}

/** The run between two stations, whichever of them it was written from. */
export const wireBetween = (wires: readonly Wire[], a: string, b: string): Wire | undefined =>
  wires.find(({ from, to }) => (from === a && to === b) || (from === b && to === a));

/** What noise and counters say of runs. */
function rowsOnRuns({ noise, counters }: NetworkSection): readonly Ends[] {
  const lists: readonly (readonly (Ends | Missing)[] | Missing | undefined)[] = [
    noise?.runs,
    noise?.two_state?.hits,
    ...(noise?.bursts ?? []).map(({ hits }) => hits),
    counters?.ports,
    counters?.intervals,
  ];
  return lists.flatMap((rows) =>
    rows === undefined || rows instanceof Missing
      ? []
      : rows.flatMap((row): readonly Ends[] => (row instanceof Missing ? [] : [row])),
  );
}

/** A run that has a problem of its own may be the one that is meant. */
function reportNoRun({ from, to }: Ends, wires: readonly Wire[], read: boolean, reading: Reading): void {
  if (!read || from instanceof Missing || to instanceof Missing) return;
  if (wireBetween(wires, from.name, to.name) !== undefined) return;
  const ends = [...new Set(wires.flatMap((wire) => [wire.from, wire.to]))];
  const strange = [from, to].find(({ name }) => !ends.includes(name));
  const near = strange && nearest(strange.name, ends);
  reading.problem((strange ?? to).at, 'value', {
    code: 'name-unknown',
    message: `no run joins '${from.name}' and '${to.name}'`,
    remedy: near === undefined ? 'Name the two ends of a run that the list of runs has.' : `Did you mean '${near}'?`,
    instead: near,
  });
}

/** The names of stations, while the runs are read. */
interface Names {
  readonly known: ReadonlySet<string>;
  /** Whether the name is given, and what is wrong with it is reported there. */
  readonly refused: (name: string) => boolean;
  /** Unknown names that are reported already. */
  readonly reported: Set<string>;
}

/** A ring: two runs at the controller, two at every station, and one way round through all of them. */
function followRing(wires: readonly Wire[]): Followed | undefined {
  const left = new Set(wires);
  const wireTo = new Map<string, { wire: Wire; before: string }>();
  let station = controllerName;
  for (;;) {
    const fitting = [...left].filter((wire) => wire.from === station || wire.to === station);
    if (fitting.length !== (station === controllerName && wireTo.size === 0 ? 2 : 1)) return undefined;
    const wire = fitting[0]!;
    left.delete(wire);
    const next = wire.from === station ? wire.to : wire.from;
    if (next === controllerName)
      return left.size === 0 ? { stations: [...wireTo.keys()], wireTo, wires, closing: wire } : undefined;
    if (wireTo.has(next)) return undefined;
    wireTo.set(next, { wire, before: station });
    station = next;
  }
}

/** Without a reading, only what follows from other problems could be reported. */
function followTree(wires: readonly Wire[], reading: Reading | undefined): Followed {
  const at = new Map<string, Wire[]>();
  for (const wire of wires) for (const end of [wire.from, wire.to]) at.set(end, [...(at.get(end) ?? []), wire]);
  const wireTo = new Map<string, { wire: Wire; before: string }>();
  const left = new Set(wires);
  const front = [controllerName];
  for (const station of front) {
    for (const wire of at.get(station) ?? []) {
      if (!left.delete(wire)) continue;
      const next = wire.from === station ? wire.to : wire.from;
      if (next === controllerName || wireTo.has(next)) {
        if (reading !== undefined) reportLoop(wire, next, reading);
      } else {
        wireTo.set(next, { wire, before: station });
        front.push(next);
      }
    }
  }
  if (reading !== undefined) for (const wire of firstOfEachPiece(left)) reportApart(wire, reading);
  const wired = new Set([...wireTo.values()].map(({ wire }) => wire));
  return { stations: [...wireTo.keys()], wireTo, wires: wires.filter((wire) => wired.has(wire)), closing: undefined };
}

/** Of wires that hang together without the controller, the one that stands first. */
function firstOfEachPiece(wires: ReadonlySet<Wire>): readonly Wire[] {
  const reached = new Set<string>();
  return [...wires].filter((first) => {
    if (reached.has(first.from)) return false;
    const piece = new Set([first.from, first.to]);
    for (let size = 0; size < piece.size; ) {
      size = piece.size;
      for (const { from, to } of wires) if (piece.has(from) || piece.has(to)) piece.add(from).add(to);
    }
    for (const station of piece) reached.add(station);
    return true;
  });
}

/** The wires without those that stand in the list a second time, or whose address another one has. */
function once(wires: readonly Wire[], reading: Reading): readonly Wire[] {
  const first = new Map<string, Wire>();
  for (const wire of wires) {
    const name = `${wire.from}_${wire.to}`;
    const other = first.get(name);
    if (other === undefined) first.set(name, wire);
    else {
      const same = other.from === wire.from;
      reading.problem((wire.run.from as Named).at, 'value', {
        code: 'run-twice',
        message: same
          ? `a run from '${wire.from}' to '${wire.to}' stands in the list already`
          : `this run and another one would both be called ${name}`,
        remedy: same ? 'Remove one of the two.' : `Give '${wire.from}' or '${wire.to}' another name.`,
        notes: [{ message: 'the other one', place: reading.place((other.run.from as Named).at) }],
      });
    }
  }
  return [...first.values()];
}

function wireOf(run: RunSection | Missing, index: number, names: Names, reading: Reading): readonly Wire[] {
  if (run instanceof Missing || run.from instanceof Missing || run.to instanceof Missing) return [];
  const ends = [run.from, run.to].filter((named) => stationExists(named, names, reading));
  if (ends.length < 2) return [];
  if (run.from.name !== run.to.name) return [{ index, run, from: run.from.name, to: run.to.name }];
  reading.problem(run.to.at, 'value', {
    code: 'run-to-itself',
    message: `the run starts and ends at '${run.to.name}'`,
    remedy: 'Name the station at the other end.',
  });
  return [];
}

function stationExists(named: Named, { known, refused, reported }: Names, reading: Reading): boolean {
  if (known.has(named.name)) return true;
  if (refused(named.name) || reported.has(named.name)) return false;
  reported.add(named.name);
  const near = nearest(named.name, known);
  reading.problem(named.at, 'value', {
    code: 'name-unknown',
    message: `no axis and no node is called '${named.name}'`,
    remedy: near === undefined ? 'Name an axis, a node of this network, or the controller.' : `Did you mean '${near}'?`,
    instead: near,
  });
  return false;
}

function reportLoop(wire: Wire, station: string, reading: Reading): void {
  const at = (wire.run.to as Named).at;
  reading.problem(at, 'value', {
    code: 'runs-closed',
    message: `this run reaches '${station}' a second time`,
    remedy: 'Remove one of the runs that lead there; a ring leads from station to station and back to the controller.',
  });
}

function reportApart(wire: Wire, reading: Reading): void {
  const at = (wire.run.from as Named).at;
  reading.problem(at, 'value', {
    code: 'runs-apart',
    message: `no chain of runs leads from the controller to '${wire.from}' and '${wire.to}'`,
    remedy: `Add a run, such as [controller, ${wire.from}, 2 m, solid].`,
  });
}

function reportNotWired(path: string, station: string, network: NetworkSection, reading: Reading): void {
  const at = reading.places.get(path);
  if (at === undefined || network.runs instanceof Missing) return;
  reading.problem(at, 'key', {
    code: 'station-not-wired',
    message: `no run leads to '${station}'`,
    remedy: `Add a run, such as [controller, ${station}, 2 m, solid].`,
  });
}
