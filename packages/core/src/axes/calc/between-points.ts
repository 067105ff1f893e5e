// Whether a curve that is known at the points of a rule, and at both ends, keeps its sign between them too.
import type { Rule } from './integral.ts';

export interface Between {
  /** Both ends and the nodes, from −1 to 1. */
  readonly points: readonly number[];
  /** The polynomial leaves the middle of the values by at most so many times what they leave it by. */
  readonly swelling: number;
  /**
   * Whether the one polynomial through the values, all of them over 0 or at most so little below it, may get lower than
   * that in between. It never does where this says no.
   */
  readonly mayFall: (values: ArrayLike<number>, little: number) => boolean;
}

/** A polynomial lies between its coefficients by Bernstein, and those follow from its values. */
export function betweenPoints({ nodes }: Rule): Between {
  const points = [-1, ...nodes, 1];
  const degree = points.length - 1;
  const rows = inverse(
    points.map((x) => {
      const part = (1 + x) / 2;
      return points.map((_, at) => binomial(degree, at) * part ** at * (1 - part) ** (degree - at));
    }),
  );
  return {
    points,
    swelling: Math.max(...rows.map((row) => row.reduce((sum, each) => sum + Math.abs(each), 0))),
    mayFall: (values, little) => {
      for (const row of rows) {
        let coefficient = 0;
        for (let at = 0; at < row.length; at++) coefficient += row[at]! * values[at]!;
        if (coefficient < -little) return true;
      }
      return false;
    },
  };
}

export const binomial = (n: number, k: number): number => (k === 0 ? 1 : (binomial(n, k - 1) * (n - k + 1)) / k);

/** By elimination, the largest of a column first. */
function inverse(matrix: readonly (readonly number[])[]): readonly (readonly number[])[] {
  const rows = matrix.map((row, at) => [...row, ...matrix.map((_, column) => (column === at ? 1 : 0))]);
  for (let column = 0; column < rows.length; column++) {
    const lower = rows.slice(column).toSorted((one, other) => Math.abs(other[column]!) - Math.abs(one[column]!));
    rows.splice(column, lower.length, ...lower);
    const pivot = rows[column]!;
    for (const [at, row] of rows.entries()) {
      const share = row[column]! / pivot[column]!;
      if (at !== column) for (const [index, each] of pivot.entries()) row[index]! -= share * each;
    }
  }
  return rows.map((row, at) => row.slice(rows.length).map((each) => each / row[at]!));
}
