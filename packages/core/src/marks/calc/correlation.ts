// Correlation matrices: whether one is possible at all, and how independent values are made to have it.

export type Matrix = readonly (readonly number[])[];

/**
 * The lower triangle whose product with its transpose is the matrix; undefined where no quantities can be correlated so.
 * A matrix that is only just possible, such as one of complete correlation, has zeros on the diagonal of its triangle.
 */
export function triangleOf(correlation: Matrix): Matrix | undefined {
  const size = correlation.length;
  const triangle: number[][] = [];
  for (let row = 0; row < size; row++) {
    if (correlation[row]!.length !== size || correlation[row]![row] !== 1) return undefined;
    const made: number[] = Array(size).fill(0);
    for (let column = 0; column <= row; column++) {
      if (correlation[row]![column] !== correlation[column]![row]) return undefined;
      const above = triangle[column] ?? made;
      let rest = correlation[row]![column]!;
      for (let at = 0; at < column; at++) rest -= made[at]! * above[at]!;
      if (column === row) {
        if (!(rest >= -rounding)) return undefined;
        made[row] = Math.sqrt(Math.max(0, rest));
      } else if (above[column]! > Math.sqrt(rounding)) made[column] = rest / above[column]!;
      else if (!(Math.abs(rest) <= Math.sqrt(rounding))) return undefined;
    }
    triangle.push(made);
  }
  return triangle;
}

/** What rounding may leave of nothing: our judgement, some thousand last digits. */
const rounding = 1e-12;
