// A number that can be shown: its value in SI, its unit, and where it comes from.
import type { Unit } from '../units/si.ts';
import type { FormulaRecord } from './formula.ts';
import type { Origin } from './origin.ts';

/** What a formula was called with, by symbol. */
export type Inputs = Readonly<Record<string, Quantity | readonly Quantity[]>>;

/**
 * A leaf holds an origin (the machine file, the catalogue, an assumption); a step holds the formula and the quantities
 * that it came from. One class for both keeps reading `.value` quick in inner loops.
 */
export class Quantity<out U extends Unit = Unit> {
  /** In the SI unit that `unit` names. */
  readonly value: number;
  readonly unit: U;
  readonly by: Origin | FormulaRecord;
  /** What the formula was given; null for a leaf. */
  readonly inputs: Inputs | null;
  /** Whom the number is about: the path of a leaf, the subject of a step. */
  readonly about: string;

  constructor(value: number, unit: U, by: Origin | FormulaRecord, inputs: Inputs | null, about: string) {
    this.value = value;
    this.unit = unit;
    this.by = by;
    this.inputs = inputs;
    this.about = about;
  }
}

export interface Leaf<U extends Unit = Unit> extends Quantity<U> {
  readonly by: Origin;
  readonly inputs: null;
}

export interface Step<U extends Unit = Unit> extends Quantity<U> {
  readonly by: FormulaRecord;
  readonly inputs: Inputs;
}

export const isLeaf = (quantity: Quantity): quantity is Leaf => quantity.inputs === null;
export const isStep = (quantity: Quantity): quantity is Step => quantity.inputs !== null;

/** A number that the user, a part or a default gave. `value` is in SI. */
export const leaf = <U extends Unit>(value: number, unit: U, origin: Origin): Quantity<U> =>
  new Quantity(value, unit, origin, null, origin.path);

/** The address by which a number is explained: the path of a leaf, `formula@about` for a step. */
export const addressOf = (quantity: Quantity): string =>
  isStep(quantity) ? `${quantity.by.id}@${quantity.about}` : quantity.about;
