// What `show` tells of one module: its terminals with what is wired to each, and its channels.
import type { Cell, View } from '../checks/view.ts';
import { plural } from '../problems/wording.ts';
import { Missing } from '../working/missing.ts';
import type { LaidModule } from './laid-out.ts';
import type { PlannedRacks } from './planned.ts';
import { named } from './tables.ts';
import { terminalsOf } from './terminals.ts';
import { terminalsPicture, titleOfTerminals } from './terminals-picture.ts';
import { wiringOf } from './wiring.ts';
import { terminalsTable } from './wiring-tables.ts';

interface Placed {
  readonly module: LaidModule;
  readonly location: number;
}

const modulesOf = ({ locations }: PlannedRacks): readonly Placed[] =>
  locations.flatMap(({ racks }, location) =>
    racks.flatMap(({ modules }) =>
      modules.flatMap((module) => (module.channels.length === 0 ? [] : [{ module, location }])),
    ),
  );

/** By its path in the file; `show` takes rack and place as well: racks.main.4. */
export const moduleAddresses = (racks: PlannedRacks): readonly string[] =>
  modulesOf(racks).map(({ module }) => module.module.path);

export function moduleViews(racks: PlannedRacks, address: string): readonly View[] {
  return modulesOf(racks).flatMap(({ module, location }) => {
    if (address !== module.module.path && address !== `racks.${module.label}`) return [];
    return [moduleView(module, wiringOf(racks).locations[location]!)];
  });
}

function moduleView(module: LaidModule, wired: Parameters<typeof terminalsPicture>[1]): View {
  const drawn = terminalsPicture(module, wired);
  return {
    address: module.module.path,
    title: titleOfTerminals(module),
    says: [sentence(module)],
    inputs: [],
    pictures: drawn === undefined ? [] : [drawn],
    tables: [terminalsTable(module, wired)],
    later: [],
  };
}

function sentence(module: LaidModule): Cell {
  const { label, channels } = module;
  const used = channels.filter(({ points }) => points.length > 0).length;
  const terminals = terminalsOf(module);
  const there = terminals instanceof Missing ? '' : ` on ${plural(terminals.length, 'terminal')}`;
  return `${named(module.module.part)} at ${label}: ${used} of ${plural(channels.length, 'channel')}${there} ${used === 1 ? 'has' : 'have'} a point.`;
}
