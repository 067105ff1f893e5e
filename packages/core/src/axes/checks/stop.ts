// axes.stop_way: does a stop end within the way that is allowed?
import { question } from '../../checks/finding.ts';
import type { Value } from '../../reading/values.ts';
import { given, missing } from '../../working/missing.ts';
import type { Quantity } from '../../working/quantity.ts';
import type { StopDemand } from '../stops.ts';

export const caution = 'whether that protects people is for the risk assessment, local codes and licensed practice';

export const stopWay = question<readonly StopDemand[], StopDemand>({
  id: 'axes.stop_way',
  title: 'Way of a stop',
  asks: 'Does the stop end within the way that is allowed?',
  page: `Asked of every stop with \`way_at_most\`. Demand: the way of the master from the command on, its reaction at full
speed and then a constant deceleration. Capacity: \`way_at_most\`. A stop of category 0 of IEC 60204-1 takes the power
away, and the master has no way of its own then: the answer stays unknown. How far each axis goes by friction and brake
alone, \`layshaft show FILE masters.NAME\` tells.

Caution: a figure of this kind rests on drives that do what they are told, and on frictions that nobody has measured. It is
an estimate for planning. Whether a distance or a time protects people is answered by the risk assessment of the machine,
measurements on the machine, local codes and licensed practice.`,
  advice: 'a shorter ramp, a quicker reaction, a slower machine',
  subjects: (stops) => stops.filter(({ stop }) => stop.way_at_most !== undefined),
  name: ({ master, stop }) => `${master.name}.${stop.name}`,
  path: ({ stop }) => stop.path,
  reserve: { share: 0.2, source: 'judgement', because: 'ramps are exceeded where torque or grip lacks' },
  demand: wayOf,
  capacity: ({ stop, master, ...found }) =>
    given(
      { most: stop.way_at_most!, way: wayOf({ stop, master, ...found }) },
      ({ most, way: found }): Value<Quantity> =>
        (most as Quantity).unit === (found as Quantity).unit
          ? (most as Quantity)
          : missing(
              `${stop.path}.way_at_most`,
              'problem',
              `a measure of the kind of ${master.path}.speed`,
              (found as Quantity).unit === 'm' ? '4 m' : '90°',
            ),
    ) as Value<Quantity>,
  says: (demand, capacity) => `${demand} from the command to standstill, ${capacity} are allowed; ${caution}`,
});

/** Without the drives every axis goes on by itself. */
function wayOf({ way, stop, master }: StopDemand): Value<Quantity> {
  const due = `a stop in which the drives work; how far each axis coasts without them, show ${master.path} tells`;
  return way ?? missing(`${stop.path}.category`, 'problem', due, '1');
}
