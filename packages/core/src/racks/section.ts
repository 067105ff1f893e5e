// The section `racks` of a machine file, what racks read of `points`, and the spare that is wanted.
import { type PointKind, pointKinds } from '../physics/point.ts';
import type { Field, Read } from '../reading/field.ts';
import { group, list, optional, section } from '../reading/groups.ts';
import { mustBeOneOf } from '../reading/must-be-one-of.ts';
import { partUse } from '../reading/parts.ts';
import type { Cursor, Reading } from '../reading/reading.ts';
import { spoilt } from '../reading/reading.ts';
import { name, plainText, quantity, share, text, type Value, word } from '../reading/values.ts';
import { Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import {
  extenderFields,
  extenderKind,
  failures,
  feeds,
  inputTypes,
  levels,
  moduleFields,
  moduleKind,
  powerFields,
  powerKind,
  rackFields,
  rackKind,
  rangeField,
  sensors,
} from './parts.ts';
import { wiredPointFields } from './wiring-fields.ts';

export { healthyFields, wiringField } from './wiring-fields.ts';

/** The rack at the controller. */
export const atController = 'main';

/** Where a point sits: `main.3.7` is channel 7 of what begins at place 3 of the rack main, `main/2.3.7` of its second rack. */
export interface ChannelName {
  readonly location: string;
  /** The first rack of the location is 1. */
  readonly rack: number;
  readonly place: number;
  readonly channel: number;
  readonly at: Cursor;
}

const channelForm = /^([a-z][a-z0-9_]*)(?:\/([1-9]\d?))?\.([1-9]\d{0,2})\.([1-9]\d{0,2})$/;

const channelField: Field<Value<ChannelName>> = {
  read: (at, path, reading) => {
    const due = 'rack, place and channel';
    // A point of which no channel is said leaves it open.
    const where = at ?? reading.planned(path);
    const read = plainText(where, path, reading, due, 'main.3.7');
    if (typeof read !== 'string') return read;
    const [whole, location = '', rack = '1', place, channel] = channelForm.exec(read) ?? [];
    if (whole !== undefined)
      return { location, rack: Number(rack), place: Number(place), channel: Number(channel), at: where! };
    reading.problem(where!, 'value', {
      code: 'name-form',
      message: `'${read}' is no channel`,
      remedy: 'Write rack, place and channel such as main.3.7, or main/2.3.7 in the second rack.',
    });
    return spoilt(path, due, 'main.3.7');
  },
  schema: () => ({
    type: 'string',
    pattern: `${channelForm.source.slice(0, -1)}$|^open$|^unknown$`,
    description: 'The channel that it sits on: rack, place and channel. Open where nothing is said.',
    examples: ['main.3.7'],
  }),
};

const groupName = (about: string, example: string) => optional(name({ about, due: 'a name of your own', example }));

/** What racks read of a point, beside its kind and where it is. */
export const pointFields = {
  type: optional(word(inputTypes, { about: 'Type of the digital input by IEC 61131-2 that its sensor goes with.' })),
  level: optional(
    word(levels, { about: 'Whether its channel shall take the current of the signal or give it; either unless said.' }),
  ),
  current: optional(quantity('A', { about: 'Current of its load.', above: 0, example: '0.5 A' })),
  range: optional(rangeField),
  sensor: optional(word(sensors, { about: 'Its thermocouple or resistance thermometer.' })),
  frequency: optional(quantity('Hz', { about: 'The highest frequency that comes in.', above: 0, example: '40 kHz' })),
  pulse: optional(
    quantity('s', {
      about:
        'The shortest time that the signal is there or away; it follows from pulse_every where a task counts its pulses.',
      above: 0,
      example: '8 ms',
    }),
  ),
  update: optional(quantity('s', { about: 'The longest time between two looks at it.', above: 0, example: '4 ms' })),
  fails_to: optional(word(failures, { about: 'What an output does when the controller is gone; off unless said.' })),
  together: groupName('Points with the same name here sit on one module.', 'valve_block'),
  apart: groupName('No two points with the same name here sit on one module.', 'pumps'),
  potential: groupName('Points with another name here share no group of channels with it.', 'brakes'),
  cabinet: groupName('The cabinet or box that its wire leads to.', 'box_2'),
  wire: optional(quantity('m', { about: 'How long its wire is.', above: 0, example: '12 m' })),
  title: optional(text({ about: 'What it is, in a few words.', example: 'Lid 1 closed' })),
  ...wiredPointFields,
  channel: channelField,
};

const modulesField = (about: string) =>
  list(partUse([moduleKind], moduleFields, { about: 'A module.', example: 'in_20' }), { about });

const oneRack = {
  rack: partUse([rackKind], rackFields, { about: 'The rack.', example: 'rack_9' }),
  power: partUse([powerKind], powerFields, { about: 'What supplies its modules.', example: 'power_ac' }),
  modules: modulesField('Its modules, in the order of their places.'),
  added: optional(modulesField('Modules behind those; open where the planner may put in more.')),
};

const locationField = section(
  {
    ...oneRack,
    feed: optional(
      section(
        {
          kind: word(feeds, { about: 'Whether it is alternating or direct current.' }),
          lowest: quantity('V', { about: 'The lowest voltage.', above: 0, example: '20.4 V' }),
          highest: quantity('V', { about: 'The highest voltage.', above: 0, example: '28.8 V' }),
        },
        { about: 'What the units that supply the modules are fed with.' },
      ),
    ),
    extender: partUse([extenderKind], extenderFields, {
      about: 'What joins further racks to the first one; it stands in the last place of each of them.',
      example: 'extender_4',
    }),
    further: optional(
      list(section(oneRack, { about: 'A further rack.' }), {
        about: 'Racks that are joined to the first one, in their order; open where the planner may add some.',
      }),
    ),
  },
  { about: 'The racks at one place: main at the controller, or under the name of the station that they hang on.' },
);

const locationsField = group(openable(locationField), {
  about:
    'The racks: main at the controller, others under the name of their station. The word open stands for racks that are all to be chosen.',
});

/** `racks: open` leaves all of them open; then each location that points name has racks to be chosen. */
export const racksField: Field<{ readonly open: boolean; readonly locations: readonly LocationSection[] }> = {
  read: (at, path, reading) => {
    const word = at?.node.kind === 'leaf' ? at.node.text : '';
    const planned = word === 'open' ? reading.planned(path) : undefined;
    if (planned === undefined && (word === 'open' || word === 'unknown'))
      return { open: word === 'open', locations: [] };
    return { open: false, locations: locationsField.read(planned ?? at, path, reading) };
  },
  schema: () => ({ anyOf: [locationsField.schema(), { enum: ['open', 'unknown'] }] }),
};

export type LocationSection = Read<typeof locationField> & { readonly open: boolean; readonly name: string };
export type OneRackSection = Pick<LocationSection, 'rack' | 'power' | 'modules' | 'added'> & { readonly path: string };

/** Reports racks under a name that is no station; where the file has no networks, nobody knows the stations yet. */
export function compareRacks(
  locations: readonly LocationSection[],
  stations: readonly string[],
  reading: Reading,
): void {
  if (stations.length === 0) return;
  for (const { name, path } of locations) {
    const at = reading.places.get(path);
    if (at !== undefined)
      mustBeOneOf(
        { name, at },
        [atController, ...stations],
        'station',
        'Name a node of a network, or main.',
        reading,
        'key',
      );
  }
}

/** The racks at a location that the file describes, the first one first. */
export const racksSaid = (section: LocationSection): readonly OneRackSection[] =>
  section.further === undefined || section.further instanceof Missing ? [section] : [section, ...section.further];

/** A section, or the word open in its place. */
function openable<T extends object>(field: Field<T>): Field<T & { readonly open: boolean }> {
  return {
    read: (at, path, reading) => {
      const open = at?.node.kind === 'leaf' && at.node.text === 'open';
      return { ...field.read(open ? undefined : at, path, reading), open };
    },
    schema: () => {
      const inner = field.schema();
      return { anyOf: [inner, { enum: ['open'] }] };
    },
  };
}

/** The wanted spare: a share for every kind, or one for each with what it is a share of. */
export interface Spare {
  readonly path: string;
  readonly every: Value<Quantity<'1'>> | undefined;
  readonly ofKind: { readonly [K in PointKind]?: Value<Quantity<'1'>> | undefined };
  readonly of: 'total' | 'used';
}

const aShare = share({ about: 'The share of the channels that shall be free.', example: '20 %' });
const byKind = section(
  {
    ...(Object.fromEntries(pointKinds.map((kind) => [kind, optional(aShare)])) as Readonly<
      Record<PointKind, Field<Value<Quantity<'1'>> | undefined>>
    >),
    share_of: optional(
      word(['total', 'used'], {
        about: 'What the shares are of: all channels of the kind unless said, or those used.',
      }),
    ),
  },
  { about: 'The wanted spare, by kind of point.' },
);

export const spareField: Field<Spare | undefined> = {
  read: (at, path, reading) => {
    if (at === undefined) return undefined;
    if (at.node.kind !== 'map') return { path, every: aShare.read(at, path, reading), ofKind: {}, of: 'total' };
    const { share_of: of, path: _, ...ofKind } = byKind.read(at, path, reading);
    return { path, every: undefined, ofKind, of: of === undefined || of instanceof Missing ? 'total' : of };
  },
  schema: () => ({ anyOf: [aShare.schema(), byKind.schema()] }),
};
