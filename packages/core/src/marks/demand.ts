// All that is computed of one mark: its budget with its control, and how it is captured.
import type { LostMotions } from '../physics/lost-motion.ts';
import type { WebLine } from '../physics/web-line.ts';
import { type BudgetOf, budgetOf } from './budget-of.ts';
import { type Captured, capturedOf } from './captured.ts';
import { type Mark, placeOnLine } from './mark.ts';

export interface MarkDemand extends BudgetOf {
  readonly captured: Captured;
}

export function markDemandOf(mark: Mark, lines: readonly WebLine[], lost: LostMotions): MarkDemand {
  const placed = placeOnLine(mark, lines, lost);
  const budget = budgetOf(placed, placed.speed, placed.name);
  return { ...budget, captured: capturedOf(budget) };
}
