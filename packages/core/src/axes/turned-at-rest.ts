// Whether the load turns an axis that stands still once its drive is off: then its motor must hold it by a brake.
import type { Value } from '../reading/values.ts';
import { Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { Axis } from './axis.ts';
import { type AxisDemand, demandOf } from './demand.ts';
import type { ElementSection } from './section.ts';

/** A pull that is less than this part of the torque of the cycle is rounding of none, such as a balanced weight (our judgement). */
const nothing = 1e-6;

/**
 * A weight or a constant force turns it, unless the train locks itself. A web does not: it goes slack as the roll gives
 * way. Friction is not counted on.
 */
export function isTurnedAtRest({ axis, line, holding, peak }: AxisDemand, gravity: Value<Quantity<'m/s²'>>): boolean {
  const { motion, train } = axis;
  if (holding === undefined || line instanceof Missing || train instanceof Missing) return false;
  if (motion.winds !== undefined || motion.unwinds !== undefined) return false;
  if (line.stages.some(({ transform }) => transform?.driven !== undefined && transform.driven.value <= 0)) return false;
  const held = isWeb(train) ? demandOf(withoutWebs(axis, train), gravity).holding : holding;
  if (held === undefined || held instanceof Missing || peak instanceof Missing) return false;
  return Math.abs(held.value) > nothing * Math.abs(peak.value);
}

const isWeb = (train: readonly ElementSection[]): boolean => train.some(({ kind }) => kind === 'web');
const withoutWebs = (axis: Axis, train: readonly ElementSection[]): Axis => ({
  ...axis,
  train: train.filter(({ kind }) => kind !== 'web'),
});
