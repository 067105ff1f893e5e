// The wire list and the terminals of a module, as tables.
import type { Cell, Table } from '../checks/view.ts';
import { given, Missing } from '../working/missing.ts';
import { conductorsOf } from './conductors.ts';
import type { LaidModule } from './laid-out.ts';
import { type Terminal, terminalsOf } from './terminals.ts';
import { titleOfTerminals } from './terminals-picture.ts';
import type { WiredPoint } from './wired-point.ts';
import type { WiredLocation, Wiring } from './wiring.ts';
import { colourIsOf, coloursBy, wireColours } from './wiring-colours.ts';
import { lettersAreOf } from './wiring-settings.ts';

/** What stands beside every list of wires. */
export const wiringCaution =
  'Sections, colours and terminals are defaults to start from: local codes go before them, and a licensed electrician decides';

/** What is behind `status only`. */
export const statusCaution = 'the circuit itself is not in this file and must work without the controller';

const healthyCaution =
  'The healthy contact stands in the external stop circuit, which must stop the machine without it too: it is not a safety function';

const ofDesignations = `=function +location -product :terminal, letters by ${lettersAreOf}; the number is location, rack, place and channel`;

/** Every wire of a location, from where to where. */
export function wiresTable(wired: WiredLocation, { settings: { set } }: Wiring): Table {
  const wires = wired.wires();
  const lost = new Map(wired.points.map((each) => [each.point, each.lost]));
  const once = onlyOnce();
  return {
    name: 'wires',
    title: 'Wires',
    note: [
      `${ofDesignations}; colours by ${set instanceof Missing ? 'a set that is not known' : coloursBy[set].source}`,
      ...(wires.some(({ note }) => note.includes('status')) ? [`Status only: ${statusCaution}`] : []),
      ...(wires.some(({ carries }) => carries === 'healthy contact') ? [healthyCaution] : []),
      `Terminals of a strip for the same line of a group are bridged. Protective conductors are those that racks and their supplies ask for, screens those that points or their channels state; what feeds the supplies, and fuses, are not listed. ${wiringCaution}`,
    ].join('. '),
    columns: ['from', 'to', 'point', 'carries', 'section', 'colour', 'cable', 'core', 'length', 'voltage lost', 'note'],
    rows: wires.map((wire): readonly Cell[] => [
      wire.from,
      wire.to,
      wire.point?.name ?? '',
      wire.carries,
      wire.section ?? '',
      wire.colour,
      wire.cable ?? '',
      wire.core,
      // A cable whose length is not known says so with its first core.
      wire.length instanceof Missing ? once(wire.cable, wire.length) : (wire.length ?? ''),
      wire.point === undefined ? '' : once(wire.point, lost.get(wire.point) ?? ''),
      wire.note,
    ]),
  };
}

/** A cell for the first of the rows that share a thing, nothing for the others. */
function onlyOnce(): (of: unknown, cell: Cell) => Cell {
  const shown = new Set<unknown>();
  return (of, cell) => {
    if (shown.has(of)) return '';
    shown.add(of);
    return cell;
  };
}

/** Every terminal of a module, what it belongs to, and what hangs on it. */
export function terminalsTable(module: LaidModule, wired: WiredLocation, name = 'terminals'): Table {
  const terminals = terminalsOf(module);
  const points = new Map(wired.points.map((each) => [each.channel, each]));
  const cells = (terminal: Terminal): readonly Cell[] => {
    if (terminal.is === 'common') return [`group ${terminal.groupAt + 1}`, terminal.line, '', ''];
    const { channel, ofChannel } = terminal;
    const on = points.get(channel);
    const { terminals: each } = channel.group;
    const which = each instanceof Missing || each.value === 1 ? '' : `, ${ofChannel}`;
    return [`channel ${channel.number}${which}`, 'signal', on?.point.name ?? 'free', on ? endOf(on, ofChannel) : ''];
  };
  return {
    name,
    title: titleOfTerminals(module),
    note: 'counted from 1 through the groups of channels: in each group those of its channels, then those that they share',
    columns: ['terminal', 'belongs to', 'carries', 'point', 'sensor or load'],
    rows:
      terminals instanceof Missing
        ? [['', '', terminals, '', '']]
        : terminals.map((terminal) => [String(terminal.number), ...cells(terminal)]),
  };
}

/** The terminal of the device that a terminal of its channel is wired to. */
function endOf({ point, channel, designation }: WiredPoint, ofChannel: number): Cell {
  return given({ conductors: conductorsOf(point, channel), designation }, (known) =>
    ofChannel <= known.conductors.length ? `${known.designation}:${ofChannel}` : 'not wired',
  );
}

/** What is designated at a location: racks and what stands in them, sensors and loads, strips of terminals, cables. */
export const designationsTable = ({ designated }: WiredLocation): Table => ({
  name: 'designations',
  title: 'Reference designations',
  note: ofDesignations,
  columns: ['designation', 'of'],
  rows: designated().map(({ designation, what }) => [designation, what]),
});

/** The colours in use, and what else they are for. */
export function coloursTable({ settings }: Wiring): Table {
  const { set } = settings;
  return {
    name: 'colours',
    title: 'Colours of wires',
    note: `By ${set instanceof Missing ? 'a set that is not known' : coloursBy[set].source}, but for those that cabinet.wiring.other_colours names. ${wiringCaution}`,
    columns: ['wire', 'colour'],
    rows: wireColours.map((each) => [colourIsOf[each], settings.colour(each)]),
  };
}
