// A list of points in a file of comma-separated values, read into what a machine file would say of them.
import type { Problem } from '../problems/problem.ts';
import { type Csv, type CsvCell, parseCsv, type Separator, separators } from '../reading/csv.ts';
import type { PlacedSection } from '../reading/parse.ts';
import { namesOf } from '../reading/share.ts';
import { SourceText } from '../reading/source-text.ts';
import type { Entry } from '../reading/tree.ts';
import { type CellRead, cellRead, isEmptyCell } from './cells.ts';
import { type ColumnKey, type Heading, headingOf, unitsOf } from './columns.ts';
import { pointEntries } from './entries.ts';
import { plainWords } from './plain-words.ts';
import { shortened } from './shortened.ts';
import { tellerOf } from './tell.ts';
import { bareNumber, withPoint } from './value-words.ts';

/** How one column was understood. */
export interface PointColumn {
  readonly head: CsvCell;
  /** Its number in the file, from 1. */
  readonly number: number;
  /** Nothing where it is left out. */
  readonly key: ColumnKey | undefined;
  readonly unit: string | undefined;
  /** Why it is left out. */
  readonly why?: string;
  readonly filled: number;
  readonly empty: number;
  readonly notUnderstood: number;
  /** The first cell with something in it, and what became of it. */
  readonly first: { readonly cell: string; readonly value: string } | undefined;
}

export interface PointsTable {
  readonly source: SourceText;
  readonly section: PlacedSection;
  readonly separator: Separator;
  readonly columns: readonly PointColumn[];
  /** One for each point, keys in our order whatever that of the columns; names that stand twice only once. */
  readonly entries: readonly Entry[];
  /** What is wrong with the table itself; what is wrong with its values is told by who reads them. */
  readonly problems: readonly Problem[];
  /** What was changed or left out. */
  readonly remarks: readonly Problem[];
}

/** Texts with more points than this are not read (our judgement: ten times the largest machine). */
export const mostPoints = 10_000;
/** The same for columns (our judgement). */
const mostColumns = 200;
const largestText = 4_000_000;
/** How many records are looked at for the names of the columns (our judgement: a title and an address above them). */
const headWithin = 12;

/** Reads a list of points. Never throws. */
export function readPointsTable(file: string, text: string): PointsTable {
  const source = new SourceText(file, text);
  const section: PlacedSection = {
    source,
    start: 0,
    parsed: { text: '', entry: undefined, defects: [], broken: false },
    isTable: true,
  };
  const none = { source, section, separator: ',' as Separator, columns: [], entries: [], remarks: [] };
  const refusal = refused(source);
  if (refusal !== undefined) return { ...none, problems: [refusal] };
  const { separator, at, csv } = taken(text);
  const head = csv.records[at];
  if (head === undefined) return { ...none, problems: [noHead(source, text)] };
  const tell = tellerOf(source);
  for (const { what, from, to } of csv.defects) tell.quote(what, { from, to });
  const body = csv.records.slice(at + 1).filter((record) => record.some(({ text: cell }) => cell !== ''));
  const width = body.reduce((most, record) => Math.max(most, record.length), head.length);
  if (body.length > mostPoints) return { ...none, problems: [tooMany(source, body.length, 'points', mostPoints)] };
  if (width > mostColumns) return { ...none, problems: [tooMany(source, width, 'columns', mostColumns)] };
  for (const record of csv.records.slice(0, at)) tell.above(record);
  const commas = separator === ';';
  const columns = columnsOf(head, body, { width, commas });
  for (const column of columns) if (column.key === undefined) tell.leftOut(column);
  if (!columns.some(({ key }) => key === 'name')) {
    return { ...none, separator, columns, problems: [...tell.problems, noNames(source, head)] };
  }
  for (const column of columns) if (column.isBare) tell.noUnit(column);
  const entries = pointEntries({ section, columns, body, commas }, tell);
  const all = countedUpTo(mostPoints, entries);
  if (all > mostPoints) return { ...none, problems: [tooMany(source, all, 'points', mostPoints)] };
  return { source, section, separator, columns, entries, problems: tell.problems, remarks: tell.remarks };
}

/** How many points the rows stand for, ranges of names spread; counted no further than a little above the most. */
function countedUpTo(most: number, entries: readonly Entry[]): number {
  let count = 0;
  for (const { key } of entries) {
    if (count > most) break;
    count += namesOf(key).length;
  }
  return count;
}

// ── separator and head ───────────────────────────────────────────────────────────────────────────────────────────────

/** The separator and the record of heads with which the most columns are understood. */
function taken(text: string): { readonly separator: Separator; readonly at: number; readonly csv: Csv } {
  let best = { separator: ',' as Separator, at: -1, score: 0 };
  for (const separator of separators) {
    parseCsv(text, separator, headWithin).records.forEach((record, at) => {
      const score = new Set(record.map(({ text: cell }) => headingOf(cell)?.key).filter((key) => key !== undefined))
        .size;
      if (score > best.score) best = { separator, at, score };
    });
  }
  return { ...best, csv: parseCsv(text, best.separator) };
}

// ── columns ──────────────────────────────────────────────────────────────────────────────────────────────────────────

export interface WorkingColumn extends PointColumn {
  readonly at: number;
  /** Numbers stand in it, and no unit anywhere. */
  readonly isBare: boolean;
}

function columnsOf(
  head: readonly CsvCell[],
  body: readonly (readonly CsvCell[])[],
  { width, commas }: { readonly width: number; readonly commas: boolean },
): readonly WorkingColumn[] {
  const end = head.at(-1)!.to;
  const read = Array.from({ length: width }, (_, at) => {
    const cell = head[at] ?? { text: '', from: end, to: end };
    const cells = body.map((record) => record[at]?.text ?? '');
    return { at, head: cell, ...columnOf(headed(cell.text, cells), cells, commas) };
  }).filter(({ head: cell, filled }) => cell.text !== '' || filled > 0);
  type Read = (typeof read)[number];
  /** Those that can be of a key: first those of which something is understood, the most usual word first. */
  const of = (key: ColumnKey): readonly Read[] =>
    read
      .filter((each) => each.fits && each.heading?.key === key)
      .sort((a, b) => isAllOdd(a) - isAllOdd(b) || a.heading!.rank - b.heading!.rank || a.at - b.at);
  // Where points have two names and no title, the second name is a title.
  const title = of('title').length === 0 ? of('name')[1] : undefined;
  return read.map((column): WorkingColumn => {
    const { heading, fits, ...rest } = column;
    const number = column.at + 1;
    const left = { ...rest, number, key: undefined, unit: undefined, isBare: false };
    if (heading === undefined) return { ...left, why: 'no word of ours is in its head' };
    if (!fits) return { ...left, why: `none of its cells is ${dueOf(heading.key)}` };
    if (column === title) {
      const { first } = column;
      return { ...left, key: 'title', notUnderstood: 0, first: first && { cell: first.cell, value: first.cell } };
    }
    const [best = column] = of(heading.key);
    if (best !== column) return { ...left, why: `'${shortened(best.head.text)}' says the same` };
    return { ...rest, number, key: heading.key, unit: heading.unit };
  });
}

/** Whether something stands in it and none of it is understood: 1 or 0. */
const isAllOdd = ({ filled, notUnderstood }: Pick<PointColumn, 'filled' | 'notUnderstood'>): number =>
  filled > 0 && notUnderstood === filled ? 1 : 0;

/** 'Type' is the type of an input where nothing but such types stands below it, and else the kind. */
function headed(text: string, cells: readonly string[]): Heading | undefined {
  const heading = headingOf(text);
  if (heading === undefined || plainWords(text) !== 'type') return heading;
  const filled = cells.filter((cell) => !isEmptyCell(cell, 'type'));
  const isType =
    filled.length > 0 && filled.every((cell) => cellRead('type', cell, { unit: undefined, commas: false }).understood);
  return isType ? { key: 'type', rank: 0, unit: undefined } : heading;
}

function columnOf(heading: Heading | undefined, cells: readonly string[], commas: boolean) {
  const filled = cells.filter((cell) => !isEmptyCell(cell, heading?.key));
  const counts = { filled: filled.length, empty: cells.length - filled.length };
  const [first] = filled;
  if (heading === undefined) {
    const shown = first === undefined ? undefined : { cell: first, value: '' };
    return { heading, fits: false, isBare: false, ...counts, notUnderstood: 0, first: shown };
  }
  const context = { unit: heading.unit, commas };
  const read = filled.map((cell) => cellRead(heading.key, cell, context));
  const notUnderstood = read.filter((each) => !each.understood).length;
  const bare = filled.filter((cell) => bareNumber.test(commas ? withPoint(cell) : cell)).length;
  const isQuantity = unitsOf(heading.key).length > 0;
  return {
    heading,
    // Under a word that is only one of several, cells that mean something else are another column. No point goes without
    // its name and its kind, so that these are told instead.
    fits:
      heading.rank === 0 ||
      ['name', 'kind'].includes(heading.key) ||
      isAllOdd({ filled: filled.length, notUnderstood }) === 0 ||
      (isQuantity && bare > 0),
    isBare: isQuantity && heading.unit === undefined && bare > 0 && bare === filled.length,
    ...counts,
    notUnderstood,
    first: first === undefined ? undefined : { cell: first, value: shownValue(read[0]!) },
  };
}

const shownValue = ({ value }: CellRead): string => (typeof value === 'string' ? value : value.join(' to '));

const dueOf = (key: ColumnKey): string =>
  unitsOf(key).length > 0 ? 'a quantity that fits' : `what can stand under ${key}`;

// ── what is refused ──────────────────────────────────────────────────────────────────────────────────────────────────

// biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters that no list of points holds.
const notPlain = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f\ufffd]/;

function refused(source: SourceText): Problem | undefined {
  const { text } = source;
  if (text.length > largestText) {
    return {
      code: 'text-too-large',
      message: `the table has ${text.length} characters; at most ${largestText} are read`,
      remedy: 'Split it, or look whether this is the right file.',
      place: source.place(0, 1),
      notes: [],
    };
  }
  const odd = notPlain.exec(text)?.index;
  return odd === undefined
    ? undefined
    : {
        code: 'text-not-plain',
        message: 'this is no plain UTF-8 text',
        remedy: 'Save the table as comma-separated values in UTF-8, not as a workbook.',
        place: source.place(odd, odd + 1),
        notes: [],
      };
}

const tooMany = (source: SourceText, count: number, what: string, most: number): Problem => ({
  code: 'text-too-large',
  message: `the table has ${count} ${what} or more; at most ${most} are read`,
  remedy: 'Split it, or look whether this is the right file.',
  place: source.place(0, 1),
  notes: [],
});

const noHead = (source: SourceText, text: string): Problem => ({
  code: 'table-form',
  message: text.trim() === '' ? 'there is nothing in this table' : 'no column of this table has a head that is known',
  remedy: 'Begin with a line of heads such as name,kind,at,wire [m],title.',
  place: source.place(0, Math.max(1, text.split('\n', 1)[0]!.length)),
  notes: [],
});

const noNames = (source: SourceText, head: readonly CsvCell[]): Problem => ({
  code: 'table-form',
  message: 'no column of this table gives the points their names',
  remedy: 'Write name or tag as the head of the column with the names.',
  place: source.place(head[0]!.from, head.at(-1)!.to),
  notes: [],
});
