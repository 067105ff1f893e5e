// The first of a list for which something comes out.

/** What `of` gives for the first for which it gives anything. */
export function firstOf<T, R>(list: readonly T[], of: (each: T) => R | undefined): R | undefined {
  for (const each of list) {
    const found = of(each);
    if (found !== undefined) return found;
  }
  return undefined;
}
