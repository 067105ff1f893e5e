// Records out of comma-separated values by RFC 4180, and what spreadsheets make of it: other separators, any line ends.
import type { Span } from './tree.ts';

export const separators = ['\t', ';', ','] as const;
export type Separator = (typeof separators)[number];

/** A cell without its quotes and the blanks around it; the span is that of the text in the file. */
export interface CsvCell extends Span {
  readonly text: string;
}

export interface CsvDefect extends Span {
  readonly what: 'quote-open' | 'behind-quote';
}

export interface Csv {
  readonly records: readonly (readonly CsvCell[])[];
  readonly defects: readonly CsvDefect[];
}

/** Reads at most `most` records. A quote that is not closed is taken as it stands, and told. Never throws. */
export function parseCsv(text: string, separator: Separator, most = Number.POSITIVE_INFINITY): Csv {
  const records: CsvCell[][] = [];
  const defects: CsvDefect[] = [];
  const plainEnd = new RegExp(`[${separator}\\r\\n]`, 'g');
  // After one quote that nothing closes, no other one can be closed either.
  let quotesEnd = true;
  let at = text.startsWith('\ufeff') ? 1 : 0;
  let record: CsvCell[] = [];
  while (at < text.length && records.length < most) {
    const start = skipBlanks(text, at, separator);
    let cell: CsvCell | undefined;
    if (text[start] === '"' && quotesEnd) {
      const close = closingQuote(text, start + 1);
      if (close === undefined) {
        quotesEnd = false;
        defects.push({ what: 'quote-open', from: start, to: start + 1 });
      } else {
        cell = trimmed(text, start + 1, close, true);
        at = skipBlanks(text, close + 1, separator);
        const end = endOf(text, at, plainEnd);
        if (end > at) defects.push({ what: 'behind-quote', from: at, to: end });
        at = end;
      }
    }
    if (cell === undefined) {
      const end = endOf(text, at, plainEnd);
      cell = trimmed(text, at, end, false);
      at = end;
    }
    record.push(cell);
    if (text[at] === separator) {
      at++;
      // Behind the last separator stands a cell, also where the text ends.
      if (at < text.length) continue;
      record.push({ text: '', from: at, to: at });
    }
    records.push(record);
    record = [];
    at += text.startsWith('\r\n', at) ? 2 : 1;
  }
  return { records, defects };
}

/** RFC 4180, section 2: a quote inside quotes is doubled. */
function closingQuote(text: string, from: number): number | undefined {
  let at = text.indexOf('"', from);
  while (at >= 0 && text[at + 1] === '"') at = text.indexOf('"', at + 2);
  return at < 0 ? undefined : at;
}

function endOf(text: string, from: number, end: RegExp): number {
  end.lastIndex = from;
  return end.exec(text)?.index ?? text.length;
}

const blank = /[ \t\u00a0]/;

function skipBlanks(text: string, from: number, separator: Separator): number {
  let at = from;
  while (at < text.length && text[at] !== separator && blank.test(text[at]!)) at++;
  return at;
}

function trimmed(text: string, from: number, to: number, quoted: boolean): CsvCell {
  let [start, end] = [from, to];
  while (start < end && /\s/.test(text[start]!)) start++;
  while (end > start && /\s/.test(text[end - 1]!)) end--;
  const inside = text.slice(start, end);
  return { text: quoted ? inside.replaceAll('""', '"') : inside, from: start, to: end };
}
