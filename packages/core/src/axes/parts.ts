// The parts that an axis is driven by, and what a catalogue states of them.
import { figure } from '../reading/figure.ts';
import { partKind } from '../reading/parts.ts';
import { share } from '../reading/values.ts';

export const motorFields = {
  inertia: figure('kg·m²', {
    about: 'Inertia of the rotor, a built-in brake included.',
    above: 0,
    example: '1.2 kg·cm²',
  }),
  torque: figure('N·m', { about: 'Torque that the motor gives for any length of time.', above: 0, example: '4.8 N·m' }),
  torque_peak: figure('N·m', { about: 'Torque that the motor gives for a short time.', above: 0, example: '14 N·m' }),
  speed: figure('rad/s', { about: 'The highest speed of the motor.', above: 0, example: '4500 rpm' }),
  brake: figure('N·m', { about: 'Torque that the holding brake holds.', above: 0, example: '9 N·m' }),
  cooling_at_rest: share({
    about: 'How much of its cooling the motor keeps at standstill: 100 % without a fan of its own on the shaft.',
    above: 0,
    example: '100 %',
  }),
};

export const motorKind = partKind('motor', motorFields, { about: 'A motor.' });

export const gearFields = {
  efficiency: share({ about: 'The share of the power that arrives when the motor drives.', above: 0, example: '96 %' }),
  inertia: figure('kg·m²', {
    about: 'Inertia of the gear, at the side of the motor.',
    least: 0,
    example: '0.4 kg·cm²',
  }),
};

export const gearKind = partKind('gear', gearFields, { about: 'A gear, of any ratio unless its part says it.' });

export const axisKinds = [motorKind, gearKind];
