// The formulas of a train that stand twice, by what a stage does: it goes along (m) or it turns (rad).
import type { Quantity } from '../working/quantity.ts';
import {
  accelerationForce,
  accelerationTorque,
  opposedForce,
  opposedTorque,
  runningFrictionForce,
  runningFrictionTorque,
  startingFrictionForce,
  startingFrictionTorque,
  totalForce,
  totalTorque,
  viscousForce,
  viscousTorque,
} from './calc/load.ts';
import {
  gearAcceleration,
  gearSpeed,
  gearTorque,
  screwAcceleration,
  screwSpeed,
  screwTorque,
  wheelAcceleration,
  wheelSpeed,
  wheelTorque,
} from './calc/transform.ts';

type Form<S extends string> = (inputs: Readonly<Record<S, Quantity>>, about: string) => Quantity;

/** Quantities must be of the side's units; the train that is built of them sees to it. */
export interface SideKit {
  readonly total: (inputs: { readonly x: readonly Quantity[] }, about: string) => Quantity;
  readonly opposed: Form<'F'>;
  readonly running: Form<'C' | 'b' | 'v'>;
  readonly viscous: Form<'b' | 'v'>;
  readonly starting: Form<'B' | 'C'>;
  /** Force or torque for an acceleration. */
  readonly accelerate: Form<'J' | 'α'>;
}

export const sides = {
  m: {
    total: totalForce,
    opposed: opposedForce,
    running: runningFrictionForce,
    viscous: viscousForce,
    starting: startingFrictionForce,
    accelerate: ({ J, α }: Readonly<Record<'J' | 'α', Quantity>>, about: string) =>
      accelerationForce({ m: J as Quantity<'kg'>, a: α as Quantity<'m/s²'> }, about),
  },
  rad: {
    total: totalTorque,
    opposed: opposedTorque,
    running: runningFrictionTorque,
    viscous: viscousTorque,
    starting: startingFrictionTorque,
    accelerate: accelerationTorque as unknown as Form<'J' | 'α'>,
  },
} as unknown as Readonly<Record<'m' | 'rad', SideKit>>;

/** From one stage to the next, without loss. */
export interface TransformKit {
  readonly torque: (load: Quantity, by: Quantity, about: string) => Quantity<'N·m'>;
  readonly speed: (speed: Quantity, by: Quantity, about: string) => Quantity<'rad/s'>;
  readonly acceleration: (acceleration: Quantity, by: Quantity, about: string) => Quantity<'rad/s²'>;
  /** Torque at the next shaft for each part of the force or torque here. */
  readonly pass: (by: number) => number;
}

export const transforms = {
  screw: {
    torque: (F, p, about) => screwTorque({ F, p } as never, about),
    speed: (v, p, about) => screwSpeed({ v, p } as never, about),
    acceleration: (a, p, about) => screwAcceleration({ a, p } as never, about),
    pass: (lead) => lead / (2 * Math.PI),
  },
  wheel: {
    torque: (F, D, about) => wheelTorque({ F, D } as never, about),
    speed: (v, D, about) => wheelSpeed({ v, D } as never, about),
    acceleration: (a, D, about) => wheelAcceleration({ a, D } as never, about),
    pass: (diameter) => diameter / 2,
  },
  gear: {
    torque: (T, i, about) => gearTorque({ T, i } as never, about),
    speed: (ω, i, about) => gearSpeed({ i, ω } as never, about),
    acceleration: (α, i, about) => gearAcceleration({ i, α } as never, about),
    pass: (ratio) => 1 / ratio,
  },
} as const satisfies Record<string, TransformKit>;

export type TransformKind = keyof typeof transforms;
