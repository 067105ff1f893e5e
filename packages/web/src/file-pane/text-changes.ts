// What differs between two texts, as edits: line by line first, then without what a changed stretch keeps at its ends.
import { diffIndices } from 'node-diff3';

/** Characters `from` up to `to` of a text, replaced. Offsets are in UTF-16 units, a line break counts as one. */
export interface TextEdit {
  readonly from: number;
  readonly to: number;
  readonly insert: string;
}

/** The edits that turn one text into the other; all offsets are of the text before, in rising order. */
export function changesBetween(before: string, after: string): readonly TextEdit[] {
  const old = linesOf(before);
  const now = linesOf(after);
  const starts = startsOf(old);
  return diffIndices(old, now).map(({ buffer1: [first, count], buffer2Content }) => {
    const from = starts[first]!;
    return trimmed(before, { from, to: starts[first + count]!, insert: buffer2Content.join('') });
  });
}

/** The lines with their breaks, so that nothing is lost between them. */
const linesOf = (text: string): string[] => text.match(/[^\n]*\n|[^\n]+$/g) ?? [];

/** Where each line starts, and where the last one ends. */
function startsOf(lines: readonly string[]): readonly number[] {
  const starts = [0];
  for (const line of lines) starts.push(starts.at(-1)! + line.length);
  return starts;
}

function trimmed(text: string, { from, to, insert }: TextEdit): TextEdit {
  const most = Math.min(to - from, insert.length);
  let head = 0;
  while (head < most && text[from + head] === insert[head]) head++;
  let tail = 0;
  while (tail < most - head && text[to - 1 - tail] === insert[insert.length - 1 - tail]) tail++;
  return { from: from + head, to: to - tail, insert: insert.slice(head, insert.length - tail) };
}
