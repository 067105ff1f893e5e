// Lines of a text by offset: where they start and end, which comment stands on them, and edits that respect them.

/** What stands from `from` up to `to` becomes `insert`. */
export interface TextEdit {
  readonly from: number;
  readonly to: number;
  readonly insert: string;
}

export const lineStart = (text: string, at: number): number => (at === 0 ? 0 : text.lastIndexOf('\n', at - 1) + 1);

/** The offset before the line break. */
export function lineEnd(text: string, at: number): number {
  const end = text.indexOf('\n', at);
  if (end < 0) return text.length;
  return end > at && text[end - 1] === '\r' ? end - 1 : end;
}

/** The offset behind the line break; the end of the text on its last line. */
export function nextLine(text: string, at: number): number {
  const end = text.indexOf('\n', at);
  return end < 0 ? text.length : end + 1;
}

export const columnOf = (text: string, at: number): number => at - lineStart(text, at);
export const isBlankLine = (text: string, at: number): boolean =>
  text.slice(lineStart(text, at), lineEnd(text, at)).trim() === '';
/** Whether nothing but spaces stands before an offset on its line. */
export const opensLine = (text: string, at: number): boolean => text.slice(lineStart(text, at), at).trim() === '';

/** The line break that the text uses. */
export const breakOf = (text: string): string => /\r?\n/.exec(text)?.[0] ?? '\n';

/** Where the comment starts that ends the line; `from` is behind a value. Nothing when there is none. */
export function commentAfter(text: string, from: number): number | undefined {
  let quote = '';
  for (let at = from; at < text.length; at++) {
    const mark = text[at]!;
    if (mark === '\n' || mark === '\r') return undefined;
    if (quote !== '') {
      if (mark === '\\' && quote === '"') at++;
      else if (mark === quote && quote === "'" && text[at + 1] === quote) at++;
      else if (mark === quote) quote = '';
    } else if (mark === '#' && /\s/.test(text[at - 1] ?? '')) return at;
    else if ((mark === "'" || mark === '"') && /[\s{[,:]/.test(text[at - 1] ?? '')) quote = mark;
  }
  return undefined;
}

/** The edit with the column of the line's comment kept, where the room suffices. */
export function keepColumn(text: string, edit: TextEdit): TextEdit {
  const { from, to, insert } = edit;
  const comment = commentAfter(text, to);
  if (comment === undefined || insert.includes('\n') || text.slice(from, to).includes('\n')) return edit;
  const middle = text.slice(to, comment).replace(/ +$/, '');
  const gap = comment - to - middle.length;
  const wanted = gap - (width(insert) - width(text.slice(from, to)));
  const room = wanted >= 1 ? wanted : Math.min(gap, 2);
  return room === gap ? edit : { from, to: comment, insert: insert + middle + ' '.repeat(room) };
}

const width = (text: string): number => [...text].length;

/** Two edits as one; the first stands before the second. */
export const joined = (text: string, first: TextEdit, second: TextEdit): TextEdit => ({
  from: first.from,
  to: second.to,
  insert: first.insert + text.slice(first.to, second.from) + second.insert,
});

/**
 * The end of the last line that belongs to an entry whose content ends at `end`: with the comment on that line, and
 * with comments on lines of their own that stand further in than the entry.
 */
export function blockEnd(text: string, end: number, column: number): number {
  let last = lineEnd(text, end);
  for (;;) {
    const next = nextLine(text, last);
    const comment = /^ *(?=#)/.exec(text.slice(next, lineEnd(text, next)));
    if (next >= text.length || comment === null || comment[0].length <= column) return last;
    last = lineEnd(text, next);
  }
}

/** Takes out whole lines, from the start of one to the end of another, and of two blank lines that would meet, one. */
export function withoutLines(text: string, from: number, end: number): TextEdit {
  const to = nextLine(text, end);
  if (to < text.length) {
    const blanks = (from === 0 || isBlankLine(text, from - 1)) && isBlankLine(text, to);
    return { from, to: blanks ? nextLine(text, to) : to, insert: '' };
  }
  let start = from;
  while (start > 0 && isBlankLine(text, start - 1)) start = lineStart(text, start - 1);
  const unbroken = start > 0 && !text.endsWith('\n');
  return { from: unbroken ? lineEnd(text, lineStart(text, start - 1)) : start, to, insert: '' };
}
