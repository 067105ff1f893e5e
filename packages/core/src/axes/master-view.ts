// What `show` tells of a master that is counted: what the encoder resolves, and what its followers get of it.
import type { Cell, Table, View } from '../checks/view.ts';
import { Missing } from '../working/missing.ts';
import type { Counted } from './counted.ts';

export function masterView(counted: Counted): View {
  const { master, ripple } = counted;
  return {
    address: master.path,
    title: `Master ${master.name}`,
    says:
      ripple instanceof Missing
        ? ['How finely its speed is seen is not known yet.']
        : ['Its speed is seen with a ripple of ', ripple, ', and every follower has the same.'],
    inputs: [],
    pictures: [],
    tables: [encoderTable(counted), followersTable(counted)],
    later: [],
  };
}

function encoderTable(counted: Counted): Table {
  const { master, encoder, counts, step, track, speedStep, swing, ripple, lag } = counted;
  return {
    name: 'encoder',
    title: 'What the encoder resolves',
    columns: ['what', 'value', 'at most'],
    rows: [
      ['speed of production', master.speed, ''],
      ['counts in one turn', counts, ''],
      ['way for one count', step, ''],
      ['frequency of one track', track, encoder.frequency_at_most],
      ...(encoder.cable === undefined ? [] : [['cable', encoder.cable, counted.cableAtMost]]),
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
