// A text with its file name, and the way from an offset to a line and a column.
import type { Place } from '../problems/problem.ts';

export class SourceText {
  readonly file: string;
  readonly text: string;
  #starts: readonly number[] | undefined;

  constructor(file: string, text: string) {
    this.file = file;
    this.text = text;
  }

  /** The place of the characters from `from` up to `to`; cut at the end of the line. */
  place(from: number, to: number): Place {
    this.#starts ??= lineStarts(this.text);
    const at = Math.max(0, Math.min(from, this.text.length));
    const line = lineOf(this.#starts, at);
    const start = this.#starts[line]!;
    const end = this.#starts[line + 1] ?? this.text.length + 1;
    const excerpt = this.text.slice(start, end - 1).replace(/\r$/, '');
    const length = Math.max(1, Math.min(to, start + excerpt.length) - at);
    return { file: this.file, line: line + 1, column: at - start + 1, length, excerpt };
  }
}

function lineStarts(text: string): readonly number[] {
  const starts = [0];
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) starts.push(at + 1);
  return starts;
}

/** The last line that starts at or before the offset, by halving. */
function lineOf(starts: readonly number[], offset: number): number {
  let low = 0;
  let high = starts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (starts[middle]! <= offset) low = middle;
    else high = middle - 1;
  }
  return low;
}
