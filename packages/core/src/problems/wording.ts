// Counts and lists as they stand in a sentence.

/** '1 station', '2 stations'. */
export const plural = (count: number | string, noun: string): string =>
  `${count} ${noun}${String(count) === '1' ? '' : 's'}`;

/** Longer lists are cut: about one line and a half (our judgement). */
const longestList = 16;

/** 'a, b, c', or the first of many and how many more there are; 'none' for none. */
export function listed(names: readonly string[]): string {
  if (names.length === 0) return 'none';
  // A list that is one name too long is no shorter with 'and 1 more'.
  if (names.length <= longestList + 1) return names.join(', ');
  return `${names.slice(0, longestList).join(', ')} and ${names.length - longestList} more`;
}
