// Two texts that were made from one: put together line by line where they do not touch the same place.
import { diff3Merge } from 'node-diff3';

export interface Merged {
  /** Both changes together; where both touch the same lines, mine. */
  readonly text: string;
  /** The places where both touch the same lines. */
  readonly clashes: readonly { readonly mine: string; readonly theirs: string }[];
}

export function merge(base: string, mine: string, theirs: string): Merged {
  const blocks = diff3Merge(lines(mine), lines(base), lines(theirs), { excludeFalseConflicts: true });
  const text = blocks.flatMap(({ ok, conflict }) => ok ?? conflict?.a ?? []).join('\n');
  const clashes = blocks.flatMap(({ conflict }) =>
    conflict === undefined ? [] : [{ mine: conflict.a.join('\n'), theirs: conflict.b.join('\n') }],
  );
  return { text, clashes };
}

const lines = (text: string): string[] => text.split('\n');
