// The rows of a list of points as entries of the group `points`, every node with its span in the file.
import type { Place } from '../problems/problem.ts';
import type { CsvCell } from '../reading/csv.ts';
import { shifted } from '../reading/edit-tree.ts';
import type { PlacedSection } from '../reading/parse.ts';
import { nodeOf } from '../reading/print-node.ts';
import type { Wording } from '../reading/reading.ts';
import type { Entry, LeafNode, MapNode, Node, Span } from '../reading/tree.ts';
import { type CellRead, cellRead, isEmptyCell, isOwnForm } from './cells.ts';
import { type ColumnKey, meanings, unitsOf } from './columns.ts';
import { shortened } from './shortened.ts';
import type { WorkingColumn } from './table.ts';
import type { Teller } from './tell.ts';
import { channelIn, withPoint } from './value-words.ts';

interface Rows {
  readonly section: PlacedSection;
  readonly columns: readonly WorkingColumn[];
  readonly body: readonly (readonly CsvCell[])[];
  readonly commas: boolean;
}

interface Said {
  readonly cell: CsvCell;
  readonly read: CellRead;
}

export function pointEntries({ section, columns, body, commas }: Rows, tell: Teller): readonly Entry[] {
  const byKey = new Map(columns.flatMap((column) => (column.key === undefined ? [] : [[column.key, column] as const])));
  const first = new Map<string, CsvCell>();
  return body.flatMap((record): readonly Entry[] => {
    const said = new Map<ColumnKey, Said>();
    for (const { key } of meanings) {
      const column = byKey.get(key);
      const cell = column && record[column.at];
      if (column === undefined || cell === undefined || isEmptyCell(cell.text, key)) continue;
      const read = column.isBare ? unknown : cellRead(key, cell.text, { unit: column.unit, commas });
      if (commas && unitsOf(key).length > 0 && withPoint(cell.text) !== cell.text && read.understood)
        tell.decimal(cell, withPoint(cell.text));
      if (named.includes(key) && read.understood && read.value !== cell.text && cell.text !== '?')
        tell.renamed(column.head.text, cell, String(read.value));
      said.set(key, { cell, read });
    }
    const name = said.get('name');
    if (name === undefined) {
      const filled = record.find(({ text }) => text !== '')!;
      tell.problem({ code: 'key-missing', message: 'this row has no name', remedy: 'Give the point a name.' }, filled);
      return [];
    }
    const key = String(name.read.value);
    const before = first.get(key);
    if (before !== undefined) {
      tell.problem(twice(name.cell.text, key, { before: before.text, place: tell.place(before) }), name.cell);
      return [];
    }
    first.set(key, name.cell);
    const value: MapNode = {
      ...spanOf(record),
      kind: 'map',
      entries: entriesOf(said),
      shared: { section, path: `points.${key}`, via: [], keySpan: spanOf([name.cell]) },
    };
    return [{ key, keySpan: spanOf([name.cell]), value }];
  });
}

/** What is said of a name that another point has; `before` and `written` are as they stand, `name` is in our form. */
export const twice = (
  written: string,
  name: string,
  { before, place }: { readonly before: string; readonly place: Place },
): Wording => ({
  code: 'key-twice',
  message:
    written === before
      ? `'${shortened(written)}' stands twice`
      : `'${shortened(written)}' is ${name}, as '${shortened(before)}' is`,
  remedy: 'Keep one of the two, or give one another name; the first one is read.',
  notes: [{ message: 'it stands here already', place }],
});

/** Columns with names of the user's own. */
const named: readonly ColumnKey[] = ['name', 'like', 'at', 'together', 'apart', 'potential', 'cabinet'];

const unknown: CellRead = { value: 'unknown', understood: true };

function entriesOf(said: ReadonlyMap<ColumnKey, Said>): readonly Entry[] {
  const kind = said.get('kind');
  const more = kind?.read.more ?? {};
  const ends = [said.get('range from'), said.get('range to')].filter((each) => each !== undefined);
  return meanings.flatMap(({ key }): readonly Entry[] => {
    const own = said.get(key);
    switch (key) {
      case 'name':
      case 'range from':
      case 'range to':
      case 'place':
        return [];
      case 'range':
        if (own !== undefined) return [entryOf(key, own)];
        if (ends.length > 0) return [rangeEntry(ends)];
        return more.range === undefined
          ? []
          : [entryOf(key, { cell: kind!.cell, read: { value: more.range, understood: true } })];
      case 'sensor':
        if (own !== undefined || more.sensor === undefined) return own === undefined ? [] : [entryOf(key, own)];
        return [entryOf(key, { cell: kind!.cell, read: { value: more.sensor, understood: true } })];
      case 'channel':
        return channelEntry(own, said);
      default:
        return own === undefined ? [] : [entryOf(key, own)];
    }
  });
}

/** Place and channel together, where the channel does not name its place itself. */
function channelEntry(own: Said | undefined, said: ReadonlyMap<ColumnKey, Said>): readonly Entry[] {
  const place = said.get('place');
  if (own === undefined)
    return place === undefined
      ? []
      : [entryOf('channel', { ...place, read: { ...place.read, value: place.cell.text } })];
  if (isOwnForm(own.cell.text) || own.cell.text === '?') return [entryOf('channel', own)];
  const at = said.get('at')?.read.value;
  const slot = place?.read.understood === true ? String(place.read.value) : undefined;
  const value = channelIn(
    own.cell.text,
    typeof at === 'string' && at !== 'unknown' && at !== 'open' ? at : 'main',
    slot,
  );
  return [
    entryOf('channel', { cell: own.cell, read: { value: value ?? own.cell.text, understood: value !== undefined } }),
  ];
}

function entryOf(key: ColumnKey, { cell, read }: Said): Entry {
  return { key, keySpan: spanOf([cell]), value: nodeAt(key, cell, read.value) };
}

function rangeEntry(ends: readonly Said[]): Entry {
  const items = ends.map(({ cell, read }) => leaf(cell, String(read.value)));
  const [{ cell }] = ends as readonly [Said];
  return { key: 'range', keySpan: spanOf([cell]), value: { ...spanOf([cell]), kind: 'list', items } };
}

function nodeAt(key: ColumnKey, cell: CsvCell, value: CellRead['value']): Node {
  if (typeof value !== 'string')
    return { ...spanOf([cell]), kind: 'list', items: value.map((each) => leaf(cell, each)) };
  // The title `open` is a title.
  if (key === 'title') return { ...leaf(cell, value), quoted: true };
  if (!/^[{[]/.test(value)) return leaf(cell, value);
  const node = nodeOf(value);
  return node.kind === 'leaf' ? leaf(cell, value) : shifted(node, cell.from - node.from);
}

const leaf = (cell: CsvCell, text: string): LeafNode => ({
  ...spanOf([cell]),
  kind: 'leaf',
  text,
  quoted: false,
  ...(text === cell.text ? {} : { isRewritten: true }),
});

const spanOf = (cells: readonly CsvCell[]): Span => ({ from: cells[0]!.from, to: cells.at(-1)!.to });
