// What a drive turns into heat in the cycle that asks most of its motor.
import type { Value } from '../reading/values.ts';
import type { Values } from '../working/formula.ts';
import { given, isUnsaid } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { currentLines } from './calc/course.ts';
import { driveLosses, meanCurrentOf } from './calc/drive-current.ts';
import { meanCurrent } from './case-methods.ts';
import { warmest } from './checks/limits.ts';
import { courseOf } from './course.ts';
import type { AxisDemand, Case } from './demand.ts';

/** A row of a data sheet; none where motor or drive do not say what it takes. */
export function driveHeatRows(demand: AxisDemand): readonly (readonly [string, Value<Quantity>])[] {
  const { motor, drive, name } = demand.axis;
  if (motor.absent || isUnsaid(motor.torque_constant) || isUnsaid(drive.loss_at_rest)) return [];
  const asked = {
    each: warmest(demand),
    k: motor.torque_constant,
    P: drive.loss_at_rest,
    u: drive.loss_per_current,
  };
  const heat = given(asked, ({ each, k, P, u }) => {
    const form = courseOf(each as Case);
    const I = meanCurrent(
      {
        inputs: { ...form.inputs, k },
        means: { ...form.means, k: 'torque constant' },
        of: (...values: Values) =>
          meanCurrentOf(currentLines(form.build(values.slice(0, -1)), values.at(-1) as number)),
      },
      name,
    );
    return driveLosses({ P, u, I }, name);
  });
  return [['heat of the drive, in the mean', heat]];
}
