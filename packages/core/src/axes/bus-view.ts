// What `show` tells of a bus: what it has to bear in production and in each stop, against what is there.
import type { Cell, View } from '../checks/view.ts';
import type { Value } from '../reading/values.ts';
import { Missing } from '../working/missing.ts';
import type { BusDemand, Loaded } from './buses.ts';

export function busView({ bus, cycle, stops, tripsAt, switchedAt }: BusDemand): View {
  const { name, path, resistor, axes } = bus;
  const row = (title: string, loaded: Value<Loaded>): readonly Cell[] =>
    loaded instanceof Missing
      ? [title, loaded, '', '', '']
      : [title, loaded.highest, loaded.toResistor, loaded.peak, loaded.mean ?? ''];
  return {
    address: path,
    title: `Bus ${name}`,
    says:
      cycle instanceof Missing
        ? ['What the bus has to bear is not known yet.']
        : [
            'In production the bus rises to ',
            cycle.highest,
            ` with ${axes.length === 1 ? 'one axis' : `${axes.length} axes`} on it.`,
          ],
    inputs: [],
    pictures: [],
    tables: [
      {
        name: 'loads',
        title: 'What the bus has to bear',
        note: 'powers of all axes at their shafts on one time; a bus stays charged after the mains are off',
        columns: ['when', 'voltage', 'into the resistor', 'peak', 'mean'],
        rows: [row('in production', cycle), ...stops.map(({ stop, loaded }) => row(`stop ${stop.name}`, loaded))],
      },
      {
        name: 'there',
        title: 'What is there',
        columns: ['what', 'value'],
        rows: [
          ['drives trip at', tripsAt],
          ...(resistor === undefined
            ? [['resistor', 'none']]
            : [
                ['resistor is switched on at', switchedAt],
                ['resistance', resistor.resistance],
                ['power for any length of time', resistor.power],
                ['energy at once', resistor.energy],
              ]),
        ],
      },
    ],
    later: [],
  };
}
