// Methods over a phase: states of the motion at an instant, and what is integrated over it or searched in it.
import { openMethod } from '../working/formula.ts';

const state = { source: 'definition', proof: 'states of a motion agree with its derivatives' } as const;

export const toolSpeed = openMethod({
  ...state,
  id: 'axes.motion.speed',
  title: 'speed of the tool at the instant of the highest torque',
  prose: 'the motion in closed form, at this instant',
  gives: 'm/s',
});
export const toolTurningSpeed = openMethod({
  ...state,
  id: 'axes.motion.turning_speed',
  title: 'speed of the tool at the instant of the highest torque',
  prose: 'the motion in closed form, at this instant',
  gives: 'rad/s',
  as: 'rpm',
});
export const toolAcceleration = openMethod({
  ...state,
  id: 'axes.motion.acceleration',
  title: 'acceleration of the tool along its motion at the instant of the highest torque',
  prose: 'the motion in closed form, at this instant',
  gives: 'm/s²',
});
export const toolTurningAcceleration = openMethod({
  ...state,
  id: 'axes.motion.turning_acceleration',
  title: 'acceleration of the tool along its motion at the instant of the highest torque',
  prose: 'the motion in closed form, at this instant',
  gives: 'rad/s²',
});
export const toolPosition = openMethod({
  ...state,
  id: 'axes.motion.position',
  title: 'position of the tool at the instant of the highest torque',
  prose: 'the motion in closed form, at this instant',
  gives: 'm',
});
export const toolAngle = openMethod({
  ...state,
  id: 'axes.motion.angle',
  title: 'position of the tool at the instant of the highest torque',
  prose: 'the motion in closed form, at this instant',
  gives: 'rad',
});

const movingOff = {
  source: 'definition',
  proof: 'moving off counts with the friction at rest, whatever the motion and the train',
  prose: 'the motion in closed form, where it moves off against the highest torque',
} as const;

export const startingAcceleration = openMethod({
  ...movingOff,
  id: 'axes.motion.starting_acceleration',
  title: 'acceleration of the tool along its motion as it moves off',
  gives: 'm/s²',
});
export const startingTurningAcceleration = openMethod({
  ...movingOff,
  id: 'axes.motion.starting_turning_acceleration',
  title: 'acceleration of the tool along its motion as it moves off',
  gives: 'rad/s²',
});
export const startingPosition = openMethod({
  ...movingOff,
  id: 'axes.motion.starting_position',
  title: 'position of the tool as it moves off',
  gives: 'm',
});
export const startingAngle = openMethod({
  ...movingOff,
  id: 'axes.motion.starting_angle',
  title: 'position of the tool as it moves off',
  gives: 'rad',
});

const searched = {
  source: 'judgement',
  proof: 'demands of a phase by fine sampling',
  prose: 'searched on each piece of the motion, between samples by the golden section',
} as const;

export const highestToolSpeed = openMethod({
  ...searched,
  id: 'axes.phase.highest_speed',
  title: 'highest speed of the tool in the phase',
  gives: 'm/s',
});
export const highestToolTurningSpeed = openMethod({
  ...searched,
  id: 'axes.phase.highest_turning_speed',
  title: 'highest speed of the tool in the phase',
  gives: 'rad/s',
  as: 'rpm',
});
export const phasePower = openMethod({
  ...searched,
  id: 'axes.phase.highest_power',
  title: 'highest power of the motor in the phase',
  gives: 'W',
});

const integrated = {
  source: 'judgement',
  proof: 'demands of a phase by fine sampling',
  prose: 'Gauss quadrature on each piece of the motion, cut where speed or torque changes its sign',
} as const;

export const effectiveTorque = openMethod({
  ...integrated,
  id: 'axes.phase.effective_torque',
  title: 'effective torque of the phase',
  gives: 'N·m',
});
export const phaseMeanSpeed = openMethod({
  ...integrated,
  id: 'axes.phase.mean_speed',
  title: 'mean speed of the motor in the phase, without its sign',
  gives: 'rad/s',
  as: 'rpm',
});
export const energyGiven = openMethod({
  ...integrated,
  id: 'axes.phase.energy_given',
  title: 'energy that the motor gives in the phase',
  gives: 'J',
});
export const energyReturned = openMethod({
  ...integrated,
  id: 'axes.phase.energy_returned',
  title: 'energy that the motor takes back in the phase',
  gives: 'J',
});

export const placedInertia = openMethod({
  ...searched,
  id: 'axes.inertia.placed',
  title: 'largest inertia, in one turn, of what a crank moves',
  gives: 'kg·m²',
});
