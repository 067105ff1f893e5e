// What `show` tells of a master: what its encoder resolves and its followers get of it, and how far each of its stops goes.
import type { Cell, Table, View } from '../checks/view.ts';
import type { Value } from '../reading/values.ts';
import { Missing } from '../working/missing.ts';
import type { Master } from './axis.ts';
import { caution } from './checks/stop.ts';
import type { Counted } from './counted.ts';
import type { Coasting, StopDemand } from './stops.ts';

export interface OfMaster {
  readonly counted: readonly Counted[];
  readonly stops: readonly StopDemand[];
}

export function masterView(master: Master, all: OfMaster): View {
  const counted = all.counted.find((each) => each.master === master);
  const stops = all.stops.filter((each) => each.master === master);
  return {
    address: master.path,
    title: `Master ${master.name}`,
    says: result(master, counted),
    inputs: [],
    pictures: [],
    tables: [
      ...(counted === undefined ? [] : [encoderTable(counted), followersTable(counted)]),
      ...(stops.length === 0 ? [] : [stopsTable(stops)]),
      ...stops.flatMap((stop) => (stop.coasts.length === 0 ? [] : [coastsTable(stop)])),
    ],
    later: [],
  };
}

function result({ speed, unit }: Master, counted: Counted | undefined): readonly Cell[] {
  if (speed instanceof Missing || unit instanceof Missing) return ['Its speed is not known yet.'];
  if (counted === undefined) return [unit === 'm' ? 'It goes ' : 'It turns ', 'at ', speed, ' in production.'];
  const { ripple } = counted;
  return ripple instanceof Missing
    ? ['How finely its speed is seen is not known yet.']
    : ['Its speed is seen with a ripple of ', ripple, ', and every follower has the same.'];
}

function encoderTable({ master, encoder, ...counted }: Counted): Table {
  const { counts, step, track, cableAtMost, speedStep, swing, ripple, lag } = counted;
  return {
    name: 'encoder',
    title: 'What the encoder resolves',
    columns: ['what', 'value', 'at most'],
    rows: [
      ['speed of production', master.speed, ''],
      ['counts in one turn', counts, ''],
      ['way for one count', step, ''],
      ['frequency of one track', track, encoder.frequency_at_most],
      ...(encoder.cable === undefined ? [] : [['cable', encoder.cable, cableAtMost]]),
      ['step of the speed that is counted', speedStep, ''],
      ...(lag === undefined
        ? []
        : [
            ['what the filter leaves of it', swing, ''],
            ['lag of the filter at full speed', lag, ''],
          ]),
      ['ripple of the speed', ripple, ''],
    ] satisfies readonly (readonly Cell[])[],
  };
}

const followersTable = ({ followers }: Counted): Table => ({
  name: 'followers',
  title: 'What its followers get of it',
  note: 'torque: by load and rotor, from one sample to the next, as if the drive followed every count',
  columns: ['axis', 'ripple at the motor', 'torque'],
  rows: followers.map(({ demand, ripple, torque }) => [demand.axis.name, ripple, torque]),
});

const stopsTable = (stops: readonly StopDemand[]): Table => ({
  name: 'stops',
  title: 'How far its stops go',
  note: `categories of IEC 60204-1; the way counts from the command; ${caution}`,
  columns: ['stop', 'category', 'drives', 'time', 'way'],
  rows: stops.map(({ stop, powered, time, way }): readonly Cell[] => [
    stop.name,
    stop.category === undefined || stop.category instanceof Missing ? 'not said' : stop.category,
    powered ? 'work' : 'are off',
    time ?? 'see below',
    way ?? 'see below',
  ]),
});

function coastsTable({ stop, coasts }: StopDemand): Table {
  const row = (name: string, found: Value<Coasting | 'never'>): readonly Cell[] =>
    found === 'never'
      ? [name, 'does not stop: its load drives it on', '', '']
      : found instanceof Missing
        ? [name, found, '', '']
        : [name, found.time, found.angle, found.tool];
  return {
    name: `coasting_${stop.name}`,
    title: `Without drives: stop ${stop.name}`,
    note: `from the highest speed of each axis, by the friction of its train and the brake of its motor alone; ${caution}`,
    columns: ['axis', 'time', 'motor', 'tool'],
    rows: coasts.map(({ demand, found }) => row(demand.axis.name, found)),
  };
}
