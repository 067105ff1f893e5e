// How the columns of a list of points were understood, as a table.
import type { Table } from '../checks/view.ts';
import { plural } from '../problems/wording.ts';
import type { Separator } from '../reading/csv.ts';
import { shortened } from './shortened.ts';
import type { PointColumn, PointsTable } from './table.ts';

const separatorWords: Readonly<Record<Separator, string>> = { ',': 'commas', ';': 'semicolons', '\t': 'tabs' };

/** One row for each column, in their order in the file; why one is left out the remarks say. */
export const previewOf = ({ source, columns, entries, separator }: PointsTable): Table => ({
  name: 'columns',
  title: `Columns of ${source.file}`,
  note: `${plural(entries.length, 'point')}; ${separatorWords[separator]} part the cells`,
  columns: ['column', 'used as', 'first', 'unit', 'empty', 'unclear'],
  rows: columns.map((column) => [
    column.head.text === '' ? `(column ${column.number})` : shortened(column.head.text),
    column.key ?? 'left out',
    firstOf(column),
    column.unit ?? '',
    String(column.empty),
    String(column.notUnderstood),
  ]),
});

function firstOf({ key, first }: PointColumn): string {
  if (first === undefined) return '';
  const shown = key === undefined || first.cell === first.value ? first.cell : `${first.cell} → ${first.value}`;
  return shortened(shown);
}
