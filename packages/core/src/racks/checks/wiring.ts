// racks.designations, racks.voltage, racks.status: are wires told apart, does enough voltage arrive, and what is status only?
import { question } from '../../checks/finding.ts';
import type { Value } from '../../reading/values.ts';
import { given, Missing, missing } from '../../working/missing.ts';
import type { Quantity } from '../../working/quantity.ts';
import { arrives, lostTogether } from '../calc/wires.ts';
import { isDigitalIn, isOutput } from '../designations.ts';
import type { PlannedLocation, PlannedRacks } from '../planned.ts';
import type { Point } from '../rack.ts';
import { statusNote } from '../wire-list.ts';
import { typeOf } from '../wire-sizes.ts';
import type { WiredPoint } from '../wired-point.ts';
import { wiringOf } from '../wiring.ts';
import type { WiringSettings } from '../wiring-settings.ts';
import { statusCaution } from '../wiring-tables.ts';

interface Named {
  readonly location: { readonly name: string; readonly path: string };
  /** Designations of the location that something else has too, with all that have them. */
  readonly twice: Value<readonly { readonly designation: string; readonly of: readonly string[] }[]>;
  readonly count: number;
}

export const designations = question<PlannedRacks, Named>({
  id: 'racks.designations',
  title: 'Reference designations',
  asks: 'Has everything a designation of its own?',
  page: `Asked of every location with points of which the file says a \`designation\`, and of all where \`cabinet.wiring.letters\` says
letters of its own. What is numbered by itself is never the same twice: the number is the place that a thing hangs on. Racks, what
stands in them, sensors, loads, strips of terminals and cables are looked at.`,
  advice: 'another designation for one of them',
  subjects: (racks) => {
    const isSaid = ({ placed }: PlannedLocation): boolean =>
      racks.wiring.hasOwnLetters || placed.some(({ point }) => point.designation !== undefined);
    if (!racks.locations.some(isSaid)) return [];
    const { locations } = wiringOf(racks);
    const of = new Map<string, string[]>();
    for (const { designated } of locations)
      for (const { designation, what } of designated())
        if (!(designation instanceof Missing)) of.set(designation, [...(of.get(designation) ?? []), what]);
    return locations.flatMap(({ location, designated }): readonly Named[] => {
      if (!isSaid(location)) return [];
      const asked = designated().map(({ designation }) => designation);
      const twice = given({ asked }, (known) =>
        [...new Set(known.asked)].flatMap((designation) => {
          const all = of.get(designation)!;
          return all.length > 1 ? [{ designation, of: all }] : [];
        }),
      );
      return [{ location: location.location, twice, count: asked.length }];
    });
  },
  name: ({ location }) => location.name,
  path: ({ location }) => location.path,
  answer: ({ twice, count }) =>
    given({ twice }, ({ twice }) =>
      twice.length === 0
        ? { yes: true, because: `each of ${count} has one` }
        : {
            yes: false,
            because: twice
              .slice(0, 3)
              .map(({ designation, of }) => `${designation} is ${of.join(' and ')}`)
              .join('; '),
          },
    ),
});

interface Fed extends WiredPoint {
  readonly settings: WiringSettings;
}

/** A contact may switch another voltage than 24 V, so its circuit has to be said. */
function isAsked(point: Point): boolean {
  const { kind, wire, sensor_drop, current, voltage_at_least, circuit } = point;
  if (wire === undefined) return false;
  if (isDigitalIn(point)) return sensor_drop !== undefined;
  const isFed = kind === 'digital_out' || (kind === 'relay' && circuit === 'dc_control');
  return isFed && current !== undefined && voltage_at_least !== undefined;
}

export const voltage = question<PlannedRacks, Fed>({
  id: 'racks.voltage',
  title: 'Voltage at the end of a wire',
  asks: 'Does enough of the 24 V arrive?',
  page: `Asked of every digital output on a channel of which \`wire\`, \`current\` and \`voltage_at_least\` are said, of a relay too where its
\`circuit\` is dc_control, and of every digital input of which \`wire\` and \`sensor_drop\` are. Demand: the lowest voltage that the load works with, or at which an input of the type is on.
Capacity: the lowest voltage of the supply without what the wire takes out and back, each point with conductors of its own, and
without what the sensor keeps for itself. What outputs, fuses and terminals take is not among it. Conductors are as warm as
\`cabinet.wiring.warmest\`.`,
  advice: 'a larger section, a shorter wire, a supply of more volts',
  subjects: (racks) => {
    if (!racks.locations.some(({ placed }) => placed.some(({ point }) => isAsked(point)))) return [];
    const { locations, settings } = wiringOf(racks);
    return locations.flatMap(({ points }) =>
      points.flatMap((each) => (isAsked(each.point) ? [{ ...each, settings }] : [])),
    );
  },
  name: ({ point }) => point.name,
  path: ({ point }) => point.path,
  reserve: { share: 0, source: 'judgement', because: 'supply, warmth and current are at their worst already' },
  demand: ({ point, channel: { group, module }, settings }): Value<Quantity<'V'>> => {
    if (isOutput(point)) return point.voltage_at_least!;
    const type =
      typeOf(point, group) ??
      missing(`${point.path}.type`, 'absent', `its type, here or in ${module.module.path}`, '3');
    return given({ type }, ({ type }) => settings.inputs[type].onFrom);
  },
  capacity: ({ point, lost, settings }) => {
    const known = lost ?? missing(`${point.path}.type`, 'absent', 'its type by IEC 61131-2', '3');
    return given({ U: settings.voltage, lost: known, kept: point.sensor_drop }, ({ U, lost, kept }) => {
      const isKept = kept !== undefined && !isOutput(point);
      return arrives({ U, u: isKept ? lostTogether({ u: [lost, kept] }, `${point.name}.end`) : lost }, point.name);
    });
  },
  says: (demand, capacity) => `${capacity} arrive, ${demand} are needed`,
});

export const status = question<PlannedRacks, Point>({
  id: 'racks.status',
  title: 'Status only',
  asks: 'Is the point of a guard or an emergency stop no more than status?',
  page: `Asked of every point of which \`status_of\` is said. A standard input may tell the controller what a guard or an emergency stop
does. It is no part of the circuit that stops the machine: that one must work without the controller, is designed and validated by
others by the standards that hold for it, and is not in this file. An output answers no: nothing that must stop a machine may hang
on it. No answer here says that a machine is safe.`,
  advice: 'an input for its status; the circuit itself not from here',
  subjects: ({ locations }) =>
    locations.flatMap(({ location }) => location.points.filter((point) => point.status_of !== undefined)),
  name: ({ name }) => name,
  path: ({ path }) => path,
  answer: (point) =>
    given({ of: point.status_of, kind: point.kind }, () => ({
      yes: !isOutput(point),
      because: isOutput(point)
        ? `${statusNote(point)}, and what stops the machine must not hang on it`
        : `${statusNote(point)}: ${statusCaution}`,
    })),
});

interface Contact {
  readonly healthy: NonNullable<PlannedRacks['locations'][number]['location']['healthy']>;
  readonly asked: WiringSettings['stopCircuit'];
}

/** The contact and the circuit are asked about only where both are there. */
const contactsWith =
  (key: 'voltage' | 'current') =>
  ({ locations, wiring }: PlannedRacks): readonly Contact[] =>
    wiring.stopCircuit[key] === undefined
      ? []
      : locations.flatMap(({ location: { healthy } }) =>
          healthy === undefined ? [] : [{ healthy, asked: wiring.stopCircuit }],
        );

const ofContact = {
  name: () => 'controller',
  path: () => 'controller',
  advice: 'a relay between',
};

const contactPage = (
  what: string,
): string => `Asked where the controller has a healthy contact and \`cabinet.wiring.stop_circuit\` says its
\`${what}\`. Demand: that of the circuit. Capacity: the most that the contact switches. The contact is not a safety function: the stop
circuit must stop the machine without it too, and what it needs for that is for the standards and for who designs it.`;

export const contactVoltage = question<PlannedRacks, Contact>({
  id: 'racks.contact_voltage',
  title: 'Voltage of the healthy contact',
  asks: 'Does the healthy contact switch the voltage of the stop circuit?',
  page: contactPage('voltage'),
  ...ofContact,
  subjects: contactsWith('voltage'),
  reserve: { share: 0, source: 'judgement', because: 'the controller states what its contact switches' },
  demand: ({ asked }) => asked.voltage!,
  capacity: ({ healthy }) => healthy.voltage,
  says: (demand, capacity) =>
    `the stop circuit has ${demand}, the contact switches ${capacity}; it is not a safety function`,
});

export const contactCurrent = question<PlannedRacks, Contact>({
  id: 'racks.contact_current',
  title: 'Current of the healthy contact',
  asks: 'Does the healthy contact switch the current of the stop circuit?',
  page: contactPage('current'),
  ...ofContact,
  subjects: contactsWith('current'),
  reserve: {
    share: 0.5,
    source: 'common-practice',
    because: 'coils give their energy back when they are switched off, which wears a contact',
  },
  demand: ({ asked }) => asked.current!,
  capacity: ({ healthy }) => healthy.current,
  says: (demand, capacity) =>
    `the stop circuit takes ${demand}, the contact switches ${capacity}; it is not a safety function`,
});
