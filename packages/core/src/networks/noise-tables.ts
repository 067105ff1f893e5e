// What noise costs, table by table: stations, repeats, trips, bursts, shorter cycles, runs without a loss, counters.
import type { Cell, LaterTable, Table } from '../checks/view.ts';
import type { AxisMotions } from '../physics/axis-motion.ts';
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, Missing } from '../working/missing.ts';
import { onceForEach } from '../working/once.ts';
import { Quantity } from '../working/quantity.ts';
import { framesSpoilt, tripAfterForBurst } from './calc/bursts.ts';
import { cleanRunFor, provenByRuleOfThree, updatesWithin } from './calc/clean-run.ts';
import { repeatsReserved } from './calc/cycle.ts';
import { noTripChance } from './calc/exchange-noise.ts';
import { chanceOfTrip, meanTimeToTrip, meanTimeToTripOfAny, medianTimeToTrip, noTripOfAny } from './calc/losses.ts';
import { timeBetweenBitErrors } from './calc/noise.ts';
import { meets } from './noise.ts';
import { inBursts, meetingWith, sourcesOf } from './noise-bursts.ts';
import { type Losses, lossesOf, lostWith, type StationLoss } from './noise-losses.ts';
import { missedBy } from './noise-missed.ts';
import { plan } from './planned.ts';

type Rows = readonly (readonly Cell[])[];

/** Of those whose number is known, the one with the largest. */
export function largestBy(
  stations: readonly StationLoss[],
  of: (station: StationLoss) => Value<Quantity>,
): StationLoss | undefined {
  const value = (station: StationLoss): number => (of(station) as Quantity).value;
  const known = stations.filter((station) => !(of(station) instanceof Missing));
  return known.reduce<StationLoss | undefined>(
    (most, each) => (most !== undefined && value(most) >= value(each) ? most : each),
    undefined,
  );
}

/** The station that bridges the shortest burst: of all that are known, the others bridge more. */
export const weakest = (stations: readonly StationLoss[]): StationLoss | undefined =>
  [...stations].filter(({ bridged }) => bridged instanceof Quantity).sort((a, b) => bridges(a) - bridges(b))[0];

const bridges = ({ bridged }: StationLoss): number => (bridged as Quantity).value;

/** The station that loses most updates. */
export const loser = ({ stations }: Losses): StationLoss | undefined => largestBy(stations, ({ lost }) => lost);

export function stationsTable({ stations }: Losses): Table {
  return {
    name: 'stations',
    title: 'What each station loses by random bit errors, and the burst that it bridges',
    note: 'chances that a frame is lost on its way; one try: command or answer; own, shared: share of lost updates where the repeats were its own, and shared as they are; the frame that opens the cycle costs no data',
    columns: [
      'station',
      'command',
      'answer',
      'start',
      'one try',
      'own',
      'shared',
      'mean to a trip',
      'bridges less than',
    ],
    rows: stations.map((each) => [
      each.device.name,
      each.command,
      each.answer,
      each.start,
      each.try,
      each.withOwn,
      each.lost,
      each.meanToTrip,
      each.bridged,
    ]),
  };
}

/** So many repeats are compared. */
export const repeatsCompared = [0, 1, 2, 3, 4, 5] as const;

export interface RepeatsRow {
  readonly repeats: Quantity<'1'>;
  readonly own: Value<Quantity<'1'>>;
  readonly shared: Value<Quantity<'1'>>;
  readonly mean: Value<Quantity<'s'>>;
}

/** What repeats buy the station that loses most. */
export function repeatsRows(losses: Losses, station: StationLoss): readonly RepeatsRow[] {
  const { network } = losses.planned;
  return repeatsCompared.map((count): RepeatsRow => {
    const repeats = looked(`${network.path}.noise.repeats_${count}`, count);
    const about = `${network.name}.${station.device.name}.with_${count}`;
    const { own, shared } = lostWith(losses, station, repeats);
    return {
      repeats,
      own,
      shared,
      mean: given({ T: station.period, q: shared, m: station.device.tripAfter }, (known) =>
        meanTimeToTrip(known, about),
      ),
    };
  });
}

export function repeatsTable(losses: Losses, station: StationLoss): Table {
  const { planned, noise } = losses;
  const { network, repeatable } = planned;
  const rows = repeatsRows(losses, station);
  const wanted = noise.tripFree;
  const enough =
    wanted === undefined || wanted instanceof Missing
      ? undefined
      : rows.find(({ mean }) => mean instanceof Quantity && mean.value >= wanted.value);
  return {
    name: 'repeats',
    title: `What repeats buy ${station.device.name}, which loses most`,
    note: 'own: each station had so many for itself; shared: all stations have so many together; a repeat is worth keeping while fewer are too few for the wanted time between trips; it helps against single losses only: in a burst all of them are lost',
    columns: ['repeats', 'own', 'shared', 'mean to a trip', 'they take of the cycle', 'for the wanted time'],
    rows: rows.map((row) => [
      row.repeats,
      row.own,
      row.shared,
      row.mean,
      network.profile.discipline === 'slotted'
        ? 'none are sent'
        : row.repeats.value === 0
          ? 'nothing'
          : given({ x: repeatable }, ({ x }) =>
              repeatsReserved({ n: row.repeats, x }, `${network.name}.with_${row.repeats.value}`),
            ),
      wanted === undefined
        ? 'trip_free is not said'
        : enough === undefined
          ? 'too few'
          : row === enough
            ? 'enough'
            : row.repeats.value < enough.repeats.value
              ? 'too few'
              : 'more than needed',
    ]),
  };
}

const times = [
  ['shift', 8 * 3600],
  ['week', 7 * 86_400],
  ['year', 365 * 86_400],
] as const;

export function tripsTable({ planned, stations }: Losses): LaterTable {
  const { network } = planned;
  return later('trips', 'How long until random losses trip a station', () => {
    const spans = times.map(([name, time_s]) =>
      assumed(`${network.path}.noise.${name}`, time_s, 's', {
        source: 'definition',
        because: name === 'shift' ? 'eight hours' : name === 'week' ? 'seven days' : '365 days',
      }),
    );
    const rows = stations.map(({ device, lost, period, meanToTrip }) => {
      const about = `${network.name}.${device.name}`;
      const asked = { T: period, q: lost, m: device.tripAfter };
      const none = spans.map((t, at) =>
        given(asked, (known) =>
          noTripChance({ c: chanceOfTrip({ ...known, t }, `${about}.${times[at]![0]}`) }, `${about}.${times[at]![0]}`),
        ),
      );
      return {
        cells: [
          device.name,
          lost,
          device.tripAfter,
          meanToTrip,
          given(asked, (known) => medianTimeToTrip(known, about)),
        ],
        meanToTrip,
        none,
      };
    });
    return {
      note: 'mean and median differ: half of all stations trip before the median, and few much later; any of them: at least so long and at least so likely, as stations that share repeats or a frame lose together; a shift is 8 h, a week and a year run day and night; random losses only, bursts are in the tables of bursts',
      columns: ['station', 'lost updates', 'in a row', 'mean', 'median', 'no trip in a shift', 'a week', 'a year'],
      rows: [
        ...rows.map(({ cells, none }) => [...cells, ...none]),
        ...(rows.length < 2
          ? []
          : [
              [
                'any of them',
                '',
                '',
                meanOfAny(
                  rows.map(({ meanToTrip }) => meanToTrip),
                  network.name,
                ),
                '',
                ...spans.map((_, at) =>
                  given({ n: rows.map(({ none }) => none[at]!) }, (known) =>
                    noTripOfAny(known, `${network.name}.${times[at]![0]}`),
                  ),
                ),
              ],
            ]),
      ],
    };
  });
}

/** A station that nothing trips counts for nothing. */
function meanOfAny(all: readonly Value<Quantity<'s'>>[], about: string): Value<Quantity<'s'>> {
  const t = all.filter((each) => each instanceof Missing || Number.isFinite(each.value));
  return t.length === 0 ? all[0]! : given({ t }, (known) => meanTimeToTripOfAny(known, about));
}

export function burstsTable(losses: Losses): readonly Table[] {
  const { noise, stations, planned } = losses;
  if (noise.sources.length === 0) return [];
  const rows = noise.sources.map((source): readonly Cell[] => {
    const hit = stations.filter(({ runs }) => meets(source.hits, runs));
    const least = weakest(hit);
    const about = `${planned.network.name}.${least?.device.name}.${source.name}`;
    return [
      source.name,
      source.pattern,
      source.at === undefined ? source.pulse_every : 'as recorded',
      inBursts(source) ? source.burst : source.at === undefined ? 'without an end' : 'as recorded',
      String(hit.length),
      least?.device.name ?? 'none',
      least?.bridged ?? 'none',
      !inBursts(source) || least === undefined
        ? ''
        : given({ B: source.burst, L: least.open, T: least.period }, (known) => framesSpoilt(known, about)),
      !inBursts(source) || least === undefined
        ? ''
        : given({ B: source.burst, L: least.open, T: least.period }, (known) => tripAfterForBurst(known, about)),
    ];
  });
  return [
    {
      name: 'bursts',
      title: 'The bursts, and the station on their way that bridges least',
      note: 'a burst counts as if it spoilt all it meets; lost: updates in a row that it costs at its worst phase; trip after: with so many losses in a row it is bridged',
      columns: [
        'source',
        'pattern',
        'pulse every',
        'burst',
        'stations',
        'least at',
        'bridges less than',
        'lost',
        'trip after',
      ],
      rows,
    },
  ];
}

export function pulsesTable(losses: Losses): LaterTable {
  return later('pulses', 'The pulses laid over the frames, at every phase', () => ({
    note: 'share of the updates that each source costs, and the most of them in a row, counted pulse by pulse with the first tries alone; infinite: cycle and pulses stay in step, so that a phase that meets one update meets them all',
    columns: ['station', 'source', 'share of updates', 'in a row', 'trips at'],
    rows: losses.stations.flatMap((station) =>
      sourcesOf(station, losses).map((source): readonly Cell[] => {
        const { share, inARow } = meetingWith(source, station, losses);
        return [station.device.name, source.name, share, inARow, station.device.tripAfter];
      }),
    ),
  }));
}

export interface CycleRow {
  readonly cycle: Quantity<'s'>;
  readonly station: StationLoss | undefined;
  readonly bridging: StationLoss | undefined;
}

/** The network at each cycle that its controller offers; a picture and a table show the same. */
export const cyclesRows = onceForEach(({ planned }: Losses): readonly CycleRow[] => {
  const { network } = planned;
  const offered = network.controller.cycles instanceof Missing ? [] : network.controller.cycles;
  return offered.flatMap((cycle): readonly CycleRow[] => {
    if (cycle instanceof Missing) return [];
    const name = `${network.name}.at_${Math.round(cycle.value * 1e9)}_ns`;
    const other = lossesOf(plan({ ...network, name, cycle }));
    return other === undefined
      ? []
      : [
          {
            cycle,
            station: loser(other),
            bridging: weakest(other.stations),
          },
        ];
  });
});

export function cyclesTable(losses: Losses): LaterTable {
  return later('cycles', 'The same network at every cycle that the controller offers', () => ({
    note: 'a shorter cycle works both ways: an update that is missed is missed for a shorter time, but the same losses in a row come about sooner and bridge a shorter burst; whether the cycle is long enough for its frames is asked elsewhere',
    columns: ['cycle', 'loses most', 'lost updates', 'mean to a trip', 'bridges least', 'bridges less than'],
    rows: cyclesRows(losses).map(({ cycle, station, bridging }) => [
      cycle,
      station?.device.name ?? 'none',
      station?.lost ?? 'none',
      station?.meanToTrip ?? 'none',
      bridging?.device.name ?? 'none',
      bridging?.bridged ?? 'none',
    ]),
  }));
}

export function cleanRunTable({ planned, noise }: Losses, station: StationLoss): Table {
  const { network } = planned;
  const about = `${network.name}.${station.device.name}`;
  const c = assumed(`${network.path}.noise.confidence`, 0.95, '1', {
    source: 'common-practice',
    because: 'usual in statistics',
    as: '%',
  });
  const day = assumed(`${network.path}.noise.day`, 86_400, 's', { source: 'definition', because: 'a day' });
  const run = (p: Value<Quantity<'1'>>, which: string): Cell =>
    given({ T: station.period, p }, (known) => cleanRunFor({ c, ...known }, `${about}.${which}`));
  return {
    name: 'clean_run',
    title: 'How long a run without a loss proves a rate',
    note: 'with a confidence of 95 %; nothing seen is not nothing there; of the station that loses most',
    columns: ['what', 'value'],
    rows: [
      ['no more than the computed loss of a try, after', run(station.try, 'try')],
      ['no more than the computed share of lost updates, after', run(station.lost, 'update')],
      [
        'a day without a loss proves a loss smaller than',
        given({ T: station.period }, ({ T }) =>
          provenByRuleOfThree({ n: updatesWithin({ t: day, T }, `${about}.day`) }, `${about}.day`),
        ),
      ],
      [
        'bit errors on a line that is never idle come each',
        given({ b: noise.counts, p: noise.bitErrors, R: network.profile.rate }, (known) =>
          timeBetweenBitErrors(known, network.name),
        ),
      ],
    ],
  };
}

export function missedTable(losses: Losses, motions: AxisMotions): LaterTable {
  return later('missed', 'What missed updates cost in position', () => ({
    note: 'after the most missed updates in a row that do not trip, at the highest speed and acceleration of the axis; held: the drive stays at the set position that it has; extrapolated: it goes on at the speed that it had',
    columns: ['axis', 'time', 'held', 'extrapolated', 'the drive is said to', 'tolerance'],
    rows: losses.stations.flatMap((station): Rows => {
      const missed = missedBy(station, losses, motions);
      const { name, missed: rule, tolerance } = station.device;
      if (missed === undefined) return [];
      return [[name, missed.time, missed.held, missed.extrapolated, rule, tolerance ?? 'not said']];
    }),
  }));
}

/** A count that is only compared. */
export const looked = (path: string, count: number): Quantity<'1'> =>
  assumed(path, count, '1', { source: 'definition', because: 'looked at for comparison' });

const later = (name: string, title: string, make: () => Omit<Table, 'name' | 'title'>): LaterTable => ({
  name,
  title,
  make: () => ({ name, title, ...make() }),
});
