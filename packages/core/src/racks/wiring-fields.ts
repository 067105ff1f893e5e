// What a machine file says of wiring: of each point, and under `cabinet.wiring` of all wires.
import type { Field, Read } from '../reading/field.ts';
import { figure } from '../reading/figure.ts';
import { group, list, optional, row, section } from '../reading/groups.ts';
import { spoilt } from '../reading/reading.ts';
import { count, plainText, quantity, text, type Value, word } from '../reading/values.ts';
import { colourIsOf, colourSets, wireColours } from './wiring-colours.ts';

/** The letter of each class of things that is designated; values of a file go before these. */
export const designated = [
  'rack',
  'module',
  'supply',
  'sensor',
  'switch',
  'load',
  'line',
  'terminal',
  'cable',
] as const;
export type Designated = (typeof designated)[number];

/** A text of a certain form. */
function formed(form: RegExp, spec: { about: string; due: string; example: string; remedy: string }) {
  const field: Field<Value<string>> = {
    read: (at, path, reading) => {
      const read = plainText(at, path, reading, spec.due, spec.example);
      if (typeof read !== 'string' || form.test(read)) return read;
      reading.problem(at!, 'value', {
        code: 'name-form',
        message: `'${read}' is no ${spec.due.replace(/^an? /, '')}`,
        remedy: spec.remedy,
      });
      return spoilt(path, spec.due, spec.example);
    },
    schema: () => ({
      type: 'string',
      pattern: `${form.source}|^open$|^unknown$`,
      description: spec.about,
      examples: [spec.example],
    }),
  };
  return field;
}

const designation = formed(/^(=[A-Za-z0-9_.]+)?(\+[A-Za-z0-9_.]+)?-[A-Za-z][A-Za-z0-9_.]*$/, {
  about: 'Its reference designation where it shall be another than its own; function and location may be left out.',
  due: 'a designation',
  example: '-S5',
  remedy:
    'Write a letter and a number such as -S5, with function and location such as =press+door-S5 where they are others.',
});

const functionName = formed(/^[A-Za-z][A-Za-z0-9_.]*$/, {
  about: 'The function of the machine that it belongs to, for its reference designation.',
  due: 'a name of your own',
  example: 'feeding',
  remedy: 'Write letters, digits, points and _, such as feeding.',
});

const letters = (of: Designated) =>
  formed(/^[A-Z]{1,3}$/, {
    about: `Letters of ${isLetterOf[of]}.`,
    due: 'a class',
    example: 'K',
    remedy: 'Write one to three capital letters, such as K.',
  });

const sectionOfWire = (about: string) => optional(quantity('m²', { about, above: 0, example: '0.75 mm²' }));

/** What wiring reads of a point. */
export const wiredPointFields = {
  designation: optional(designation),
  function: optional(functionName),
  conductors: optional(
    count({
      about:
        'How many conductors lead to it. Unless said, one for each terminal of its channel and at least two; two to a relay or a thermocouple.',
      least: 1,
      most: 99,
      example: '3',
    }),
  ),
  section: sectionOfWire('Section of its conductors.'),
  screen: optional(
    word(['none', 'rack', 'both'], {
      about:
        'Where the screen of its cable is connected: at the rack, or at both ends; none where it has no screen. As its channel states unless said.',
    }),
  ),
  circuit: optional(
    word(['dc_control', 'ac_control', 'power', 'excepted'], {
      about:
        'The circuit that its wires belong to, which gives their colour: dc_control unless said; of a relay it has to be said. Excepted circuits stay live when the machine is switched off.',
    }),
  ),
  status_of: optional(
    word(['guard', 'emergency_stop'], {
      about:
        'What it only tells the state of. The circuit of a guard or an emergency stop itself must work without the controller and is not in this file.',
    }),
  ),
  voltage_at_least: optional(
    quantity('V', { about: 'The lowest voltage that its load works with.', above: 0, example: '20.4 V' }),
  ),
  sensor_drop: optional(
    quantity('V', { about: 'What its sensor keeps for itself when it is on.', least: 0, example: '2.5 V' }),
  ),
};

const carries = row(
  {
    section: quantity('m²', { about: 'A section.', above: 0, example: '0.75 mm²' }),
    current: quantity('A', { about: 'The current that it carries.', above: 0, example: '8.5 A' }),
  },
  { about: 'A section and the current that it carries.', example: '[0.75 mm², 8.5 A]' },
);

const inputType = (type: string) =>
  section(
    {
      on_from: optional(quantity('V', { about: `The lowest voltage at which it is on.`, above: 0, example: '11 V' })),
      draws: optional(quantity('A', { about: 'The most that it draws when it is on.', above: 0, example: '15 mA' })),
    },
    { about: `An input of type ${type} by IEC 61131-2.` },
  );

const isLetterOf: Readonly<Record<Designated, string>> = {
  rack: 'a rack',
  module: 'a module, a controller, a station, and what joins racks',
  supply: 'what supplies a rack',
  sensor: 'a sensor',
  switch: 'what a hand moves, such as an emergency stop',
  load: 'what an output drives',
  line: 'what a serial line leads to',
  terminal: 'a strip of terminals',
  cable: 'a cable',
};

const textsOf = <K extends string, T>(keys: readonly K[], of: (key: K) => Field<T>) =>
  Object.fromEntries(keys.map((key) => [key, optional(of(key))])) as Readonly<Record<K, Field<T | undefined>>>;

/** The section `cabinet.wiring`. */
export const wiringField = section(
  {
    colours: optional(
      word(colourSets, { about: 'The set of colours that wires have, by IEC 60204-1 unless said, or by NFPA 79.' }),
    ),
    other_colours: section(
      textsOf(wireColours, (of) => text({ about: `Colour of ${colourIsOf[of]}.`, example: 'violet' })),
      { about: 'Colours that shall be others than those of the set.' },
    ),
    section: sectionOfWire('Section of every conductor whose point says no other.'),
    carries: optional(list(carries, { about: 'The sections in use, each with the current that it carries.' })),
    voltage: optional(
      quantity('V', { about: 'The lowest voltage at the terminals of the 24 V supply.', above: 0, example: '23.5 V' }),
    ),
    warmest: optional(quantity('K abs', { about: 'The highest temperature of the conductors.', example: '70 °C' })),
    resistivity: optional(
      quantity('Ω·m', { about: 'Resistivity of the conductors.', above: 0, example: '0.0178 Ω·mm²/m' }),
    ),
    resistivity_at: optional(
      quantity('K abs', { about: 'The temperature that the resistivity is stated for.', example: '20 °C' }),
    ),
    temperature_coefficient: optional(
      quantity('1/K', {
        about: 'By how much the resistivity grows for each kelvin.',
        least: 0,
        example: '0.00393 1/K',
      }),
    ),
    inputs: section(
      { type_1: inputType('1'), type_2: inputType('2'), type_3: inputType('3') },
      { about: 'What digital inputs need and draw.' },
    ),
    boxes: group(
      section(
        {
          wire: quantity('m', {
            about: 'How long the cable is from the box to the rack.',
            above: 0,
            example: '20 m',
          }),
        },
        { about: 'A box that wires of points lead to.' },
      ),
      { about: 'The boxes that points name as their cabinet.' },
    ),
    stop_circuit: section(
      {
        voltage: optional(quantity('V', { about: 'Its voltage.', above: 0, example: '24 V' })),
        current: optional(
          quantity('A', { about: 'The current that the contact switches in it.', above: 0, example: '0.2 A' }),
        ),
      },
      {
        about:
          'What the external stop circuit asks of the healthy contact of the controller. The circuit itself is not in this file.',
      },
    ),
    letters: section(textsOf(designated, letters), {
      about: 'Letters in reference designations that shall be others than those of IEC 81346-2.',
    }),
  },
  {
    about: 'How the points are wired. What is not said has a default with its origin; local codes go before all of it.',
  },
);

export type WiringSection = Read<typeof wiringField>;

/** What the controller states of a contact that is closed as long as it works as it should. */
export const healthyFields = {
  healthy_contact: section(
    {
      voltage: quantity('V', { about: 'The highest voltage that it switches.', above: 0, example: '30 V' }),
      current: figure('A', { about: 'The current that it switches.', above: 0, example: '0.5 A' }),
    },
    {
      about:
        'A contact that opens when the controller stops or finds a fault, for the external stop circuit. It is not a safety function.',
    },
  ),
};
