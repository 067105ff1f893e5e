// Sums over lists.

/** A plain sum in the order of the list; replaying it gives the identical bits. */
export function total(values: readonly number[]): number {
  let sum = 0;
  for (const value of values) sum += value;
  return sum;
}

/** What each entry comes to, summed in the order of the list. */
export function sumOver<T>(list: readonly T[], of: (each: T, at: number) => number): number {
  let sum = 0;
  for (let at = 0; at < list.length; at++) sum += of(list[at]!, at);
  return sum;
}
