// What a ring makes of noise: broken where that needs most, as it is planned, and whole, with frames one way or a copy each way.
import type { Cell, Table } from '../checks/view.ts';
import type { Value } from '../reading/values.ts';
import { given } from '../working/missing.ts';
import { onceForEach } from '../working/once.ts';
import type { Quantity } from '../working/quantity.ts';
import { lostBothWays } from './calc/exchange-noise.ts';
import { anyLost } from './calc/noise.ts';
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

/** What a station of a whole ring loses with a copy of each frame each way. */
export interface LossBothWays {
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
  const tries = stations.map((station) => ({ one: tryBothWays(station, name, { planned, noise }) }));
  return tries.map(({ one }, at) => ({
    one,
    // By a timetable every frame has its place, and none is sent again.
    lost:
      network.profile.discipline === 'slotted'
        ? one
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
  'whole: one way as the runs are listed, and with a copy each way, where a frame is lost with both copies; broken, one way is left, and what is found is counted with that; a burst is counted as if it coupled into both ways';

/** The chance that a try is lost of which each frame is sent both ways round. */
function tryBothWays(
  { device, exchange }: StationLoss,
  name: string,
  { planned: { network }, noise }: Pick<Losses, 'planned' | 'noise'>,
): Chance {
  const about = `${name}.${device.name}.both_ways`;
  const lost = (frame: Value<Quantity<'bit'>>, which: 'command' | 'answer'): Chance => {
    const at = `${about}.${which}`;
    const c = lostOn(device.way.runs, 1, frame, noise, network, `${at}.one_way`);
    const d = lostOn(device.otherWay?.runs ?? device.way.runs, 1, frame, noise, network, `${at}.other_way`);
    return given({ c, d }, (each) => lostBothWays(each, at));
  };
  const p = [lost(exchange.commandFrame, 'command'), lost(exchange.answerFrame, 'answer')];
  return given({ p }, (each) => anyLost(each, about));
}
