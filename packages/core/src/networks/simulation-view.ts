// What is told of a simulation: losses beside the closed forms, runs of losses, the first trips, and what it leaves out.
import type { Cell, Table, View } from '../checks/view.ts';
import type { Value } from '../reading/values.ts';
import { Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { Comparison, Simulation, SimulationResult } from './simulation.ts';
import { tripStrip } from './simulation-strip.ts';
import { sendsBothWays } from './ways.ts';

/** Trips that are drawn, and lengths of runs that have a column. Our judgement. */
const [mostDrawn, mostLengths] = [3, 6];

export function simulationView(result: SimulationResult): View {
  const { simulation, trips } = result;
  const { network } = simulation.planned;
  return {
    address: `${network.path}.simulation`,
    title: `Simulation of network ${network.name}`,
    says: sentence(result),
    inputs: [],
    pictures: trips.slice(0, mostDrawn).map((trip, at) => tripStrip(`trip_${at + 1}`, trip, result)),
    tables: [
      stationsTable(result),
      runsTable(result),
      ...(trips.length === 0 ? [] : [tripsTable(result)]),
      leftOut(simulation),
    ],
    later: [],
  };
}

const known = (of: Value<Quantity>): number => (of instanceof Missing ? -1 : of.value);

function sentence(result: SimulationResult): readonly Cell[] {
  const { stations, cycles, lasted, isWhole, simulation, comparison } = result;
  // Where nothing was lost the closed form says who would lose most.
  const worst = stations.reduce((most, each) => {
    const more = known(each.share) - known(most.share);
    return more > 0 || (more === 0 && known(each.closed) > known(most.closed)) ? each : most;
  });
  const { name } = worst.loss.device;
  const most = stations.reduce((most, each) => (known(each.trips) > known(most.trips) ? each : most));
  const compared: readonly Cell[] =
    worst.closed instanceof Missing
      ? ['.']
      : [comparison === 'bound' ? '; the closed forms allow at most ' : '; the closed form says ', worst.closed, '.'];
  return [
    ...(isWhole ? [] : ['Stopped before all of ', simulation.cycles, ' cycles were played. ']),
    'In ',
    cycles,
    ' cycles, ',
    lasted,
    ' on the machine, ',
    ...(worst.lost.value === 0
      ? ['no update was lost: the share of ', name, ' is at most ', worst.most]
      : [name, ' lost most, ', worst.share, ' of its updates, between ', worst.least, ' and ', worst.most]),
    ' with 99 % confidence',
    ...compared,
    ...(known(most.trips) > 0
      ? [` ${most.loss.device.name} tripped most often, so many times: `, most.trips, '.']
      : stations.every(({ trips }) => trips instanceof Missing)
        ? [' What trips a station is not said.']
        : [' Nothing tripped.']),
  ];
}

const comparedWith: Readonly<Record<Comparison, { readonly column: string; readonly note: string }>> = {
  exact: {
    column: 'closed form',
    note: 'it lies: where the closed form lies to the interval of the counts; of a hundred stations one may lie outside by chance',
  },
  bound: {
    column: 'at most',
    note: 'at most: what the closed forms allow, because they do not know what pulses and a line of two states leave of repeats and of copies, and where answers wait for each other; it lies: whether the counts keep that bound',
  },
};

/** What each station lost and how often it tripped, in one table. */
export function simulationTable(result: SimulationResult): Table {
  const { columns, rows, note, ...table } = stationsTable(result);
  // What counts most stands where a narrow page has room.
  const ordered = <T>([station, updates, ...losses]: readonly T[], trips: T, inARow: T): readonly T[] => [
    station!,
    trips,
    inARow,
    ...losses,
    updates!,
  ];
  return {
    ...table,
    note: `in a row: most losses one behind the other; ${note}; ${caution}`,
    columns: ordered(columns, 'trips', 'in a row'),
    rows: result.stations.map(({ trips, longest }, at) => ordered<Cell>(rows[at]!, trips, longest)),
  };
}

const caution = 'an estimate for qualified people, and no proof that a stop works in time';

function stationsTable({ stations, comparison }: SimulationResult): Table {
  const { column, note } = comparedWith[comparison];
  return {
    name: 'stations',
    title: 'What each station lost, beside the closed form',
    note: `from, to: 99 % interval of the share by the scatter among the parts of the simulation; ${note}`,
    columns: ['station', 'updates', 'lost', 'share', 'from', 'to', column, 'it lies', 'repeats', 'late'],
    rows: stations.map((each) => [
      each.loss.device.name,
      each.updates,
      each.lost,
      each.share,
      each.least,
      each.most,
      each.closed,
      each.agrees,
      each.repeats,
      each.late,
    ]),
  };
}

function runsTable({ stations }: SimulationResult): Table {
  const longest = Math.max(1, ...stations.map(({ runs }) => runs.length));
  const lengths = Array.from({ length: Math.min(longest, mostLengths) }, (_, at) => at);
  return {
    name: 'runs',
    title: 'Losses in a row',
    note: 'how often so many updates were lost one behind the other, each run counted once; a run that is long enough trips the station once',
    columns: ['station', 'trips after', 'trips', 'longest', ...lengths.map((at) => `${at + 1} in a row`)],
    rows: stations.map(({ loss, trips, longest, runs }) => [
      loss.device.name,
      loss.device.tripAfter,
      trips,
      longest,
      ...lengths.map((at): Cell => runs[at] ?? 'none'),
    ]),
  };
}

function tripsTable({ trips }: SimulationResult): Table {
  return {
    name: 'trips',
    title: 'The first trips',
    note: 'of each part of the simulation the first ones; counted from the start',
    columns: ['trip', 'station', 'cycle', 'after'],
    rows: trips.map(({ station, cycle, at }, index) => [`trip_${index + 1}`, station.loss.device.name, cycle, at]),
  };
}

/** What a simulation of these kinds of noise takes for granted. */
export function leftOut({ planned, kinds, noise }: Pick<Simulation, 'planned' | 'kinds' | 'noise'>): Table {
  const { network, brokenAfter = network.devices.length } = planned;
  const before = network.devices[brokenAfter - 1]?.name ?? 'the controller';
  const lines = [
    'Frames come when the plan has them: clocks and answer times do not wander.',
    'A spoilt frame is noticed and thrown away, and none is taken for sound.',
    'A pulse spoils a frame while octets of it are on a run that it gets at.',
    'Bits fail independently of each other; a pulse on a frame spoils it.',
    'What failed first is repeated until it succeeds, then the next one.',
    'Repeats begin right behind the exchanges of their cycle, a place each.',
    'Start and non-cyclic frames are not played: they cost no update here.',
    'A run of losses trips a station once; it goes on as if reset at once.',
    'Pulses and cycle have clocks of their own; each part draws a phase.',
    ...(network.topology === 'ring'
      ? network.profile.discipline === 'summation'
        ? ['The ring is open at its shortest run: frames pass the others both ways.']
        : sendsBothWays(network)
          ? [
              'The ring is whole: a frame is lost with its copy the other way round.',
              `Frames have the times of a ring open behind ${before}; copies wait for none.`,
            ]
          : [`The ring is open behind ${before}, where that needs most of the cycle.`]
      : []),
    ...(noise.twoState !== undefined && kinds.includes('two_state')
      ? ['The line of two states takes a try as a whole, once for all its runs.']
      : []),
    ...(kinds.includes('bit_errors') ? [] : ['Random bit errors were left out, as it was asked for.']),
    ...(noise.twoState === undefined || kinds.includes('two_state')
      ? []
      : ['The line of two states was left out, as it was asked for.']),
    ...(noise.sources.length === 0 || kinds.includes('bursts') ? [] : ['Pulses were left out, as it was asked for.']),
    `${caution.replace('an', 'An')}.`,
  ];
  return {
    name: 'left_out',
    title: 'What the simulation takes for granted and leaves out',
    columns: ['assumption'],
    rows: lines.map((line) => [line]),
  };
}
