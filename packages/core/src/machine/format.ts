// The list of all sections of a machine file. A domain adds its section here and nowhere else.

import { axisKinds, driveFigures } from '../axes/parts.ts';
import { axisFields, busesField, mastersField } from '../axes/section.ts';
import { markKinds } from '../marks/parts.ts';
import { marksField } from '../marks/section.ts';
import {
  controllerFields,
  controllerKind as controllerOfNetworks,
  driveKind as driveAsStation,
  networkKinds,
  stationKind as stationOfNetworks,
  stationUse,
} from '../networks/parts.ts';
import { networksField } from '../networks/section.ts';
import { headFields, rackKinds } from '../racks/parts.ts';
import { healthyFields, pointFields, racksField, spareField, wiringField } from '../racks/section.ts';
import type { Field, Read } from '../reading/field.ts';
import { group, list, optional, section } from '../reading/groups.ts';
import { type PartKind, partKind, partUse } from '../reading/parts.ts';
import { anything, name, quantity, quantityIn, share, text, version, word } from '../reading/values.ts';
import { controllerTaskFields } from '../timing/parts.ts';
import { chainsField, memoryField, pointTimes, tasksField } from '../timing/section.ts';
import { reserveChecks } from './reserves.ts';
import { settingsField } from './settings.ts';

const plannedIs = 'What the planner chose for values that are open, by path. Remove a line to let it choose again.';

/** The version of the machine file that this program reads. */
export const fileVersion = '1';

/** A station to its network, a source of current to its axis. */
const driveKind = partKind(
  driveAsStation.kind,
  { ...driveAsStation.fields, ...driveFigures },
  { about: driveAsStation.about },
);

/** To its networks, to its tasks, and in its rack. */
const controllerKind = partKind(
  controllerOfNetworks.kind,
  { ...controllerOfNetworks.fields, ...controllerTaskFields, ...headFields, ...healthyFields },
  { about: controllerOfNetworks.about },
);

/** On its network, and as the head of a remote rack. */
const stationKind = partKind(
  stationOfNetworks.kind,
  { ...stationOfNetworks.fields, ...headFields },
  { about: stationOfNetworks.about },
);

const composed: readonly PartKind[] = [driveKind, controllerKind, stationKind];

export const partKinds: readonly PartKind[] = [
  ...composed,
  ...networkKinds.filter(({ kind }) => composed.every((each) => each.kind !== kind)),
  ...axisKinds,
  ...markKinds,
  ...rackKinds,
];

export const format = {
  layshaft: version(fileVersion),
  machine: section(
    {
      name: text({ about: 'What the machine is called.', example: 'Tin labeller' }),
      gravity: optional(
        quantity('m/s²', {
          about: 'Acceleration of gravity at the place, where the standard one (9.80665 m/s²) will not do.',
          above: 0,
          example: '9.81 m/s²',
        }),
      ),
      ambient: optional(
        quantity('K abs', { about: 'The warmest surroundings that the machine works in.', example: '35 °C' }),
      ),
      altitude: optional(quantity('m', { about: 'Height of the place above the sea.', example: '400 m' })),
    },
    { about: 'The machine as a whole.' },
  ),
  reserves: section(
    {
      ...Object.fromEntries(
        reserveChecks.map((id) => [
          id,
          optional(share({ about: `The share of the capacity that ${id} shall leave free.`, example: '20 %' })),
        ]),
      ),
      'racks.spare': spareField,
    },
    { about: 'Wanted margins, by check. A check without one here uses its printed default.' },
  ),
  catalogue: list(name({ about: 'A catalogue to look parts up in.', due: 'a catalogue', example: 'demonstration' }), {
    about: 'The catalogues, later ones first.',
  }),
  cabinet: section(
    {
      supply: section(
        {
          mains: optional(
            quantity('V', { about: 'The mains, effective, between conductors.', above: 0, example: '400 V' }),
          ),
          low: optional(quantity('V', { about: 'The lowest that they fall to.', above: 0, example: '360 V' })),
        },
        { about: 'What feeds the machine.' },
      ),
      wiring: wiringField,
    },
    { about: 'The cabinet.' },
  ),
  masters: mastersField,
  axes: group(
    section(
      {
        ...axisFields,
        drive: partUse(
          [driveKind],
          { ...stationUse, ...driveFigures },
          { about: 'The drive of the axis, a station of a network.', example: 'drive_10' },
        ),
        cycle_at_most: quantity('s', {
          about: 'The longest period between two updates that the axis tolerates.',
          above: 0,
          example: '1 ms',
        }),
        tolerance: optional(
          quantityIn(['m', 'rad'], {
            about: 'How far the tool may be from where it should be.',
            above: 0,
            example: '0.05 mm',
          }),
        ),
        speed_step_at_most: optional(
          quantityIn(['m/s', 'rad/s'], {
            about: 'How far the speed of the tool may step from setpoint to setpoint.',
            above: 0,
            example: '5 mm/s',
          }),
        ),
        agrees_with: optional(
          list(name({ about: 'An axis on the same master.', due: 'an axis', example: 'print_1' }), {
            about:
              'The axes that it must agree with while both follow one master: they may be apart by the tolerance of this axis.',
          }),
        ),
        loop: optional(
          word(['drive', 'controller'], {
            about: 'Where its position loop closes: in the drive, unless said, or over the network in the controller.',
          }),
        ),
      },
      { about: 'An axis.' },
    ),
    {
      about: 'The axes of the machine. An axis that a run names is a station of that network.',
      reserved: { controller: 'the controller has it' },
    },
  ),
  buses: busesField,
  controller: partUse(
    [controllerKind],
    { ...controllerFields, ...controllerTaskFields, ...headFields, ...healthyFields },
    { about: 'The motion controller.', example: 'controller_m' },
  ),
  networks: networksField,
  tasks: tasksField,
  chains: chainsField,
  points: group(section({ ...pointTimes, ...pointFields }, { about: 'A point: one signal to or from the machine.' }), {
    about: 'The points of the machine, by name.',
  }),
  points_from: list(name({ about: 'A file with points.', due: 'a file', example: 'points.csv' }), {
    about: 'Files beside this one with more points, as comma-separated values that name their columns at the top.',
  }),
  racks: racksField,
  memory: memoryField,
  marks: marksField,
  set: settingsField,
  planned: {
    ...anything({ about: plannedIs }),
    schema: () => ({
      type: 'object',
      description: plannedIs,
      additionalProperties: { description: 'What was chosen for the value at this path.' },
    }),
  },
} satisfies Record<string, Field<unknown>>;

export type Format = typeof format;
export type SectionName = keyof Format;
export type Sections = { readonly [K in SectionName]: Read<Format[K]> };
