// axes.drive_current, axes.drive_peak, axes.drive_overload: does the drive give the current that the motor needs?
import { question } from '../../checks/finding.ts';
import type { Value } from '../../reading/values.ts';
import type { Values } from '../../working/formula.ts';
import { given, isUnsaid } from '../../working/missing.ts';
import type { Quantity } from '../../working/quantity.ts';
import { currentLines } from '../calc/course.ts';
import { currentOfTorque, longestOverload } from '../calc/drive-current.ts';
import { overload } from '../case-methods.ts';
import { courseOf } from '../course.ts';
import type { AxisDemand, Case } from '../demand.ts';
import { driveCurrent, warmest } from './limits.ts';

/** Whose motor says how many amperes a torque takes, and whose drive says how many it gives. */
const driven = (axes: readonly AxisDemand[]): readonly AxisDemand[] =>
  axes.filter(
    ({ axis: { motor, drive } }) => !(motor.absent || isUnsaid(motor.torque_constant) || isUnsaid(drive.current)),
  );

const common = {
  subjects: driven,
  name: ({ axis }: AxisDemand): string => axis.name,
  path: ({ axis }: AxisDemand): string => axis.drive.path,
};

const currentOf = ({ axis }: AxisDemand, torque: Value<Quantity<'N·m'>>, about: string): Value<Quantity<'A'>> =>
  given({ T: torque, k: axis.motor.torque_constant }, (known) => currentOfTorque(known, `${axis.name}.${about}`));

export const current = question<readonly AxisDemand[], AxisDemand>({
  ...common,
  id: 'axes.drive_current',
  title: 'Drive current',
  asks: 'Does the drive give the effective current for any length of time?',
  page: `Asked where the motor says its torque constant. Demand: the effective torque over the cycle, of the case that asks
for most, as a current. Capacity: the continuous current of the drive, less in surroundings that are warmer or higher than
it is stated for. Left out: saturation of the motor at high torque, and a field that is weakened at high speed.`,
  advice: 'a larger drive, a motor of another torque constant',
  reserve: { share: 0.1, source: 'judgement', because: 'friction that grows' },
  demand: (demand) => currentOf(demand, demand.rms, 'rms'),
  capacity: ({ axis }) => driveCurrent(axis, 'current'),
  says: (demand, capacity) => `${demand} over the cycle, the drive gives ${capacity} for any length of time`,
});

export const currentPeak = question<readonly AxisDemand[], AxisDemand>({
  ...common,
  id: 'axes.drive_peak',
  title: 'Drive peak current',
  asks: 'Does the drive give the current for the highest torque?',
  page: `Asked where the motor says its torque constant. Demand: the highest torque of all cases as a current. Capacity: the
peak current of the drive, less in surroundings that are warmer or higher than it is stated for.`,
  advice: 'a larger drive, a smoother motion',
  reserve: { share: 0.1, source: 'judgement', because: 'correcting moves come on top of the motion' },
  demand: (demand) => currentOf(demand, demand.peak, 'peak'),
  capacity: ({ axis }) => driveCurrent(axis, 'current_peak'),
  says: (demand, capacity) => `${demand} at the highest, the drive gives ${capacity} for a short time`,
});

export const driveOverload = question<readonly AxisDemand[], AxisDemand>({
  ...common,
  id: 'axes.drive_overload',
  title: 'Drive overload',
  asks: 'Is the current above the continuous one for no longer than the drive bears?',
  page: `Asked where the drive says how long it gives its peak current, and where its effective current is not too much
already. Demand: of each stretch of the cycle in which the current is above the continuous one, the square of it less that
of the continuous one, as time at peak current; the longest of these. Capacity: the time for which the drive gives its
peak current. Between two stretches the drive is taken to recover; how far, its effective current tells.`,
  advice: 'a larger drive, shorter stretches of high torque',
  subjects: (axes) =>
    driven(axes).filter((demand) => !isUnsaid(demand.axis.drive.current_peak_time) && !isEndless(demand)),
  reserve: { share: 0.1, source: 'judgement', because: 'the rule is a judgement itself' },
  demand: (demand) => {
    const { axis } = demand;
    const asked = {
      each: warmest(demand),
      k: axis.motor.torque_constant,
      c: driveCurrent(axis, 'current'),
      p: driveCurrent(axis, 'current_peak'),
    };
    return given(asked, ({ each, ...currents }) => {
      const form = courseOf(each as Case);
      return overload(
        {
          inputs: { ...form.inputs, ...currents },
          means: {
            ...form.means,
            k: 'torque constant',
            c: 'continuous current of the drive',
            p: 'its peak current',
          },
          of: (...values: Values) => {
            const [k, c, p] = values.slice(-3) as [number, number, number];
            // A drive that gives no more for a short time is overloaded for good, or not at all.
            const pieces = currentLines(form.build(values.slice(0, -3)), k);
            return longestOverload(pieces, { continuous_A: c, peak_A: Math.max(p, c * (1 + 1e-9)) });
          },
        },
        axis.name,
      );
    });
  },
  capacity: ({ axis }) => axis.drive.current_peak_time,
  says: (demand, capacity) => `overloaded for ${demand} at a time, as at peak current; the drive bears ${capacity}`,
});

/** Its effective current is above the continuous one, so that it would never recover; `axes.drive_current` says so. */
const isEndless = (demand: AxisDemand): boolean => {
  const { axis, rms } = demand;
  const found = given(
    { I: currentOf(demand, rms, 'rms'), c: driveCurrent(axis, 'current') },
    ({ I, c }) => I.value >= c.value,
  );
  return found === true;
};
