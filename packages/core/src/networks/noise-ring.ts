// What a ring makes of noise: broken where that needs most, as it is planned, and whole, with frames one way or a copy each way.
import type { Cell, LaterTable, Table } from '../checks/view.ts';
import type { Value } from '../reading/values.ts';
import { given } from '../working/missing.ts';
import { onceForEach } from '../working/once.ts';
import type { Quantity } from '../working/quantity.ts';
import { lostBothWays } from './calc/exchange-noise.ts';
import { anyLost } from './calc/noise.ts';
import { lostBesideTwoStates, lostBothWaysOfTwoStates, meanLossOfTwoStates, shareBad } from './calc/two-state.ts';
import type { Device, Run } from './network.ts';
import { type Hits, meets } from './noise.ts';
import { meetingBothWays, meetingWith } from './noise-bursts.ts';
import { type Losses, lossesOf, type StationLoss } from './noise-losses.ts';
import { lostInPool, lostOn } from './noise-tries.ts';
import { plan } from './planned.ts';
import { sendsBothWays } from './ways.ts';

type Chance = Value<Quantity<'1'>>;

/** The losses of a ring that is not broken, every station reached the way in which the runs are listed. */
const wholeOf = onceForEach(({ planned: { network } }: Losses): Losses | undefined =>
  network.topology === 'ring'
    ? lossesOf(plan({ ...network, name: `${network.name}.whole`, topology: 'line' }))
    : undefined,
);

/** What a station of a whole ring loses by random bit errors with a copy of each frame each way. */
export interface LossBothWays {
  /** Chance that one try is lost which goes the way in which the runs are listed alone, and which goes the other way. */
  readonly oneWay: Chance;
  readonly otherWay: Chance;
  /** Chance that one try is lost. */
  readonly one: Chance;
  /** Share of updates lost with the repeats that are shared. */
  readonly lost: Chance;
}

/** Of each station; undefined where no copies are sent. */
export const lossesBothWays = onceForEach((losses: Losses): readonly LossBothWays[] | undefined => {
  const { planned, stations, noise } = losses;
  const { network } = planned;
  const whole = wholeOf(losses);
  if (whole === undefined || !sendsBothWays(network)) return undefined;
  const { name } = whole.planned.network;
  const tries = stations.map((station) => tryBothWays(station, name, { planned, noise }));
  return tries.map((each, at) => ({
    ...each,
    // By a timetable every frame has its place, and none is sent again.
    lost:
      network.profile.discipline === 'slotted'
        ? each.one
        : lostInPool(at, tries, planned, network.repeats, `${name}.${stations[at]!.device.name}.both_ways`),
  }));
});

export function ringTables(losses: Losses): readonly Table[] {
  const { stations } = losses;
  const whole = wholeOf(losses);
  if (whole === undefined) return [];
  const copies = lossesBothWays(losses);
  return [
    {
      name: 'ring',
      title: 'The ring, broken where that needs most, and whole',
      note: copies === undefined ? oneWayNote : bothWaysNote,
      columns: [
        'station',
        'one try, broken',
        'one try, whole',
        ...(copies === undefined ? [] : ['one try, whole, both ways']),
        'a burst bridged, broken',
        'whole',
      ],
      rows: stations.map((station, at): readonly Cell[] => {
        const same = whole.stations.find(({ device }) => device.name === station.device.name);
        return [
          station.device.name,
          station.try,
          same?.try ?? 'none',
          ...(copies === undefined ? [] : [copies[at]!.one]),
          station.bridged,
          same?.bridged ?? 'none',
        ];
      }),
    },
  ];
}

const oneWayNote =
  'whole: every station is reached the way in which the runs are listed; a break costs the frames that are under way, and from then on the station is reached the other way';
const bothWaysNote =
  'whole: one way as the runs are listed, and with a copy each way, where a frame is lost with both copies; broken, one way is left, and what is found is counted with that; a burst that is bridged is counted as if it coupled into both ways; what pulses make of the copies is in the table copies';

/** The chances that a try is lost each way, and with both copies of each of its frames. */
function tryBothWays(
  { device, exchange }: StationLoss,
  name: string,
  { planned: { network }, noise }: Pick<Losses, 'planned' | 'noise'>,
): Omit<LossBothWays, 'lost'> {
  const about = `${name}.${device.name}.both_ways`;
  const frames = (['command', 'answer'] as const).map((which) => {
    const [at, frame] = [`${about}.${which}`, exchange[`${which}Frame`]];
    const on = (runs: readonly Run[], way: string): Chance => lostOn(runs, 1, frame, noise, network, `${at}.${way}`);
    const c = on(device.way.runs, 'one_way');
    const d = on(device.otherWay?.runs ?? device.way.runs, 'other_way');
    return { c, d, both: given({ c, d }, (each) => lostBothWays(each, at)) };
  });
  const any = (of: (frame: (typeof frames)[number]) => Chance, at: string): Chance =>
    given({ p: frames.map(of) }, (each) => anyLost(each, at));
  return {
    oneWay: any(({ c }) => c, `${about}.one_way`),
    otherWay: any(({ d }) => d, `${about}.other_way`),
    one: any(({ both }) => both, about),
  };
}

// ── what comes in bunches ────────────────────────────────────────────────────────────────────────────────────────────

const coupled = (hits: Hits, { way, otherWay }: Device): 'both ways' | 'one way' | 'no way' => {
  const count = [way, otherWay ?? way].filter(({ runs }) => meets(hits, runs)).length;
  return count === 2 ? 'both ways' : count === 1 ? 'one way' : 'no way';
};

/** The chance that the first try is lost with its copies where the line of two states and bit errors are all that there is. */
export function twoStateBothWays(at: number, losses: Losses): Chance {
  const { oneWay, otherWay, one } = lossesBothWays(losses)![at]!;
  const { twoState } = losses.noise;
  const { device } = losses.stations[at]!;
  if (twoState === undefined) return one;
  const about = `${losses.planned.network.name}.${device.name}.both_ways`;
  const { to_bad: b, to_good: g, lost_in_good: u, lost_in_bad: v, hits } = twoState;
  const w = given({ b, g }, (known) => shareBad(known, about));
  const how = coupled(hits, device);
  if (how === 'no way') return one;
  if (how === 'both ways')
    return given({ w, u, v, x: oneWay, y: otherWay, p: one }, (known) => lostBothWaysOfTwoStates(known, about));
  const q = given({ w, u, v }, (known) => meanLossOfTwoStates(known, about));
  const y = meets(hits, device.way.runs) ? otherWay : oneWay;
  return given({ q, y, p: one }, (known) => lostBesideTwoStates(known, about));
}

/** What a pulse or a state of the line takes of both copies at once; undefined where no copies are sent, or nothing does. */
export function copiesTable(losses: Losses): LaterTable | undefined {
  const { noise, stations, planned } = losses;
  if (lossesBothWays(losses) === undefined || (noise.sources.length === 0 && noise.twoState === undefined))
    return undefined;
  const [name, title] = [
    'copies',
    'What pulses and a line of two states make of copies, both ways round the whole ring',
  ];
  return {
    name,
    title,
    make: () => ({
      name,
      title,
      note: 'share of the updates whose first try is lost; one way: as the ring is planned, broken; both ways: only what takes a copy of a frame each way costs it, so that a source that couples into one of the ways costs nothing; with the line of two states random bit errors are counted, with the pulses not; copies leave when the frames do that they are copies of',
      columns: ['station', 'source', 'it gets at', 'one way', 'both ways', 'in a row', 'trips at'],
      rows: stations.flatMap((station, at): readonly (readonly Cell[])[] => {
        const { device } = station;
        const pulses = noise.sources.map((source): readonly Cell[] => {
          const both = meetingBothWays(source, station, losses);
          return [
            device.name,
            source.name,
            coupled(source.hits, device),
            meets(source.hits, station.runs) ? meetingWith(source, station, losses).share : 'nothing',
            both?.share ?? 'nothing',
            both?.inARow ?? 'none',
            device.tripAfter,
          ];
        });
        if (noise.twoState === undefined) return pulses;
        const about = `${planned.network.name}.${device.name}.with_two_states`;
        const { to_bad: b, to_good: g, lost_in_good: u, lost_in_bad: v, hits } = noise.twoState;
        const w = given({ b, g }, (known) => shareBad(known, about));
        const q = given({ w, u, v }, (known) => meanLossOfTwoStates(known, about));
        const oneWay = meets(hits, station.runs)
          ? given({ p: [station.try, q] }, (known) => anyLost(known, about))
          : station.try;
        return [
          ...pulses,
          [device.name, 'two_state', coupled(hits, device), oneWay, twoStateBothWays(at, losses), '', device.tripAfter],
        ];
      }),
    }),
  };
}
