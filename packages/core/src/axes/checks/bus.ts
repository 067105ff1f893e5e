// axes.bus_*, axes.resistor_*: where does what axes give back go, and does the bus bear it?
import type { Answer } from '../../checks/check.ts';
import { question } from '../../checks/finding.ts';
import type { Value } from '../../reading/values.ts';
import { given, missing } from '../../working/missing.ts';
import type { Quantity } from '../../working/quantity.ts';
import type { Resistor } from '../axis.ts';
import type { BusDemand, Loaded } from '../buses.ts';
import { resistorPower } from '../calc/bus.ts';
import { highestBusVoltage, highestStopEnergy } from '../calc/bus-demand.ts';
import { highestPower } from '../calc/cycle-demand.ts';

const named = ({ bus }: BusDemand): string => bus.name;
const path = ({ bus }: BusDemand): string => bus.path;
const burning = (buses: readonly BusDemand[]): readonly BusDemand[] =>
  buses.filter(({ bus }) => bus.resistor !== undefined);
const resistorOf = ({ bus }: BusDemand): Resistor => bus.resistor!;

/** What is left out of all of them. */
const ideal = `Powers count at the motor shafts: what motors and drives lose on the way back would only make it less. The
mains fill the bus to the top of their sine, the drives switch the resistor without delay. Of the axes of a winder the
full roll counts. An axis that does not go with its master in a stop is left out of it.`;

const allLoads = ({ cycle, stops }: BusDemand): Value<readonly Loaded[]> =>
  given({ cycle, stops: stops.map(({ loaded }) => loaded) }, (known) => [
    known.cycle as Loaded,
    ...(known.stops as readonly Loaded[]),
  ]);

export const busBalance = question<readonly BusDemand[], BusDemand>({
  id: 'axes.bus_balance',
  title: 'Energy given back',
  asks: 'Does the voltage of the bus settle in production?',
  page: `Asked of every bus. In production some axes brake while others drive; the capacitors take up what is given back
until it is used. Where the axes together give back more than they take, a resistor must burn the rest, or the voltage
rises with each cycle. ${ideal}`,
  advice: 'a brake resistor, axes that drive on the same bus',
  subjects: (buses) => buses,
  name: named,
  path,
  answer: ({ settles }) =>
    given(
      { settles },
      (known): Answer => ({
        yes: known.settles,
        because: known.settles
          ? 'what is given back is used, or burnt'
          : 'the axes give back more than they take, and nothing burns it',
      }),
    ),
});

export const busVoltage = question<readonly BusDemand[], BusDemand>({
  id: 'axes.bus_voltage',
  title: 'Bus voltage',
  asks: 'Does the voltage of the bus stay below where the drives trip?',
  page: `Demand: the highest voltage in production and in every stop of the master in which the drives work (categories 1
and 2), all axes of the bus slowing down at once, at the worst of eight places of the longest cycle. Capacity: the
voltage at which the first of the drives trips. ${ideal}

Caution: a bus stays charged after the mains are off. How long, and what may be touched when, is for the data of the
drives, local codes and licensed practice.`,
  advice: 'a brake resistor, more capacitance, a longer stop',
  subjects: (buses) => buses,
  name: named,
  path,
  reserve: { share: 0.02, source: 'judgement', because: 'ripple of the mains and of the chopper' },
  demand: (demand) =>
    given({ loads: allLoads(demand) }, ({ loads }) =>
      highestBusVoltage({ U: loads.map(({ highest }) => highest) }, demand.bus.name),
    ),
  capacity: ({ tripsAt }) => tripsAt,
  says: (demand, capacity) =>
    `the bus rises to ${demand}, the drives trip at ${capacity}; it stays charged after the mains are off`,
});

export const resistorPeak = question<readonly BusDemand[], BusDemand>({
  id: 'axes.resistor_peak',
  title: 'Resistor, peak',
  asks: 'Does the resistor take the highest power that is given back?',
  page: `Asked of every bus with a resistor. Demand: the highest power that must be burnt, in production and in every stop.
Capacity: the square of the voltage at which the drives switch it over its resistance. ${ideal}`,
  advice: 'a smaller resistance, a longer stop',
  subjects: burning,
  name: named,
  path: ({ bus }) => `${bus.path}.resistor`,
  reserve: { share: 0.1, source: 'judgement', because: 'the resistance has a tolerance' },
  demand: (demand) =>
    given({ loads: allLoads(demand) }, ({ loads }) =>
      highestPower({ x: loads.map(({ peak }) => peak) }, `${demand.bus.name}.resistor`),
    ),
  capacity: ({ bus, switchedAt }) =>
    given({ U: switchedAt, R: bus.resistor!.resistance }, (known) => resistorPower(known, bus.name)),
  says: (demand, capacity) => `${demand} must be burnt at the highest, the resistor takes ${capacity}`,
});

export const resistorMean = question<readonly BusDemand[], BusDemand>({
  id: 'axes.resistor_mean',
  title: 'Resistor, mean',
  asks: 'Does the resistor stay cool enough in production?',
  page: `Asked of every bus with a resistor. Demand: the mean power that is burnt in production. Capacity: the power that
the resistor takes for any length of time. ${ideal}`,
  advice: 'a larger resistor, axes that drive on the same bus',
  subjects: burning,
  name: named,
  path: ({ bus }) => `${bus.path}.resistor`,
  reserve: { share: 0.2, source: 'judgement', because: 'stops and restarts come on top' },
  demand: ({ cycle }) => given({ cycle }, (known) => (known.cycle as Loaded).mean!),
  capacity: (demand) => resistorOf(demand).power,
  says: (demand, capacity) => `${demand} are burnt in the mean, the resistor takes ${capacity}`,
});

export const resistorEnergy = question<readonly BusDemand[], BusDemand>({
  id: 'axes.resistor_energy',
  title: 'Resistor, one stop',
  asks: 'Does the resistor take what one stop gives back?',
  page: `Asked of every bus with a resistor whose master has stops. Demand: the energy that the largest stop leaves for the
resistor. Capacity: the energy that it takes at once. ${ideal}`,
  advice: 'a larger resistor, more capacitance, a longer stop',
  subjects: (buses) => burning(buses).filter(({ stops }) => stops.length > 0),
  name: named,
  path: ({ bus }) => `${bus.path}.resistor`,
  reserve: { share: 0.2, source: 'judgement', because: 'one stop can follow the other' },
  demand: ({ bus, stops }) =>
    given({ loads: stops.map(({ loaded }) => loaded) }, ({ loads }) =>
      highestStopEnergy({ E: (loads as readonly Loaded[]).map(({ toResistor }) => toResistor) }, bus.name),
    ),
  capacity: (demand) => resistorOf(demand).energy,
  says: (demand, capacity) => `one stop leaves ${demand} for the resistor, it takes ${capacity}`,
});

export const resistorLeast = question<readonly BusDemand[], BusDemand>({
  id: 'axes.resistor_least',
  title: 'Resistance',
  asks: 'May the drives switch so small a resistance?',
  page: `Asked of every bus with a resistor. Demand: the smallest resistance that its drives may switch, of the drive that
asks for most. Capacity: the resistance.`,
  advice: 'a larger resistance',
  subjects: burning,
  name: named,
  path: ({ bus }) => `${bus.path}.resistor`,
  reserve: { share: 0, source: 'judgement', because: 'the data of the drive say it' },
  demand: ({ bus }) =>
    bus.axes.length === 0
      ? missing(`${bus.path}.axes`, 'absent', 'axes with a motion', '[unwind, infeed]')
      : given({ all: bus.axes.map(({ drive }) => drive.resistor_at_least) }, ({ all }) =>
          (all as readonly Quantity<'Ω'>[]).reduce((most, each) => (each.value > most.value ? each : most)),
        ),
  capacity: (demand) => resistorOf(demand).resistance,
  says: (demand, capacity) => `the drives may switch ${demand} at least, the resistor has ${capacity}`,
});

export const busChecks = [busBalance, busVoltage, resistorPeak, resistorMean, resistorEnergy, resistorLeast] as const;
