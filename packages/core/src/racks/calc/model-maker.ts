// Puts a linear model together: variables by handle, constraints as sums.
import type { Constraint, LinearModel, Term, Variable } from './linear-model.ts';

/** The place of a variable among those of its model. */
export type Handle = number;
export type Sum = readonly (readonly [Handle, number])[];

export class ModelMaker {
  readonly #variables: Variable[] = [];
  readonly #constraints: Constraint[] = [];

  /** A whole number from 0 on. */
  count(name: string, { most = Infinity, cost = 0 }: { readonly most?: number; readonly cost?: number } = {}): Handle {
    this.#variables.push({ name, least: 0, most, whole: true, cost });
    return this.#variables.length - 1;
  }

  atMost(name: string, sum: Sum, most: number, need?: string): void {
    this.#add(name, sum, -Infinity, most, need);
  }

  atLeast(name: string, sum: Sum, least: number, need?: string): void {
    this.#add(name, sum, least, Infinity, need);
  }

  exactly(name: string, sum: Sum, value: number, need?: string): void {
    this.#add(name, sum, value, value, need);
  }

  model(): LinearModel {
    return { variables: this.#variables, constraints: this.#constraints };
  }

  #add(name: string, sum: Sum, least: number, most: number, need: string | undefined): void {
    const factors = new Map<Handle, number>();
    for (const [variable, factor] of sum) factors.set(variable, (factors.get(variable) ?? 0) + factor);
    const terms: readonly Term[] = [...factors].map(([variable, factor]) => ({ variable, factor }));
    this.#constraints.push({ name, terms, least, most, ...(need !== undefined && { need }) });
  }
}
