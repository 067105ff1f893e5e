// A linear model in the arrays that HiGHS takes, and the refusal of one that makes no sense.
import type { Constraint, LinearModel } from '@layshaft/core/linear-model';
import type { ModelData } from './highs.ts';

export interface DataOptions {
  /** Where false, every solution is as good as any other: asks only whether there is one. */
  readonly costs: boolean;
}

/** Throws a RangeError that names the variable or constraint where the model is none. */
export function dataOf({ variables, constraints }: LinearModel, { costs }: DataOptions): ModelData {
  for (const { name, least, most, cost } of variables) {
    refuseRange(`The variable ${name}`, least, most);
    if (!Number.isFinite(cost)) throw new RangeError(`The variable ${name} costs ${cost}, which is no number.`);
  }
  const rows = constraints.map((constraint) => factorsOf(constraint, variables.length));
  const starts = [0];
  for (const row of rows) starts.push(starts.at(-1)! + row.length);
  return {
    numCols: variables.length,
    numRows: constraints.length,
    colCost: variables.map(({ cost }) => (costs ? cost : 0)),
    colLower: variables.map(({ least }) => least),
    colUpper: variables.map(({ most }) => most),
    rowLower: constraints.map(({ least }) => least),
    rowUpper: constraints.map(({ most }) => most),
    matrix: {
      format: 'csr',
      numRows: constraints.length,
      numCols: variables.length,
      starts,
      indices: rows.flatMap((row) => row.map(([place]) => place)),
      values: rows.flatMap((row) => row.map(([, factor]) => factor)),
    },
    integrality: variables.map(({ whole }) => (whole ? 1 : 0)),
  };
}

/** Place and factor of each variable once, in their order. */
function factorsOf({ name, terms, least, most }: Constraint, count: number): readonly (readonly [number, number])[] {
  refuseRange(`The constraint ${name}`, least, most);
  const factors = new Map<number, number>();
  for (const { variable, factor } of terms) {
    if (!Number.isInteger(variable) || variable < 0 || variable >= count)
      throw new RangeError(`The constraint ${name} speaks of variable ${variable}, but there are ${count}.`);
    if (!Number.isFinite(factor)) throw new RangeError(`The constraint ${name} has the factor ${factor}.`);
    factors.set(variable, (factors.get(variable) ?? 0) + factor);
  }
  return [...factors].filter(([, factor]) => factor !== 0).sort(([a], [b]) => a - b);
}

/** A range that is upside down is a model without solution, not a mistake. */
function refuseRange(what: string, least: number, most: number): void {
  if (Number.isNaN(least) || Number.isNaN(most) || least === Infinity || most === -Infinity)
    throw new RangeError(`${what} reaches from ${least} to ${most}, which is no range.`);
}
