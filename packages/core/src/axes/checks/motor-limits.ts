// axes.torque_at_speed, axes.winding: does the motor give its torque at every speed, and does its winding stay cool enough?
import { question } from '../../checks/finding.ts';
import type { Value } from '../../reading/values.ts';
import { resultsOf } from '../../working/formula.ts';
import { given, isUnsaid } from '../../working/missing.ts';
import type { Quantity } from '../../working/quantity.ts';
import { torqueSpeedPoints } from '../calc/course.ts';
import { riseLeft } from '../calc/heat-limit.ts';
import { type MotorArea, nearestPoint, peakAt, peakTorqueAt } from '../calc/motor-area.ts';
import { speedThere, torqueThere } from '../case-methods.ts';
import { courseOf } from '../course.ts';
import type { AxisDemand, Case } from '../demand.ts';
import { saysWarmth, settledRiseOf } from '../winding.ts';
import { atLowMains } from './limits.ts';

interface Corners {
  readonly P: Quantity<'N·m'>;
  readonly R: Quantity<'N·m'>;
  readonly c: Quantity<'rad/s'>;
  readonly n: Quantity<'rad/s'>;
}

interface Nearest {
  readonly torque: Quantity<'N·m'>;
  readonly given: Quantity<'N·m'>;
}

/** The point of all cases that has the least over. */
function nearestOf({ axis, cases, rotor, untold }: AxisDemand): Value<Nearest> {
  const { motor, name } = axis;
  return given(
    {
      cases,
      rotor,
      ...untold,
      P: motor.torque_peak,
      R: motor.torque_rated,
      c: atLowMains(axis, motor.speed_peak_torque, 'knee'),
      n: atLowMains(axis, motor.speed, 'highest'),
    },
    ({ cases: all, P, R, c, n }) => {
      const corners = { P, R, c, n };
      const found = (all as readonly Case[]).map((each) => ({ each, ...nearestIn(each, corners) }));
      const { each, call } = found.reduce((worst, next) => (next.now.margin < worst.now.margin ? next : worst));
      const about = `${name}.${each.name}`;
      const there = speedThere(
        call(({ speed_rad_per_s }) => speed_rad_per_s),
        about,
      );
      return {
        torque: torqueThere(
          call(({ torque_Nm }) => torque_Nm),
          about,
        ),
        given: peakTorqueAt({ ...corners, ω: there }, about),
      };
    },
  );
}

/** The point of a case that has the least over. */
function nearestIn(each: Case, { P, R, c, n }: Corners) {
  const form = courseOf(each);
  return resultsOf(
    {
      inputs: { ...form.inputs, P, Q: R, c, n },
      means: {
        ...form.means,
        P: 'peak torque of the motor',
        Q: 'its torque at the highest speed',
        c: 'speed up to which it gives its peak torque',
        n: 'its highest speed',
      },
    },
    (values) => {
      const points = torqueSpeedPoints(form.build(values.slice(0, -4)));
      const area = areaOf(values.slice(-4) as number[]);
      const { at, margin } = nearestPoint(
        (speed) => peakAt(area, speed),
        points.map(({ speed_rad_per_s }) => speed_rad_per_s),
        points.map(({ torque_Nm }) => torque_Nm),
      ) ?? { at: 0, margin: 1 };
      return { ...points[at]!, margin };
    },
  );
}

/** Only what bounds the torque for a short time. */
const areaOf = ([P = 0, R = 0, c = 0, n = 0]: readonly number[]): MotorArea => ({
  torque_Nm: P,
  ratedTorque_Nm: R,
  ratedSpeed_rad_per_s: n,
  peak_Nm: P,
  peakUpTo_rad_per_s: c,
  highest_rad_per_s: n,
});

interface AtSpeed {
  readonly demand: AxisDemand;
  readonly nearest: Value<Nearest>;
}

export const torqueAtSpeed = question<readonly AxisDemand[], AtSpeed>({
  id: 'axes.torque_at_speed',
  title: 'Torque at speed',
  asks: 'Does the motor give its torque at the speed at which it is asked for?',
  page: `Asked where the motor says up to which speed it gives its peak torque. Every point of every case is held against
what the motor gives at its speed for a short time: the peak torque up to that speed, from there in a straight line down
to the rated torque at the highest speed, and nothing beyond; both speeds in proportion to the lowest mains where the
motor says which mains they are stated for. Demand and capacity are those of the point that has the least over.`,
  advice: 'a smaller ratio, a slower motion, a motor for higher speeds',
  subjects: (axes) =>
    axes.flatMap((demand) => {
      const { motor } = demand.axis;
      return motor.absent || isUnsaid(motor.speed_peak_torque) || isUnsaid(motor.torque_rated)
        ? []
        : [{ demand, nearest: nearestOf(demand) }];
    }),
  name: ({ demand }) => demand.axis.name,
  path: ({ demand }) => `${demand.axis.path}.motor`,
  reserve: { share: 0.1, source: 'judgement', because: 'frictions and masses are seldom known better' },
  demand: ({ nearest }) => given({ nearest }, (known) => known.nearest.torque),
  capacity: ({ nearest }) => given({ nearest }, (known) => known.nearest.given),
  says: (demand, capacity) => `${demand} are asked for where the motor gives ${capacity} at its speed`,
});

export const winding = question<readonly AxisDemand[], AxisDemand>({
  id: 'axes.winding',
  title: 'Winding',
  asks: 'Does the winding stay cool enough in the long run?',
  page: `Asked where the motor says by how much its winding warms up. Winding and frame are two bodies with a time constant
each; the losses go with the square of the torque, phase by phase of the case that warms most. Demand: the highest rise of
the winding over the surroundings once the cycle repeats itself. Capacity: what the hottest allowed winding leaves over
the surroundings of the machine. Left out: losses that grow with the speed, and what gears and neighbours add.`,
  advice: 'a longer cycle, a larger motor, cooler surroundings',
  subjects: (axes) => axes.filter(saysWarmth),
  name: ({ axis }) => axis.name,
  path: ({ axis }) => `${axis.path}.motor`,
  reserve: { share: 0.1, source: 'judgement', because: 'warm surroundings and friction that grows' },
  demand: settledRiseOf,
  capacity: ({ axis: { motor, site, name } }) =>
    given({ W: motor.winding_at_most, A: site.ambient }, (known) => riseLeft(known, name)),
  says: (demand, capacity) => `the winding warms up by ${demand}, the surroundings leave it ${capacity}`,
});
