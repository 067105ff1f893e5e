// What a solver found before its answer.
import type { Found } from '@layshaft/core/linear-model';

/** Those that cost more than the answer. */
export function withEarlier(all: readonly Found[], cost: number): { readonly earlier?: readonly Found[] } {
  const earlier = all.filter((found) => found.cost > cost);
  return earlier.length === 0 ? {} : { earlier };
}
