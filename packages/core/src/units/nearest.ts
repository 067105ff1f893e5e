// Finds the known word that a mistyped word most likely means.

/**
 * The candidate nearest to `word`, the earlier one of equals, or undefined when none is near enough: edits up to a third
 * of the word's length (our judgement). Letters in the wrong case hardly count, so `RPM` finds `rpm`.
 */
export function nearest(word: string, candidates: Iterable<string>): string | undefined {
  if (word.length > longestWord) return undefined;
  let best: string | undefined;
  let least = Math.max(0.5, Math.floor((word.length + 1) / 3));
  for (const candidate of candidates) {
    if (Math.abs(candidate.length - word.length) > least) continue;
    const edits = distance(word, candidate);
    if (edits < least || (best === undefined && edits === least)) {
      best = candidate;
      least = edits;
    }
  }
  return best;
}

/** A word longer than this is no slip of the keyboard (our judgement); the bound keeps the search quick. */
const longestWord = 60;

/** Levenshtein 1966: the fewest insertions, deletions and replacements; a replacement of case costs a tenth. */
function distance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const [from, to] = [a[i - 1]!, b[j - 1]!];
      const replaced = from === to ? 0 : from.toLowerCase() === to.toLowerCase() ? 0.1 : 1;
      next.push(Math.min(row[j]! + 1, next[j - 1]! + 1, row[j - 1]! + replaced));
    }
    row = next;
  }
  return row[b.length]!;
}
