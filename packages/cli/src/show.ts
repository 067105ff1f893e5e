// layshaft show: the pictures and tables of whatever has an address, from the margins to a single point.
import {
  type Assessment,
  allTables,
  assess,
  type CellJson,
  cellJson,
  chapters,
  nearest,
  type Picture,
  printLines,
  shownAddresses,
  type Table,
  tellsLack,
  type View,
  show as viewsAt,
} from '@layshaft/core';
import { exit, type Io, UserError } from './io.ts';
import { indent, paragraphs, wrap } from './layout.ts';
import { openDesign } from './open-design.ts';
import { csvOf, csvOfAll } from './print-csv.ts';
import { picturesIn, savePicture } from './save-picture.ts';
import { type Look, type LookOptions, lookOf } from './terminal.ts';

export interface ShowOptions extends LookOptions {
  readonly json?: boolean;
  /** Only the table of this name. */
  readonly table?: string;
  /** Only the picture of this name. */
  readonly picture?: string;
  /** The tables as comma-separated values. */
  readonly csv?: boolean;
  /** The file to write a picture into. */
  readonly svg?: string;
  /** The address of every number under its row. */
  readonly addresses?: boolean;
}

/** The version of what `--json` prints. */
export const viewVersion = 1;

/**
 * Prints pictures and tables and gives the exit status; without an address those of the networks, or of all there is where
 * there are none. Throws a UserError for an address at which nothing is shown.
 */
export async function show(file: string, address: string | undefined, options: ShowOptions, io: Io): Promise<number> {
  const design = await openDesign(file, io);
  const assessment = assess(design);
  const views = address === undefined ? viewsUnasked(assessment) : viewsShown(assessment, address);
  if (options.svg === undefined) io.stdout.write(textOfAll(views, options, lookOf(options, io)));
  else await savePicture(views, options.picture, options.svg, io);
  return design.problems.length === 0 ? exit.fine : exit.unusable;
}

/** Throws a UserError for an address at which nothing is shown. */
export function viewsShown(assessment: Assessment, address: string): readonly View[] {
  const views = viewsAt(assessment, address);
  if (views.length === 0) throw new UserError(nothingAt(assessment, address));
  return views;
}

function viewsUnasked(assessment: Assessment): readonly View[] {
  const networks = viewsAt(assessment, 'networks');
  const views = networks.length > 0 ? networks : chapters(assessment).flatMap((chapter) => chapter.views);
  if (views.length === 0)
    throw new UserError('Nothing is shown yet: the file has no axis, network, task, chain, mark, rack or point.');
  return views;
}

/** As text, or as the data that is asked for. `addressesAre` says what the addresses lead to. */
export function textOfAll(
  views: readonly View[],
  options: ShowOptions,
  look: Look,
  addressesAre = whereAddresses,
): string {
  const { table, picture, addresses = false } = options;
  if (picture !== undefined) {
    const drawn = picturesIn(views, picture).map((each) => each.picture);
    if (options.json) return json({ pictures: drawn });
    return lines(drawn.map((each) => printPicture(each, look)));
  }
  const chosen = table === undefined ? views : only(views, table);
  if (options.json) return json({ views: chosen.map(viewJson) });
  if (options.csv) {
    const tables = chosen.flatMap(allTables);
    return table === undefined ? csvOfAll(tables) : tables.map(csvOf).join('\r\n');
  }
  return lines([
    ...chosen.flatMap((view) => printView(view, look, addresses)),
    ...(addresses ? [] : [indent(addressesAre, 0, look.columns)]),
  ]);
}

const json = (content: object): string => `${JSON.stringify({ layshaft_view: viewVersion, ...content }, null, 2)}\n`;
const lines = (blocks: readonly (readonly string[])[]): string => `${paragraphs(blocks).join('\n')}\n`;

/** The views that have a table of that name, with it alone. An axis is a station too, so that there can be two views. */
function only(views: readonly View[], name: string): readonly View[] {
  const found = views.flatMap((view): readonly View[] => {
    const table =
      view.tables.find((each) => each.name === name) ?? view.later.find((each) => each.name === name)?.make();
    return table === undefined ? [] : [{ ...view, pictures: [], tables: [table], later: [] }];
  });
  if (found.length > 0) return found;
  const names = views.flatMap(({ tables, later }) => [...tables, ...later].map((table) => table.name));
  throw new UserError(`${views[0]!.address} has no table ${name}; it has ${[...new Set(names)].join(', ')}.`);
}

/** What a file need not have; any of them may be asked for. */
const mayBeAbsent = new Set('masters axes buses networks timing tasks chains memory marks racks points'.split(' '));

function nothingAt(assessment: Assessment, address: string): string {
  const addresses = shownAddresses(assessment);
  const sections = [...new Set(addresses.map((each) => each.split('.')[0]!))];
  const isNumber = address.includes('@');
  const near = nearest(address, [...addresses, ...sections.filter((each) => viewsAt(assessment, each).length > 0)]);
  // A section may be shown by the names in it alone.
  const all = sections.map((each) => (viewsAt(assessment, each).length > 0 ? each : `${each}.NAME`));
  const [section = ''] = address.split('.', 1);
  const isAbsent = mayBeAbsent.has(section) && !sections.includes(section);
  return [
    `Nothing is shown at ${address}${isAbsent ? ': the file has none yet' : ''}.`,
    ...(isNumber ? ['It looks like the address of a number: layshaft explain takes it.'] : []),
    ...(near === undefined || isNumber ? [] : [`Did you mean ${near}?`]),
    `What is shown: ${all.join(', ')}.`,
  ].join(' ');
}

const viewJson = (view: View): object => ({
  address: view.address,
  title: view.title,
  says: view.says.map(cellJson),
  pictures: view.pictures.map(({ picture }) => picture),
  tables: allTables(view).map((table) => ({ ...table, rows: table.rows.map((row) => row.map(cellJson)) })),
});

const whereAddresses = 'layshaft explain tells where a number comes from; --addresses shows what it takes.';

function printView(view: View, look: Look, addresses: boolean): readonly (readonly string[])[] {
  const alone = view.later.filter((each) => each.alone === true).map(({ name }) => name);
  return [
    [look.strong(view.title), ...sentenceOf(view, look)],
    ...view.pictures.map(({ picture }) => printPicture(picture, look)),
    ...allTables(view).map((table) => printTable(table, look, addresses)),
    ...(alone.length === 0 ? [] : [indent(`More with --table: ${alone.join(', ')}.`, 0, look.columns)]),
  ];
}

function printPicture(picture: Picture, { columns }: Look): readonly string[] {
  return [
    `${picture.title}  (${picture.name})`,
    ...printLines(picture, columns - 2).map((line) => `  ${line}`.trimEnd()),
    ...indent(picture.caption, 2, columns),
  ];
}

export function printTable(table: Table, look: Look, addresses: boolean): readonly string[] {
  const cells = table.rows.map((row) => row.map(cellJson));
  const missing = [...new Set(cells.flat().filter(tellsLack).map(textOf))];
  return [
    `${table.title}  (${table.name})`,
    ...foldedColumns(table.columns, cells, look.columns - 2, addresses).map((line) => `  ${line}`.trimEnd()),
    ...missing.flatMap((text) => indent(text, 2, look.columns)),
    ...(table.note === undefined ? [] : indent(sentence(table.note), 2, look.columns)),
  ];
}

const sentenceOf = ({ says }: View, { columns }: Look): readonly string[] =>
  wrap(says.map((cell) => textOf(cellJson(cell))).join(''), columns);
const sentence = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
const textOf = ({ text }: CellJson): string => text;

/**
 * Numbers stand at the right of their column, words at the left. Columns that do not fit beside the others follow in a
 * block of their own, with the first column again. What is missing is told once below the table.
 */
function foldedColumns(
  columns: readonly string[],
  cells: readonly (readonly CellJson[])[],
  width: number,
  addresses: boolean,
): readonly string[] {
  const texts = [columns, ...cells.map((row) => row.map((cell) => (tellsLack(cell) ? 'unknown' : cell.text)))];
  const widths = columns.map((_, at) => Math.max(...texts.map((row) => (row[at] ?? '').length)));
  const numeric = columns.map((_, at) => cells.some((row) => 'value' in (row[at] ?? {})));
  return blocksOf(widths, width).flatMap((block, number) => [
    ...(number === 0 ? [] : ['']),
    ...texts.flatMap((row, at) => [
      block
        .map((column) => [row[column] ?? '', widths[column]!, numeric[column]!] as const)
        .map(([text, room, right]) => (right ? text.padStart(room) : text.padEnd(room)))
        .join('  '),
      ...(addresses ? addressesIn(cells[at - 1] ?? [], block).map((address) => `    ${address}`) : []),
    ]),
  ]);
}

/** Which columns stand side by side; the first one in every block. */
function blocksOf(widths: readonly number[], width: number): readonly (readonly number[])[] {
  const blocks: number[][] = [[0]];
  let room = width - widths[0]!;
  for (let column = 1; column < widths.length; column++) {
    if (widths[column]! + 2 > room && blocks.at(-1)!.length > 1) {
      blocks.push([0]);
      room = width - widths[0]!;
    }
    blocks.at(-1)!.push(column);
    room -= widths[column]! + 2;
  }
  return blocks;
}

const addressesIn = (row: readonly CellJson[], columns: readonly number[]): readonly string[] =>
  columns.flatMap((column) => {
    const cell = row[column];
    return cell !== undefined && 'address' in cell ? [cell.address] : [];
  });
