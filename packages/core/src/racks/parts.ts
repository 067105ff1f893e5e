// The parts that racks are made of, and what a catalogue states of them.
import { pointKinds } from '../physics/point.ts';
import { figure } from '../reading/figure.ts';
import { list, optional, row, section } from '../reading/groups.ts';
import { partKind } from '../reading/parts.ts';
import { count, quantity, quantityIn, text, type Value, word } from '../reading/values.ts';
import { Missing } from '../working/missing.ts';

/** Types of digital inputs by IEC 61131-2: which sensors they go with. */
export const inputTypes = ['1', '2', '3'] as const;
/** Whether a channel takes the current or gives it. */
export const levels = ['sink', 'source'] as const;
/** Thermocouples by IEC 60584-1, resistance thermometers by IEC 60751. */
export const sensors = ['b', 'e', 'j', 'k', 'n', 'r', 's', 't', 'pt100', 'pt1000'] as const;
/** What an output does when the controller is gone. */
export const failures = ['off', 'hold', 'on'] as const;
/** How a rack is fed. */
export const feeds = ['ac', 'dc'] as const;

const places = count({ about: 'How many places of a rack it takes.', least: 0, example: '1' });
const draws = figure('A', { about: 'What it draws from the supply of its rack.', least: 0, example: '90 mA' });
const width = figure('m', { about: 'How wide it is.', above: 0, example: '280 mm' });

const end = quantityIn(['A', 'V'], { about: 'One end of the range.', example: '20 mA' });

/** From one end to the other: `[4 mA, 20 mA]`. */
export const rangeField = row(
  { from: end, to: end },
  { about: 'A range of currents or voltages.', example: '[4 mA, 20 mA]' },
);

const channelFields = {
  kinds: list(word(pointKinds, { about: 'A kind of point that each of the channels can be.' }), {
    about: 'The kinds of points that each of the channels can be, one of them at a time.',
  }),
  count: count({ about: 'How many channels.', least: 1, most: 999, example: '12' }),
  type: optional(word(inputTypes, { about: 'Type of the digital inputs by IEC 61131-2.' })),
  level: optional(word(levels, { about: 'Whether a channel takes the current of the signal or gives it.' })),
  filter: optional(
    figure('s', { about: 'Time for which an input must be the same before it counts.', least: 0, example: '3 ms' }),
  ),
  current: optional(figure('A', { about: 'Current of one output.', above: 0, example: '0.5 A' })),
  current_sum: optional(figure('A', { about: 'Current of all the outputs together.', above: 0, example: '4 A' })),
  fails_to: optional(
    list(word(failures, { about: 'What an output does when the controller is gone.' }), {
      about: 'What its outputs can do when the controller is gone; without power they are off in any case.',
    }),
  ),
  frequency: optional(figure('Hz', { about: 'The highest frequency that is counted.', above: 0, example: '100 kHz' })),
  ranges: optional(list(rangeField, { about: 'The ranges of an analogue channel, one of them at a time.' })),
  sensors: optional(
    list(word(sensors, { about: 'A thermocouple or resistance thermometer.' }), {
      about: 'Thermocouples by the letters of IEC 60584-1, resistance thermometers by IEC 60751.',
    }),
  ),
  screen: optional(
    word(['rack', 'both'], {
      about: 'Where the screen of a cable to it is connected: at the rack, or at both ends. No screen unless said.',
    }),
  ),
  terminals: count({ about: 'Terminals of each channel.', least: 1, most: 99, example: '1' }),
  commons: count({ about: 'Terminals that the channels share.', least: 0, most: 99, example: '2' }),
  commons_to: optional(
    list(word(['plus', 'zero'], { about: 'The line of the 24 V supply that a common terminal is connected to.' }), {
      about: 'What each of the common terminals is connected to, in their order: plus (L+) or zero (0 V).',
    }),
  ),
};

const channelsField = list(section(channelFields, { about: 'Channels that are alike and share what they share.' }), {
  about: 'The groups of channels, numbered on through all of them. Those of one group have the same potential.',
});

/** What a part is bought with. */
const comesWith = optional(
  list(text({ about: 'A part of kind accessory.', example: 'terminals_14' }), {
    about: 'What it is bought with: terminals, a cable. A part that is needed twice stands twice.',
  }),
);

export const moduleFields = {
  places,
  draws,
  comes_with: comesWith,
  channels: channelsField,
  octets_in: quantity('bit', { about: 'What it adds to the answer of a remote rack.', least: 0, example: '2 octets' }),
  octets_out: quantity('bit', {
    about: 'What it adds to the command to a remote rack.',
    least: 0,
    example: '2 octets',
  }),
};
export const moduleKind = partKind('module', moduleFields, { about: 'A module with channels for points.' });

const protective = optional(
  quantity('m²', { about: 'Section of the protective conductor that it asks for.', above: 0, example: '2.5 mm²' }),
);

export const rackFields = {
  places: count({ about: 'How many places it has.', least: 1, example: '9' }),
  width,
  protective,
};
export const rackKind = partKind('rack', rackFields, { about: 'A rack with places for modules.' });

export const powerFields = {
  places,
  gives: figure('A', { about: 'Current that it gives to the modules of its rack.', above: 0, example: '2.5 A' }),
  feed: word(feeds, { about: 'Whether it is fed with alternating or direct current.' }),
  lowest: quantity('V', { about: 'The lowest voltage that it is fed with.', above: 0, example: '85 V' }),
  highest: quantity('V', { about: 'The highest voltage that it is fed with.', above: 0, example: '264 V' }),
  protective,
};
export const powerKind = partKind('power', powerFields, { about: 'A unit that supplies the modules of a rack.' });

export const extenderFields = {
  places,
  draws,
  racks_at_most: count({ about: 'How many racks it can join, the first one among them.', least: 2, example: '4' }),
};
export const extenderKind = partKind('extender', extenderFields, {
  about: 'What joins a further rack to the first one; each rack needs one.',
});

/** What the controller, or the station of a remote rack, takes in its rack. */
export const headFields = {
  rack_places: count({ about: 'How many places of a rack it takes.', least: 0, example: '2' }),
  rack_draws: figure('A', { about: 'What it draws from the supply of its rack.', least: 0, example: '420 mA' }),
};

export const accessoryKind = partKind(
  'accessory',
  {},
  { about: 'What a module is bought with and takes no place: terminals, a cable.' },
);

export const rackKinds = [moduleKind, rackKind, powerKind, extenderKind, accessoryKind] as const;

/** Names that are not written as such are left out; the reading has reported them. */
export const accessoriesIn = (names: Value<readonly Value<string>[]> | undefined): readonly string[] =>
  names === undefined || names instanceof Missing ? [] : names.filter((each) => typeof each === 'string');
