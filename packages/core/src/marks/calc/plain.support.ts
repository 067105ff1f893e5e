// Formulas on plain numbers, for tests that try many.
import type { FormulaRecord } from '../../working/formula.ts';

type Value = number | readonly number[];

/** The function of a formula; takes SI numbers in the order of its symbols. */
export const plain = ({ of }: Pick<FormulaRecord, 'of'>): ((...values: readonly Value[]) => number) =>
  of as (...values: readonly Value[]) => number;
