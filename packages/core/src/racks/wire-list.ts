// The wires of a location: from which terminal to which, for every point that has a channel, for what its group of channels
// shares, and for the contact by which the controller says that it works.
import type { Value } from '../reading/values.ts';
import { given, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { type Carried, conductorsOf } from './conductors.ts';
import { classOfBeside, type Hook, isDigitalIn, isOutput, placeOfDevice, productOf } from './designations.ts';
import { type LaidChannel, type LaidModule, nameOf } from './laid-out.ts';
import type { PlannedLocation, PlannedRack } from './planned.ts';
import type { ChannelGroup, Point } from './rack.ts';
import { type SupplyLine, type Terminal, terminalsOf } from './terminals.ts';
import { boxOf, lengthFrom, lengthOf, sectionCarrying, sectionOfGroup } from './wire-sizes.ts';
import type { WiredPoint } from './wired-point.ts';
import type { WiringSettings } from './wiring-settings.ts';

export interface Wire {
  /** Nothing for what a group of channels shares and for the contact of the controller. */
  readonly point: Point | undefined;
  /** Designations with their terminals. */
  readonly from: Value<string>;
  readonly to: Value<string>;
  readonly carries: Value<Carried | 'healthy contact' | 'screen' | 'protective conductor'>;
  /** Nothing for a screen. */
  readonly section: Value<Quantity<'m²'>> | undefined;
  readonly colour: Value<string>;
  /** Nothing for a single wire inside the cabinet. */
  readonly cable: Value<string> | undefined;
  /** Its name in the cable. */
  readonly core: string;
  /** Nothing for a single wire inside the cabinet. */
  readonly length: Value<Quantity<'m'>> | undefined;
  readonly note: string;
  /** The terminal of its module that it ends on; nothing where it ends elsewhere. */
  readonly onTerminal?: Terminal | undefined;
}

const statusOnly = { guard: 'guard, status only', emergency_stop: 'emergency stop, status only' } as const;

/** What is to be said of a point that tells the state of a guard or an emergency stop. */
export function statusNote(point: Point): string {
  const { status_of: of } = point;
  if (of === undefined || of instanceof Missing) return '';
  return isOutput(point) ? 'no status: it is an output' : statusOnly[of];
}

const healthyNote = 'not a safety function';

const ownColours = 'as its cable has them';

/** All wires of a location, module by module: first what its groups share, then channel by channel. */
export function wiresOf(
  location: PlannedLocation,
  points: readonly WiredPoint[],
  at: number,
  settings: WiringSettings,
): readonly Wire[] {
  const wiredOn = new Map(points.map((each) => [each.channel, each]));
  return location.racks.flatMap((rack, rackAt) => [
    ...protectiveWires(location, rack, [at, rackAt + 1], settings),
    ...healthyWires(location, rack, [at, rackAt + 1], settings),
    ...rack.modules.flatMap((module) => {
      const used = module.channels.flatMap((channel) => wiredOn.get(channel) ?? []);
      if (module.place === undefined || used.length === 0) return [];
      const frame = frameOf(location, module, [at, rackAt + 1, module.place], settings);
      const groups = [...new Set(used.map(({ channel }) => channel.group))];
      return [
        ...groups.flatMap((group) => {
          const own = used.filter(({ channel }) => channel.group === group);
          // In the order of the file: who was there first names the potential.
          const first = points.find((each) => own.includes(each))!;
          return groupWires(group, own, first, frame);
        }),
        ...used.flatMap((each) => pointWires(each, frame)),
      ];
    }),
  ]);
}

/** What all wires of a module have to do with. */
interface Frame {
  readonly module: LaidModule;
  readonly hook: readonly [location: number, rack: number, place: number];
  readonly settings: WiringSettings;
  readonly terminals: Value<readonly Terminal[]>;
  readonly designation: Value<string>;
  /** The strip of terminals beside it in its own cabinet. */
  readonly strip: Value<string>;
}

function frameOf(
  { location: { name } }: PlannedLocation,
  module: LaidModule,
  hook: Frame['hook'],
  settings: WiringSettings,
): Frame {
  return {
    module,
    hook,
    settings,
    terminals: terminalsOf(module),
    designation: productOf('module', name, hook, settings),
    strip: productOf('terminal', name, hook, settings),
  };
}

const terminalAt = (product: Value<string>, terminal: Value<string | number>): Value<string> =>
  given({ product, terminal }, (known) => `${known.product}:${known.terminal}`);

function pointWires({ point, channel, designation, section }: WiredPoint, frame: Frame): readonly Wire[] {
  const { hook, settings, terminals } = frame;
  const own: Hook = [...hook, channel.number];
  const conductors = conductorsOf(point, channel);
  const box = boxOf(point);
  const cable = productOf('cable', placeOfDevice(point), own, settings);
  const onModule = (conductor: number): Terminal | undefined =>
    terminals instanceof Missing ? undefined : terminalOf(terminals, channel, conductor);
  const leads = (conductors instanceof Missing ? [conductors] : conductors).flatMap(
    (carries, index): readonly Wire[] => {
      const conductor = index + 1;
      const label = `${channel.number}.${conductor}`;
      const common = {
        point,
        carries,
        section,
        colour: colourOf(point, carries, settings),
        note: carries === 'signal' ? statusNote(point) : '',
      };
      const known = [conductors, point.cabinet].find((each) => each instanceof Missing);
      const start = known ?? terminalAt(designation, conductor);
      const onTerminal = carries === 'signal' ? onModule(conductor) : undefined;
      const end =
        known ??
        (carries === 'signal'
          ? terminalAt(
              frame.designation,
              given({ terminals }, () => onTerminal!.number),
            )
          : terminalAt(frame.strip, label));
      const outer = { ...common, from: start, cable, core: String(conductor), length: lengthOf(point) };
      if (box === undefined) return [{ ...outer, to: end, onTerminal }];
      const between = known ?? terminalAt(productOf('terminal', box, hook, settings), label);
      const trunk = productOf('cable', box, hook, settings);
      return [
        { ...outer, to: between },
        { ...common, from: between, to: end, cable: trunk, core: label, length: lengthFrom(box, settings), onTerminal },
      ];
    },
  );
  return [...leads, ...screenWires({ point, channel, designation }, frame)];
}

/** The screen of the cable to a point, on through its box where there is one. */
function screenWires(
  { point, channel, designation }: Pick<WiredPoint, 'point' | 'channel' | 'designation'>,
  { hook, settings, strip }: Frame,
): readonly Wire[] {
  const screen = point.screen ?? channel.group.screen;
  if (screen === undefined || screen === 'none') return [];
  const box = boxOf(point);
  const cable = productOf('cable', placeOfDevice(point), [...hook, channel.number], settings);
  const label = `${channel.number}.${screenTerminal}`;
  const wire = (from: Value<string>, to: Value<string>, of: Value<string>, length: Wire['length']): Wire => ({
    point,
    from,
    to,
    carries: given({ screen }, () => 'screen' as const),
    section: undefined,
    colour: 'none: it is the screen',
    cable: of,
    core: 'screen',
    length,
    note: screen === 'rack' ? 'connected at the rack only' : '',
  });
  const start = given({ screen, designation, cable }, (known) =>
    known.screen === 'both' ? `${known.designation}:${screenTerminal}` : `${known.cable}: its far end, left open`,
  );
  if (box === undefined) return [wire(start, terminalAt(strip, label), cable, lengthOf(point))];
  const between = terminalAt(productOf('terminal', box, hook, settings), label);
  return [
    wire(start, between, cable, lengthOf(point)),
    wire(between, terminalAt(strip, label), productOf('cable', box, hook, settings), lengthFrom(box, settings)),
  ];
}

/** What the terminal of a screen is called (common practice). */
const screenTerminal = 'SH';

/** From the bar of protective conductors to the rack and to what supplies it, as far as they ask for one. */
function protectiveWires(
  { location }: PlannedLocation,
  { rack, beside }: PlannedRack,
  hook: readonly [number, number],
  settings: WiringSettings,
): readonly Wire[] {
  const wire = (section: Value<Quantity<'m²'>>, to: Value<string>): Wire => ({
    point: undefined,
    from: `protective bar of ${location.name}: PE`,
    to: terminalAt(to, 'PE'),
    carries: 'protective conductor',
    section,
    colour: settings.colour('protective'),
    cable: undefined,
    core: '',
    length: undefined,
    note: '',
  });
  return [
    ...(rack.protective === undefined ? [] : [wire(rack.protective, productOf('rack', location.name, hook, settings))]),
    ...beside.flatMap(({ beside: each, place }) =>
      each.protective === undefined || place === undefined
        ? []
        : [wire(each.protective, productOf(classOfBeside(each), location.name, [...hook, place], settings))],
    ),
  ];
}

/** The terminal of a channel that one of its conductors ends on. */
const terminalOf = (terminals: readonly Terminal[], channel: LaidChannel, conductor: number): Terminal =>
  terminals.find((each) => each.is === 'channel' && each.channel === channel && each.ofChannel === conductor)!;

/** What the channels in use of one group share: its common terminals, and the lines of the supply that any of it needs. */
function groupWires(
  group: ChannelGroup,
  used: readonly WiredPoint[],
  first: WiredPoint,
  frame: Frame,
): readonly Wire[] {
  const { terminals, module, settings } = frame;
  const groupAt = first.channel.groupAt;
  const section = sectionOfGroup(
    group,
    `${module.module.path}.channels.${groupAt}`,
    `${module.label}.group_${groupAt + 1}`,
    settings,
  );
  const wire = (from: Value<string>, to: Value<string>, line: Value<SupplyLine>): Wire => ({
    point: undefined,
    from,
    to,
    carries: line,
    section,
    colour: given({ line }, ({ line }) => settings.colour(line === 'L+' ? 'dc_control' : 'dc_return')),
    cable: undefined,
    core: '',
    length: undefined,
    note: '',
  });
  const inStrip = (what: string | number): Value<string> => terminalAt(frame.strip, `G${groupAt + 1}.${what}`);
  if (terminals instanceof Missing) return [wire(terminals, terminals, terminals)];
  const commons = terminals.flatMap((each) => (each.is === 'common' && each.group === group ? [each] : []));
  const needed = new Set<unknown>([
    ...commons.map(({ line }) => line),
    ...used.flatMap(({ channel, point }) => {
      const conductors = conductorsOf(point, channel);
      return conductors instanceof Missing ? [] : conductors;
    }),
  ]);
  const potential = nameOf(first.point.potential);
  const supply = potential === undefined ? '24 V supply' : `24 V supply of ${potential}`;
  return [
    ...(['L+', '0 V'] as const).flatMap((line) =>
      needed.has(line) ? [wire(`${supply}: ${line}`, inStrip(line.replace(' ', '')), line)] : [],
    ),
    ...commons.map((onTerminal): Wire => {
      const { number, line } = onTerminal;
      return { ...wire(inStrip(number), terminalAt(frame.designation, number), line), onTerminal };
    }),
  ];
}

function colourOf(point: Point, carries: Value<Carried>, { colour }: WiringSettings): Value<string> {
  const { circuit, kind } = point;
  if (circuit === undefined) {
    if (kind === 'relay') return missing(`${point.path}.circuit`, 'absent', 'the circuit of its contact', 'dc_control');
    if (kind !== 'digital_out' && !isDigitalIn(point)) return ownColours;
  }
  return given({ carries, circuit }, ({ carries, circuit = 'dc_control' }) => {
    if (carries === 'spare') return ownColours;
    return colour(circuit === 'dc_control' && carries === '0 V' ? 'dc_return' : circuit);
  });
}

function healthyWires(
  { location }: PlannedLocation,
  rack: PlannedRack,
  [at, rackAt]: readonly [number, number],
  settings: WiringSettings,
): readonly Wire[] {
  const head = rack.beside.find(({ beside }) => beside === location.head);
  if (location.healthy === undefined || head === undefined) return [];
  const { beside, place } = head;
  const { current } = location.healthy;
  const hook: Hook | undefined = place === undefined ? undefined : [at, rackAt, place];
  const of = (what: 'terminal' | ReturnType<typeof classOfBeside>): Value<string> =>
    hook === undefined
      ? missing(rack.rack.path, 'absent', 'the places of what stands in the rack', 'places: 1')
      : productOf(what, location.name, hook, settings);
  const section = settings.section ?? sectionCarrying(current, `${location.name}.healthy_contact`, settings);
  return [1, 2].map((terminal) => ({
    point: undefined,
    from: terminalAt(of(classOfBeside(beside)), `H${terminal}`),
    to: terminalAt(of('terminal'), terminal),
    carries: 'healthy contact',
    section,
    colour: 'as the stop circuit has them',
    cable: undefined,
    core: '',
    length: undefined,
    note: healthyNote,
  }));
}
