// What a ring makes of noise: broken where that needs most, as it is planned, and whole, with frames one way or a copy each way.
import type { Cell, Table } from '../checks/view.ts';
import type { Value } from '../reading/values.ts';
import { given } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { lostBothWays } from './calc/exchange-noise.ts';
import { anyLost } from './calc/noise.ts';
import type { Network } from './network.ts';
import { type Losses, lossesOf, lostOn, type StationLoss } from './noise-losses.ts';
import { plan } from './planned.ts';

type Chance = Value<Quantity<'1'>>;

export function ringTables({ planned, stations, noise }: Losses): readonly Table[] {
  const { network } = planned;
  if (network.topology !== 'ring') return [];
  const unbroken: Network = { ...network, name: `${network.name}.whole`, topology: 'line' };
  const whole = lossesOf(plan(unbroken));
  if (whole === undefined) return [];
  const copies = countsCopies(network);
  return [
    {
      name: 'ring',
      title: 'The ring, broken where that needs most, and whole',
      note: copies ? bothWaysNote : oneWayNote,
      columns: [
        'station',
        'one try, broken',
        'one try, whole',
        ...(copies ? ['one try, whole, both ways'] : []),
        'a burst bridged, broken',
        'whole',
      ],
      rows: stations.map((station): readonly Cell[] => {
        const same = whole.stations.find(({ device }) => device.name === station.device.name);
        return [
          station.device.name,
          station.try,
          same?.try ?? 'none',
          ...(copies ? [same === undefined ? 'none' : tryBothWays(same, { ...whole, noise })] : []),
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

/** Where a command and an answer of their own go to and fro; a frame for all is not counted with copies. */
function countsCopies({ profile: { ring_frames, discipline } }: Network): boolean {
  return ring_frames === 'both_ways' && ['polled', 'pipelined', 'slotted'].includes(discipline as string);
}

/** The chance that a try is lost of which each frame is sent both ways round. */
function tryBothWays({ device, exchange }: StationLoss, { planned: { network }, noise }: Losses): Chance {
  const about = `${network.name}.${device.name}.both_ways`;
  const lost = (frame: Value<Quantity<'bit'>>, which: 'command' | 'answer'): Chance => {
    const at = `${about}.${which}`;
    const c = lostOn(device.way.runs, 1, frame, noise, network, `${at}.one_way`);
    const d = lostOn(device.otherWay?.runs ?? device.way.runs, 1, frame, noise, network, `${at}.other_way`);
    return given({ c, d }, (each) => lostBothWays(each, at));
  };
  const p = [lost(exchange.commandFrame, 'command'), lost(exchange.answerFrame, 'answer')];
  return given({ p }, (each) => anyLost(each, about));
}
