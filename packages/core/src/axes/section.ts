// The sections `masters` and `axes` of a machine file.
import type { Read } from '../reading/field.ts';
import { group, list, optional, section } from '../reading/groups.ts';
import { mustBeOneOf } from '../reading/must-be-one-of.ts';
import { type PartUse, partUse } from '../reading/parts.ts';
import type { Reading } from '../reading/reading.ts';
import { type Named, name, quantity, quantityIn, share, type Value, word } from '../reading/values.ts';
import { Missing } from '../working/missing.ts';
import { lossChoices } from './calc/efficiency.ts';
import { type MasterSection, motionField } from './motion-fields.ts';
import { type driveFigures, motorFields, motorKind, resistorFields, resistorKind } from './parts.ts';
import { trainField } from './train-fields.ts';

export { mastersField } from './motion-fields.ts';

const given = 'as somebody else states it';

/** What the file says of an axis beside its place on a network. */
export const axisFields = {
  motion: motionField,
  train: trainField,
  losses_on: optional(
    word(lossChoices, {
      about:
        'What efficiencies act on: the torque of the load alone, or that for acceleration too. Published examples differ; load_and_inertia unless said.',
    }),
  ),
  motor: partUse([motorKind], motorFields, { about: 'The motor.', example: 'motor_5' }),
  inertia_ratio_at_most: optional(
    quantity('1', {
      about: 'The largest inertia of the load for each part of the rotor’s.',
      above: 0,
      example: '10',
    }),
  ),
  gain: optional(
    quantity('1/s', {
      about: 'Gain of the position loop: speed asked for by each part of the error.',
      above: 0,
      example: '60 1/s',
    }),
  ),
  feed_forward: optional(
    share({
      about: 'The share of the speed that is fed forward past the position loop; none unless said.',
      example: '100 %',
    }),
  ),
  follows_within: optional(
    quantityIn(['m', 'rad'], {
      about: 'How far the tool may be behind its setpoint at constant speed.',
      above: 0,
      example: '2 mm',
    }),
  ),
  stated: optional(
    section(
      {
        speed: optional(
          quantityIn(['m/s', 'rad/s'], { about: `The highest speed of the tool, ${given}.`, example: '1.2 m/s' }),
        ),
        acceleration: optional(
          quantityIn(['m/s²', 'rad/s²'], {
            about: `The highest acceleration of the tool, ${given}.`,
            example: '12 m/s²',
          }),
        ),
        motor_speed: optional(
          quantity('rad/s', { about: `The highest speed of the motor, ${given}.`, example: '1500 rpm' }),
        ),
        inertia: optional(
          quantity('kg·m²', { about: `Inertia of the load at the motor shaft, ${given}.`, example: '1.2 kg·cm²' }),
        ),
        torque_peak: optional(
          quantity('N·m', { about: `The highest torque of the motor, ${given}.`, example: '12 N·m' }),
        ),
        torque_rms: optional(
          quantity('N·m', { about: `The effective torque of the motor, ${given}.`, example: '4 N·m' }),
        ),
        roll_length: optional(quantity('m', { about: `Length of web on a full roll, ${given}.`, example: '5000 m' })),
        roll_speed: optional(
          quantity('rad/s', { about: `Speed of a winder at its core, ${given}.`, example: '600 rpm' }),
        ),
        circumference: optional(
          quantity('m', { about: `Circumference of the roll or knife, ${given}.`, example: '500 mm' }),
        ),
      },
      { about: 'Figures of this axis that somebody else states; each is held against what follows from the rest.' },
    ),
  ),
};

export const busesField = group(
  section(
    {
      axes: list(name({ about: 'An axis on the bus.', due: 'an axis', example: 'unwind' }), {
        about: 'The axes whose drives share the bus.',
      }),
      resistor: optional(
        partUse([resistorKind], resistorFields, { about: 'Its brake resistor.', example: 'resistor_400' }),
      ),
      capacitance: optional(
        quantity('F', { about: 'What is on the bus beside the drives.', least: 0, example: '2 mF' }),
      ),
    },
    { about: 'A DC bus.' },
  ),
  { about: 'DC buses that drives share, by name.' },
);
export type BusSection = Read<typeof busesField>[number];

const axisField = section(axisFields, { about: 'An axis.' });
/** What the axes need of an entry of the file. */
export type AxisSection = Read<typeof axisField> & {
  readonly name: string;
  readonly drive: PartUse<typeof driveFigures>;
};
export type { MasterSection, MotionSection, StepSection } from './motion-fields.ts';
export type { ElementSection } from './train-fields.ts';

/** Reports axes that follow what is no master. */
export function followMasters(
  axes: readonly Pick<AxisSection, 'motion'>[],
  masters: readonly Pick<MasterSection, 'name'>[],
  reading: Reading,
): void {
  const names = masters.map(({ name }) => name);
  for (const { motion } of axes) {
    const { follow } = motion;
    if (follow !== undefined && !(follow instanceof Missing))
      mustBeOneOf(follow, names, 'master', 'Describe it under masters; an axis can be one, with axis: NAME.', reading);
  }
}

/** Reports what an axis is to agree with and is no other axis. */
export function pairAxes(
  axes: readonly { readonly name: string; readonly agrees_with?: Value<readonly Value<Named>[]> | undefined }[],
  reading: Reading,
): void {
  for (const { name: own, agrees_with: agrees } of axes) {
    if (agrees === undefined || agrees instanceof Missing) continue;
    const others = axes.map((axis) => axis.name).filter((each) => each !== own);
    for (const each of agrees)
      if (!(each instanceof Missing)) mustBeOneOf(each, others, 'other axis', 'Describe it under axes.', reading);
  }
}

/** Reports what is on a bus and no axis. */
export function boardBuses(
  buses: readonly Pick<BusSection, 'axes'>[],
  axes: readonly { readonly name: string }[],
  reading: Reading,
): void {
  const names = axes.map(({ name }) => name);
  for (const { axes: aboard } of buses) {
    if (aboard instanceof Missing) continue;
    for (const each of aboard)
      if (!(each instanceof Missing)) mustBeOneOf(each, names, 'axis', 'Describe it under axes.', reading);
  }
}
