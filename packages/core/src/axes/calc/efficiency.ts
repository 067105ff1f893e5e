// What a stage loses: the torque that its efficiency adds at the motor's side, whichever way the power goes.
// Torques are counted in the direction of the motion: over 0 where the motor drives, below 0 where the load drives it.
// A loss is never below 0: driving, the motor gives T/η; driven, T·ζ is left of the torque that the load gives. At
// standstill a caller turns the signs so that T is over 0 and gets the greater of both, the torque to move off.
import { formula } from '../../working/formula.ts';
import type { Quantity } from '../../working/quantity.ts';

/** Published examples differ in whether the torque for acceleration loses its share too, so a train says it. */
export const lossChoices = ['load', 'load_and_inertia'] as const;
export type LossActsOn = (typeof lossChoices)[number];

export interface Passing {
  /** Torque of the load through the stage, at the motor's side, without loss. */
  readonly T: Quantity<'N·m'>;
  /** Torque for the acceleration of all that moves beyond the stage, at the motor's side, without loss. */
  readonly A: Quantity<'N·m'>;
  /** Efficiency when the motor drives, over 0. */
  readonly η: Quantity<'1'>;
  /** Efficiency when the load drives; 0 or less locks itself, and the motor must turn the load down as well. */
  readonly ζ: Quantity<'1'>;
}

export const stageLoss = ({ T, A, η, ζ }: Passing, actsOn: LossActsOn, about: string): Quantity<'N·m'> =>
  actsOn === 'load' ? lossOfLoad({ T, η, ζ }, about) : lossOfLoadAndInertia({ T, A, η, ζ }, about);

export const lossOfLoad = formula({
  id: 'axes.stage.loss_of_load',
  title: 'torque that a stage loses of the load’s',
  text: 'max(T/η, T*ζ) - T',
  gives: 'N·m',
  symbols: { T: 'N·m', η: '1', ζ: '1' },
  means: { T: 'torque of the load without loss', η: 'efficiency when driving', ζ: 'efficiency when driven' },
  try: { T: [-100, 100], η: [0.3, 0.99], ζ: [-0.5, 0.99] },
  source: 'dubey',
  at: 'ex. 2.1',
  proof: 'S3',
  of: (T: number, eta: number, zeta: number) => Math.max(T / eta, T * zeta) - T,
});

export const lossOfLoadAndInertia = formula({
  id: 'axes.stage.loss_of_load_and_inertia',
  title: 'torque that a stage loses of the load’s and of that for acceleration',
  text: 'max((T + A)/η, (T + A)*ζ) - (T + A)',
  gives: 'N·m',
  symbols: { T: 'N·m', A: 'N·m', η: '1', ζ: '1' },
  means: {
    T: 'torque of the load without loss',
    A: 'torque for acceleration without loss',
    η: 'efficiency when driving',
    ζ: 'efficiency when driven',
  },
  try: { T: [-100, 100], A: [-60, 60], η: [0.3, 0.99], ζ: [-0.5, 0.99] },
  source: 'khurmi-gupta',
  at: 'ex. 3.13',
  proof: 'S5',
  of: (T: number, A: number, eta: number, zeta: number) => Math.max((T + A) / eta, (T + A) * zeta) - (T + A),
});

/** The power of a torque: over 0 where it drives. With the torque of a loss, what turns into heat. */
export const torquePower = formula({
  id: 'axes.torque.power',
  title: 'power of a torque',
  text: 'T*ω',
  gives: 'W',
  symbols: { T: 'N·m', ω: 'rad/s' },
  means: { T: 'torque', ω: 'speed of the shaft' },
  try: { T: [-100, 100], ω: [-600, 600] },
  source: 'definition',
  proof: 'S10',
  of: (T: number, omega: number) => T * omega,
});
