// Tables as comma-separated values by RFC 4180, for a spreadsheet: every number in SI, with its unit in a column of its own.
import { type CellJson, cellJson, type Table } from '@layshaft/core';

/** One table with the names of its columns at the top. */
export function csvOf(table: Table): string {
  const cells = table.rows.map((row) => row.map(cellJson));
  const numeric = table.columns.map((_, at) => cells.some((row) => isNumber(row[at])));
  const head = table.columns.flatMap((name, at) => (numeric[at] ? [name, `${name}, unit`] : [name]));
  const rows = cells.map((row) => row.flatMap((cell, at) => (numeric[at] ? withUnit(cell) : [cell.text])));
  return [head, ...rows].map(record).join('');
}

/** Several tables, each under a record with its name and before an empty line. */
export const csvOfAll = (tables: readonly Table[]): string =>
  tables.map((table) => record([`${table.title} (${table.name})`]) + csvOf(table)).join(lineEnd);

const isNumber = (cell: CellJson | undefined): boolean => cell !== undefined && 'value' in cell;

const withUnit = (cell: CellJson): readonly string[] =>
  'value' in cell ? [String(Number(cell.value.toPrecision(digits))), cell.unit] : [cell.text, ''];

/** Far more than data have, few enough to hide what binary numbers cannot hold (our judgement). */
const digits = 12;

/** RFC 4180, section 2: records end with both characters; a field with one of these is quoted, a quote in it doubled. */
const lineEnd = '\r\n';
const record = (fields: readonly string[]): string => `${fields.map(field).join(',')}${lineEnd}`;
const field = (text: string): string => (/[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);
