// What `show` tells of a network, of a station and of a run.
import type { Cell, Table, View } from '../checks/view.ts';
import { given, Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { oneRepeat, shareOfCycle, shortestCycle } from './calc/cycle.ts';
import { skew } from './calc/path.ts';
import { type Added, addedAxes, mostAxesOf, type Reserves } from './capacity.ts';
import { asLine, asStar } from './grow.ts';
import { laying, passerOf } from './laying.ts';
import { linksOf } from './links.ts';
import { type Controller, type Device, multipleOf, type Network, type Profile, stationsOf } from './network.ts';
import { type Planned, plan } from './planned.ts';
import { cableDelays, type Exchange } from './ways.ts';

/** What views need beside the plan: the wanted reserves, and what the catalogues offer. */
export interface Surroundings {
  readonly reserve: Quantity<'1'> | Missing | undefined;
  readonly reserves: Reserves;
  readonly controllers: readonly Controller[];
  readonly profiles: readonly Profile[];
  /** Hubs and switches, any of which may be the centre of a star. */
  readonly centres: readonly Device[];
}

const partNames = {
  start: 'start-of-cycle frame',
  commands: 'commands on the line',
  answers: 'answers on the line',
  waiting: 'waiting for stations and on the way',
  exchanges: 'exchanges, both directions at once',
  repeats: 'repeats kept in hand',
  non_cyclic: 'non-cyclic window',
  free: 'free',
} as const;

/** The network as a whole. */
export function networkView(planned: Planned, around: Surroundings): View {
  const { network } = planned;
  const like = stationsOf(network).findLast((device) => device.axis) ?? stationsOf(network).at(-1);
  return {
    address: network.path,
    title: `Network ${network.name}, a ${network.topology}`,
    tables: [
      splitTable(planned),
      roomTable(planned, around),
      waysTable(planned),
      ...(like === undefined ? [] : [mostTable(network, like, around), moreTable(network, like, around)]),
      profilesTable(network, around),
      ...starTable(network, around),
    ],
  };
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
  const { network, used, repeatable, syncShift, repeatsThatFit, exchanges, brokenAfter } = planned;
  const wanted =
    reserve === undefined || reserve instanceof Missing
      ? []
      : [
          [
            'shortest cycle that keeps the reserve',
            given({ u: used, q: reserve }, (known) => shortestCycle(known, network.name)),
          ],
        ];
  const reached = exchanges.filter(({ there }) => !(there instanceof Missing)).sort((a, b) => wayOf(a) - wayOf(b));
  const [first, last] = [reached[0], reached.at(-1)];
  const apart =
    first === undefined || last === undefined
      ? []
      : [
          [
            `the same frame at ${last.device.name} after ${first.device.name}`,
            given({ p: last.there, q: first.there }, (known) =>
              skew(known, `${network.name}.${last.device.name}.${first.device.name}`),
            ),
          ],
        ];
  return {
    name: 'room',
    title: 'Room in the cycle',
    columns: ['what', 'value'],
    rows: [
      ['a cycle needs', used],
      ...wanted,
      ['repeats that fit', repeatsThatFit],
      [
        'one repeat more costs',
        given({ x: repeatable, wired: network.wired }, ({ x }) => oneRepeat({ x }, network.name)),
      ],
      ['sync event no sooner than', syncShift],
      ...apart,
      ...(brokenAfter === undefined
        ? []
        : [
            [
              'the break of the ring that needs most is after',
              brokenAfter === 0 ? 'the controller' : (network.devices[brokenAfter - 1]?.name ?? ''),
            ] as Cell[],
          ]),
    ] as Cell[][],
  };
}

const wayOf = ({ there }: Exchange): number => (there as Quantity).value;

function waysTable(planned: Planned): Table {
  return {
    name: 'ways',
    title: 'Stations in the order in which they are reached',
    columns: ['station', 'after', 'hops', 'command there', 'answer back', 'exchange', 'served'],
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
  multipleOf(device) === 1 ? 'every cycle' : `cycle ${phase + 1} of ${multipleOf(device)}`;

function mostTable(network: Network, like: Device, { controllers, reserves }: Surroundings): Table {
  const most = mostAxesOf(network, like, controllers, reserves);
  return {
    name: 'most_axes',
    title: `The most axes like ${like.name}, in a line, with the reserves kept`,
    note: `one behind another by runs like that of ${like.name}; reserves as for the checks of this machine`,
    columns: ['controller', 'cycle', 'axes', 'one more breaks'],
    rows: most.map(({ controller, cycle, axes, stops }) => [
      typeof controller.part === 'string' ? controller.part : 'unknown',
      cycle,
      String(axes),
      stops ?? 'nothing',
    ]),
  };
}

/** How many more axes the table of `networkView` adds. */
export const axesMore = 10;

function moreTable(network: Network, like: Device, { reserves }: Surroundings): Table {
  const added = addedAxes(network, like, axesMore, reserves);
  const share = ({ demand, capacity }: Added['before']): string => `${((demand / capacity) * 100).toPrecision(3)} %`;
  return {
    name: 'ten_more',
    title: `${axesMore} more axes like ${like.name}, what breaks first at the top`,
    note: `each behind the one before it at the end of the line that ${like.name} is on, by a run like its own`,
    columns: ['resource', 'taken now', `with ${axesMore} more`, 'breaks with'],
    rows: added.map((each) => [
      each.resource,
      share(each.before),
      share(each.after),
      each.breaksAt === undefined ? 'never' : each.breaksAt === 0 ? 'broken already' : `${each.breaksAt} more`,
    ]),
  };
}

function profilesTable(network: Network, { profiles }: Surroundings): Table {
  return {
    name: 'profiles',
    title: 'The same stations over every profile',
    note: 'the same runs; whether a profile allows them, and what passes frames on in them, stands in the last column',
    columns: ['profile', 'a cycle needs', 'free', 'these runs'],
    rows: profiles.map((profile) => {
      const name = typeof profile.part === 'string' ? profile.part : 'profile';
      const other = plan({ ...network, profile, name: `${network.name}.over_${name}` });
      return [name, other.used, other.free, layingOf(other.network)];
    }),
  };
}

/** Whether the profile allows the runs and what passes frames on, in a word or two. */
function layingOf(network: Network): Cell {
  const allowed = laying(network);
  return allowed instanceof Missing ? allowed : allowed.yes ? 'allowed' : 'not allowed';
}

/** As a line and as a star, where there is a centre that the profile allows. */
function starTable(network: Network, { centres }: Surroundings): readonly Table[] {
  const stations = stationsOf(network);
  const allowed = network.profile.passes instanceof Missing ? [] : network.profile.passes;
  const fitting = centres.filter((centre) => allowed.includes(passerOf(centre)!));
  if (stations.length < 2 || fitting.length === 0) return [];
  const line = plan({ ...asLine(network), name: `${network.name}.as_line` });
  const stars = fitting.map((centre) => ({
    centre,
    star: plan({ ...asStar(network, centre), name: `${network.name}.as_star_${centre.name}` }),
  }));
  return [
    {
      name: 'line_and_star',
      title: 'The same stations as a line and as a star',
      note: 'assumed: the centre stands beside the controller and has plugs enough; the run to each station is as long as the line to it was',
      columns: ['laid as', 'exchanges take', 'a cycle needs'],
      rows: [
        ['a line', line.busy, line.used],
        ...stars.map(({ centre, star }) => [`a star on ${centre.name}`, star.busy, star.used]),
      ],
    },
  ];
}

/** One station. */
export function stationView(planned: Planned, device: Device): View {
  const { network } = planned;
  const exchange = planned.exchanges.find((each) => each.device === device || each.device.name === device.name);
  const index = exchange === undefined ? -1 : planned.exchanges.indexOf(exchange);
  const own: readonly (readonly Cell[])[] = [
    ['forwarding', device.forwarding],
    ...(device.passing === 'bits'
      ? []
      : [['waits for', device.passing === 'frame' ? 'the whole frame' : device.waits]]),
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
          ['served', servedText(device, planned.phases[index]!)],
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
    tables: [
      { name: 'station', title: 'The station', columns: ['what', 'value'], rows: own },
      ...(others.length === 0
        ? []
        : [
            {
              name: 'skew',
              title: 'The same frame here and at the others: apart by',
              columns: ['station', 'apart by'],
              rows: others,
            },
          ]),
    ],
  };
}

/** One run. */
export function runView({ network }: Planned, name: string): View | undefined {
  const run = network.runs.find((each) => each.name === name);
  if (run === undefined) return undefined;
  const link = linksOf(network).find((each) => each.runs.includes(run));
  return {
    address: run.path,
    title: `The run from ${run.from} to ${run.to}`,
    tables: [
      {
        name: 'run',
        title: 'The run',
        columns: ['what', 'value'],
        rows: [
          ['length', run.length],
          ['propagation for each metre', run.delay],
          ['propagation', cableDelays(network).get(run)!],
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
