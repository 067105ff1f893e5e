// A phase is a stretch of a motion that people have a name for: speeding up, a dwell, one cut. It knows what it is built
// from, so that every number about it can be computed again from the values of the file.

import { valuesOf } from '../working/formula.ts';
import { onceForEach } from '../working/once.ts';
import type { Inputs, Quantity } from '../working/quantity.ts';
import { chain, type Motion, type Piece } from './calc/segment.ts';

export interface Phase {
  /** In addresses: `1_up`. */
  readonly name: string;
  readonly title: string;
  readonly duration: Quantity<'s'>;
  /** By symbol, in the order in which `build` takes their values. */
  readonly inputs: Inputs;
  readonly means: Readonly<Record<string, string>>;
  readonly build: (...values: number[]) => readonly Piece[];
  /** Where the acceleration is constant: it along the motion, and the speeds at both ends, nothing for rest. */
  readonly even?: Even;
}

export interface Even {
  /** Below 0 where the motion slows down; nothing at constant speed. */
  readonly acceleration: Quantity | undefined;
  readonly before: Quantity | undefined;
  readonly after: Quantity | undefined;
  readonly backwards: boolean;
}

/** Where a motion repeats itself, and whether it does so at all. */
export interface PhasedMotion {
  /** Of the tool. */
  readonly unit: 'm' | 'rad';
  readonly phases: readonly Phase[];
  /** The cycle; for a motion without one, its phases alone. */
  readonly cycle: Quantity<'s'>;
  /** What all steps take, where that can be more than the cycle. */
  readonly taken: Quantity<'s'> | undefined;
  /** Whether it goes quicker and slower with its master, instead of in its own time once it is started. */
  readonly scales: boolean;
}

/** Several cases and the way to the next phase ask for it. */
export const motionOf = onceForEach(
  (phase: Phase): Motion => chain(phase.build(...(valuesOf(phase.inputs) as number[]))),
);
