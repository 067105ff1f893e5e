// Sums over lists.

/** A plain sum in the order of the list; replaying it gives the identical bits. */
export function total(values: readonly number[]): number {
  let sum = 0;
  for (const value of values) sum += value;
  return sum;
}
