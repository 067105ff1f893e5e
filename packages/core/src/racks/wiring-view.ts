// What `show` tells of the wiring of a location: its wires, the terminals of its modules, the colours.
import type { Cell, Input, LaterTable, View } from '../checks/view.ts';
import { plural } from '../problems/wording.ts';
import { isInput, isOutput } from './designations.ts';
import type { PlannedLocation, PlannedRacks } from './planned.ts';
import { titleOfTerminals } from './terminals-picture.ts';
import { type WiredLocation, type Wiring, wiringOf } from './wiring.ts';
import type { WiringSettings } from './wiring-settings.ts';
import { coloursTable, designationsTable, terminalsTable, wiresTable } from './wiring-tables.ts';

/** Whether the number at an address stands in its tables and in no other view: results, settings, the contact of the controller. */
export const isOfWiring = (address: string): boolean =>
  /^(racks\.(section_for|wire_|warm_|lost_)\w*@|cabinet\.wiring\.|controller\.healthy_contact\.)/.test(address);

const addressOf = ({ location: { path } }: PlannedLocation): string => `${path}.wiring`;

/** One for each location with racks. */
export const wiringAddresses = ({ locations }: PlannedRacks): readonly string[] =>
  locations.filter(({ racks }) => racks.length > 0).map(addressOf);

export function wiringViews(racks: PlannedRacks, address: string): readonly View[] {
  const wanted = wiringAddresses(racks).filter((each) => address === 'racks' || address === each);
  if (wanted.length === 0) return [];
  const wiring = wiringOf(racks);
  return wiring.locations.flatMap((each) =>
    wanted.includes(addressOf(each.location)) ? [wiringView(each, wiring)] : [],
  );
}

function wiringView(wired: WiredLocation, wiring: Wiring): View {
  const { location } = wired;
  return {
    address: addressOf(location),
    title: `Wiring of ${location.location.name}`,
    says: [sentence(wired)],
    inputs: inputsOf(wiring.settings),
    pictures: [],
    tables: [],
    later: [
      { name: 'wires', title: 'Wires', make: () => wiresTable(wired, wiring) },
      ...terminalTables(wired),
      { name: 'designations', title: 'Reference designations', make: () => designationsTable(wired), alone: true },
      { name: 'colours', title: 'Colours of wires', make: () => coloursTable(wiring) },
    ],
  };
}

function sentence({ location: { unplaced, wrong, unsettled }, points, wires }: WiredLocation): Cell {
  const without = unplaced.length + wrong.length + unsettled.length;
  const left =
    without === 0
      ? ''
      : ` ${plural(without, 'point')} more ${without === 1 ? 'is' : 'are'} not wired: racks.placed and racks.suits say why.`;
  const inputs = points.filter(({ point }) => isInput(point)).length;
  const outputs = points.filter(({ point }) => isOutput(point)).length;
  return points.length === 0
    ? `No point has a channel that suits it yet, so nothing is wired.${left}`
    : `${plural(wires().length, 'wire')} for ${plural(points.length, 'point')}, ${inputs} of them in and ${outputs} out.${left}`;
}

/** One for each module with channels: terminals_4 at place 4, terminals_2_4 in the second rack. */
const terminalTables = (wired: WiredLocation): readonly LaterTable[] =>
  wired.location.racks.flatMap(({ modules }, rackAt) =>
    modules.flatMap((module): readonly LaterTable[] => {
      if (module.channels.length === 0) return [];
      const name = `terminals_${rackAt === 0 ? '' : `${rackAt + 1}_`}${module.place ?? module.module.path}`;
      return [{ name, title: titleOfTerminals(module), make: () => terminalsTable(module, wired, name), alone: true }];
    }),
  );

const inputsOf = ({ voltage, warmest }: WiringSettings): readonly Input[] => [
  {
    path: 'cabinet.wiring.voltage',
    title: 'Lowest voltage of the 24 V supply',
    value: voltage,
    span: { least: 18, most: 30 },
  },
  {
    path: 'cabinet.wiring.warmest',
    title: 'Warmest conductor',
    value: warmest,
    span: { least: 273.15, most: 363.15 },
  },
];
