// layshaft show: the tables of a network, a station or a run.
import {
  assess,
  type CellJson,
  cellJson,
  nearest,
  shownAddresses,
  type Table,
  type View,
  show as viewsAt,
} from '@layshaft/core';
import { exit, type Io, UserError } from './io.ts';
import { indent, paragraphs } from './layout.ts';
import { openDesign } from './open-design.ts';
import { type Look, type LookOptions, lookOf } from './terminal.ts';

export interface ShowOptions extends LookOptions {
  readonly json?: boolean;
  /** Only the table of this name. */
  readonly table?: string;
}

/** The version of what `--json` prints. */
export const viewVersion = 1;

/** Prints the tables and gives the exit status. Throws a UserError for an address at which nothing is shown. */
export async function show(file: string, address: string, options: ShowOptions, io: Io): Promise<number> {
  const design = await openDesign(file, io);
  const assessment = assess(design);
  const views = viewsAt(assessment, address);
  if (views.length === 0) throw new UserError(nothingAt(address, shownAddresses(assessment)));
  const chosen = views.map((view) => only(view, options.table));
  const text = options.json
    ? JSON.stringify({ layshaft_view: viewVersion, views: chosen.map(viewJson) }, null, 2)
    : paragraphs(chosen.flatMap((view) => printView(view, lookOf(options, io)))).join('\n');
  io.stdout.write(`${text}\n`);
  return design.problems.length === 0 ? exit.fine : exit.unusable;
}

function only(view: View, name: string | undefined): View {
  if (name === undefined) return view;
  const tables = view.tables.filter((table) => table.name === name);
  if (tables.length > 0) return { ...view, tables };
  throw new UserError(
    `${view.address} has no table ${name}; it has ${view.tables.map((table) => table.name).join(', ')}.`,
  );
}

function nothingAt(address: string, addresses: readonly string[]): string {
  if (addresses.length === 0) return `Nothing is shown at ${address}: the file has no network yet.`;
  const near = nearest(address, addresses) ?? addresses[0]!;
  return `Nothing is shown at ${address}. Did you mean ${near}? Everything at once: networks.`;
}

const viewJson = (view: View): object => ({
  ...view,
  tables: view.tables.map((table) => ({ ...table, rows: table.rows.map((row) => row.map(cellJson)) })),
});

function printView(view: View, look: Look): readonly (readonly string[])[] {
  return [[look.strong(view.title)], ...view.tables.map((table) => printTable(table, look))];
}

function printTable({ name, title, note, columns, rows }: Table, look: Look): readonly string[] {
  const cells = rows.map((row) => row.map(cellJson));
  const texts = [columns, ...cells.map((row) => row.map(({ text }) => text))];
  return [
    `${title}  (${name})`,
    ...alignedColumns(texts, cells, look.columns).map((line) => `  ${line}`),
    ...(note === undefined ? [] : indent(`Rests on: ${note}.`, 2, look.columns)),
  ];
}

/** Numbers stand at the right of their column, words at the left; what is too long for a line is cut and says so. */
function alignedColumns(
  texts: readonly (readonly string[])[],
  cells: readonly (readonly CellJson[])[],
  columns: number,
): readonly string[] {
  const numeric = texts[0]!.map((_, at) => cells.some((row) => 'value' in (row[at] ?? {})));
  // A sentence that says what is missing does not widen its column: the numbers above and below would go out of sight.
  const widening = texts.map((row) => row.map((text) => (text.startsWith('unknown: ') ? 0 : text.length)));
  const widths = texts[0]!.map((_, at) => Math.max(...widening.map((row) => row[at] ?? 0)));
  return texts.map((row) => {
    const line = row
      .map((text, at) => (numeric[at] ? text.padStart(widths[at]!) : text.padEnd(widths[at]!)))
      .join('  ')
      .trimEnd();
    return line.length <= columns - 2 ? line : `${line.slice(0, columns - 3)}…`;
  });
}
