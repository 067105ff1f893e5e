// What `show` tells of a network, of a station and of a run.
import type { Cell, Table, View } from '../checks/view.ts';
import { given, Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { oneRepeat, repeatsWithReserve, shareOfCycle, shortestCycle } from './calc/cycle.ts';
import { skew } from './calc/path.ts';
import { capacityTables, type Surroundings } from './capacity-tables.ts';
import { cycleStrip } from './cycle-strip.ts';
import { inputsOfNetwork, inputsOfStation } from './inputs.ts';
import { linksOf } from './links.ts';
import { type Device, multipleOf } from './network.ts';
import type { Planned } from './planned.ts';
import { shiftNeeded } from './sync-event.ts';
import type { Exchange } from './ways.ts';
import { wiringMap } from './wiring-map.ts';

const partNames = {
  start: 'start-of-cycle frame',
  commands: 'commands on the line',
  answers: 'answers on the line',
  waiting: 'turnarounds, ways there and back',
  exchanges: 'exchanges, both directions at once',
  repeats: 'repeats kept in hand',
  non_cyclic: 'non-cyclic window',
  free: 'free',
} as const;

/** The network as a whole. */
export function networkView(planned: Planned, around: Surroundings): View {
  const { network } = planned;
  return {
    address: network.path,
    title: `Network ${network.name}, a ${network.topology}`,
    says: result(planned),
    inputs: inputsOfNetwork(network),
    pictures: [cycleStrip(planned, around.reserve), wiringMap(planned)],
    tables: [splitTable(planned), roomTable(planned, around), waysTable(planned)],
    later: capacityTables(network, around),
  };
}

/** The result of all networks in a few words: the fullest one counts. */
export function networkGist(networks: readonly Planned[]): readonly Cell[] {
  const shares = networks.flatMap(({ network, used }) => {
    const share = given({ t: used, T: network.cycle }, (known) => shareOfCycle(known, `${network.name}.used`));
    return share instanceof Missing ? [] : [share];
  });
  const fullest = shares.reduce<Quantity | undefined>(
    (most, each) => (most && most.value >= each.value ? most : each),
    undefined,
  );
  return fullest === undefined ? ['how full is not known'] : [fullest, ' spoken for'];
}

/** The result of the network in one sentence. */
function result({ network, used, free }: Planned): readonly Cell[] {
  const { name, cycle, repeats } = network;
  if (used instanceof Missing) return ['What one cycle needs is not known yet.'];
  if (cycle instanceof Missing) return ['One cycle needs ', used, '; how long it is has not been said.'];
  const share = shareOfCycle({ t: used, T: cycle }, `${name}.used`);
  const kept =
    repeats instanceof Missing ? [] : [' with ', repeats, ` repeat${repeats.value === 1 ? '' : 's'} kept in hand`];
  if (free instanceof Missing || free.value >= 0) {
    const left = free instanceof Missing ? [] : [', and ', free, ' stay free'];
    return ['One cycle is ', cycle, '; ', share, ' of it is spoken for', ...kept, ...left, '.'];
  }
  return ['One cycle is ', cycle, '; what it must hold takes ', used, ', which is ', share, ' of it.'];
}

function splitTable({ network, shares, fullest, pattern }: Planned): Table {
  const which = pattern === 1 ? 'Every cycle' : `The fullest cycle, number ${fullest + 1} of ${pattern}`;
  return {
    name: 'split',
    title: `${which}, and what it is made of`,
    columns: ['part', 'time', 'share'],
    rows: shares.map(({ name, time }) => [
      partNames[name],
      time,
      given({ t: time, T: network.cycle }, (known) => shareOfCycle(known, `${network.name}.${name}`)),
    ]),
  };
}

function roomTable(planned: Planned, { reserve }: Surroundings): Table {
  const { network, used, repeatable, syncShift, repeats, brokenAfter, exchanges } = planned;
  const { name, cycle, wired } = network;
  const q = reserve instanceof Missing ? undefined : reserve;
  const reached = largestLast(exchanges, ({ there }) => there);
  const [first, last] = [reached[0], reached.at(-1)];
  const longest = largestLast(exchanges, ({ turn }) => turn).at(-1);
  const rows: (readonly Cell[] | undefined)[] = [
    ['a cycle needs', used],
    q && ['shortest cycle that keeps the reserve', given({ u: used, q }, (known) => shortestCycle(known, name))],
    longest && [`longest exchange, with ${longest.device.name}`, longest.turn],
    ['repeats kept in hand', network.repeats],
    ['room for them', repeats],
    ['one repeat more costs', given({ x: repeatable, wired }, ({ x }) => oneRepeat({ x }, name))],
    ['repeats that fit at all', planned.repeatsThatFit],
    q && [
      'repeats that fit with the reserve kept',
      given({ n: network.repeats, q, T: cycle, u: used, x: repeatable }, (known) => repeatsWithReserve(known, name)),
    ],
    ['all commands are there, earliest sync event', syncShift],
    network.startJitter && ['the same in a cycle that starts as late as it may', shiftNeeded(planned)],
    network.syncEvent && ['sync event', network.syncEvent],
    first === undefined || last === undefined || first === last
      ? undefined
      : [
          `a frame is at ${last.device.name} later than at ${first.device.name} by`,
          given({ p: last.there, q: first.there }, (known) =>
            skew(known, `${name}.${last.device.name}.${first.device.name}`),
          ),
        ],
    brokenAfter === undefined
      ? undefined
      : [
          'the break of the ring that needs most is after',
          brokenAfter === 0 ? 'the controller' : (network.devices[brokenAfter - 1]?.name ?? ''),
        ],
  ];
  return {
    name: 'room',
    title: 'Room in the cycle',
    columns: ['what', 'value'],
    rows: rows.filter((row) => row !== undefined),
  };
}

/** Those whose time is known, the largest last. */
function largestLast(exchanges: readonly Exchange[], timeOf: (of: Exchange) => Cell): readonly Exchange[] {
  const value = (of: Exchange): number => (timeOf(of) as Quantity).value;
  return exchanges.filter((each) => !(timeOf(each) instanceof Missing)).sort((a, b) => value(a) - value(b));
}

function waysTable(planned: Planned): Table {
  return {
    name: 'ways',
    title: 'Stations in the order in which they are reached',
    note: 'there and back: first bit of the command at the station, first bit of the answer at the controller, both since the first bit left; an exchange lasts until the line is free again, the gaps behind command and answer included; served: in each cycle, or in which one of how many',
    columns: ['station', 'after', 'hops', 'there', 'back', 'exchange', 'served'],
    rows: planned.exchanges.map((exchange, index) => [
      exchange.device.name,
      ...wayCells(exchange),
      servedText(exchange.device, planned.phases[index]!),
    ]),
  };
}

const wayCells = ({ device, there, answered, turn }: Exchange): readonly Cell[] => [
  device.way.passed.at(-1)?.name ?? 'controller',
  String(device.way.passed.filter(({ kind }) => kind !== 'coupling').length),
  there,
  answered,
  turn,
];

const servedText = (device: Device, phase: number): string =>
  multipleOf(device) === 1 ? 'each' : `${phase + 1} of ${multipleOf(device)}`;

/** One station. */
export function stationView(planned: Planned, device: Device): View {
  const { network } = planned;
  const exchange = planned.exchanges.find((each) => each.device === device || each.device.name === device.name);
  const index = exchange === undefined ? -1 : planned.exchanges.indexOf(exchange);
  const own: readonly (readonly Cell[])[] = [
    ['forwarding', device.forwarding],
    ...(device.passing === 'bits'
      ? []
      : [['passes a frame on after', device.passing === 'frame' ? 'the whole of it' : device.waits]]),
    ...(exchange === undefined
      ? []
      : [
          ['turnaround', device.turnaround],
          ['command, frame', exchange.commandFrame],
          ['answer, frame', exchange.answerFrame],
          ['command on the line', exchange.command],
          ['answer on the line', exchange.answer],
          ['first bit of the command there', exchange.there],
          ['first bit of the answer back', exchange.answered],
          ['exchange', exchange.turn],
          ['served in cycle', servedText(device, planned.phases[index]!)],
        ]),
  ];
  const others: readonly (readonly Cell[])[] = planned.exchanges
    .filter((each) => exchange !== undefined && each !== exchange)
    .map((each) => [
      each.device.name,
      given({ p: exchange!.there, q: each.there }, (known) =>
        skew(known, `${network.name}.${device.name}.${each.device.name}`),
      ),
    ]);
  return {
    address: `${network.path}.nodes.${device.name}`,
    title: `${device.name}, a ${device.kind} of network ${network.name}`,
    says: exchange === undefined ? [`${device.name} passes frames on and answers none.`] : saysOfStation(exchange),
    inputs: exchange === undefined ? [] : inputsOfStation(device),
    pictures: [],
    later: [],
    tables: [
      { name: 'station', title: 'The station', columns: ['what', 'value'], rows: own },
      ...(others.length === 0
        ? []
        : [
            {
              name: 'skew',
              title: 'How much later a frame is here than at the others',
              columns: ['station', 'later by'],
              rows: others,
            },
          ]),
    ],
  };
}

const saysOfStation = ({ device, there, turn }: Exchange): readonly Cell[] => [
  `A command is at ${device.name} after `,
  there,
  '; one exchange with it takes ',
  turn,
  '.',
];

/** One run. */
export function runView({ network, cables }: Planned, name: string): View | undefined {
  const run = network.runs.find((each) => each.name === name);
  if (run === undefined) return undefined;
  const link = linksOf(network).find((each) => each.runs.includes(run));
  return {
    address: run.path,
    title: `The run from ${run.from} to ${run.to}`,
    says: ['The first bit takes ', cables.get(run)!, ' from one end to the other.'],
    inputs: [],
    pictures: [],
    later: [],
    tables: [
      {
        name: 'run',
        title: 'The run',
        columns: ['what', 'value'],
        rows: [
          ['length', run.length],
          ['propagation for each metre', run.delay],
          ['propagation', cables.get(run)!],
          ['attenuation for each metre', run.attenuation],
          ...(link === undefined
            ? []
            : [
                ['link it belongs to', `${link.from} to ${link.to}`],
                ['length of the link', link.length],
                ['attenuation of the link', link.attenuation],
              ]),
        ] as Cell[][],
      },
    ],
  };
}
