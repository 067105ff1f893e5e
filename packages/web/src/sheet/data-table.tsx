// A table of words and numbers; it can be copied into a spreadsheet, and a row that is on offer can be taken. A long one is
// searched, and shows so many rows at once as are drawn in a blink.
import { tellsLack } from '@layshaft/core';
import { type ReactNode, useState } from 'react';
import type { CellJson, Entry, TableAt } from '../computing/protocol.ts';
import type { Sheet } from '../document/sheet.ts';
import { useSheet } from './context.ts';
import { Num } from './num.tsx';
import { drawnWhenDifferent } from './same.ts';
import { lookBy } from './sight.ts';

interface DataTableProps {
  readonly table: TableAt;
  readonly address: string;
}

export const DataTable = drawnWhenDifferent(function DataTable({ table, address }: DataTableProps) {
  const sheet = useSheet();
  const [wanted, setWanted] = useState('');
  const isLong = table.rows.length > fewRows;
  const numbered = table.rows.map((row, nth) => ({ row, nth }));
  const found = isLong ? numbered.filter(({ row }) => holds(row, wanted)) : numbered;
  const numeric = table.columns.map((_, at) => table.rows.some((row) => 'value' in (row[at] ?? {})));
  return (
    <section className="nodes" data-table={table.name}>
      {isLong && <Search title={table.title} wanted={wanted} found={found.length} change={setWanted} />}
      <table className="data">
        <caption>
          {table.title}
          <button type="button" className="quiet" onClick={() => void navigator.clipboard.writeText(asSheet(table))}>
            copy
          </button>
        </caption>
        <thead>
          <tr>
            {table.columns.map((column, at) => (
              <th key={column} scope="col" className={numeric[at] ? 'r' : undefined}>
                {column}
              </th>
            ))}
            {table.takes && (
              <th scope="col" className="take">
                <span className="vh">into the file</span>
              </th>
            )}
          </tr>
        </thead>
        <tbody>
          {found.slice(0, mostRows).map(({ row, nth }) => (
            <tr key={row.map(({ text }) => text).join('\n')} className={isPart(row) ? 'part' : undefined}>
              {row.map((cell, at) =>
                at === 0 ? (
                  <th key={table.columns[at]} scope="row">
                    <Row cell={cell.text} table={table.name} address={address} />
                  </th>
                ) : (
                  <td key={table.columns[at]} className={classOf(cell, numeric[at]!)}>
                    {tellsLack(cell) ? <Lack cell={cell} /> : <Num cell={cell} />}
                  </td>
                ),
              )}
              {table.takes && <Take entries={table.takes[nth]!} />}
            </tr>
          ))}
        </tbody>
      </table>
      <Lacks rows={table.rows} />
      {table.note !== undefined && <p className="remark">{sentence(table.note)}</p>}
      {table.takesAll && (
        <p className="take">
          <button type="button" onClick={() => void takeAll(sheet, table.takesAll!)}>
            Take all of this into the file
          </button>
        </p>
      )}
    </section>
  );
});

/** More rows than these are searched rather than read, and more than those are not drawn at once (our judgement). */
const fewRows = 40;
const mostRows = 200;

/** A number stands at the right; what is one word, such as the name of a terminal, is not broken. */
const classOf = ({ text }: CellJson, isNumeric: boolean): string => {
  if (isNumeric) return 'r';
  return text.includes(' ') ? 'words' : 'whole';
};

/** What is missing is told in a sentence below the table, once. */
const Lack = ({ cell: { text } }: { readonly cell: CellJson }) => (
  <span className="o unknown" title={text}>
    unknown
  </span>
);

/** More sentences about what is missing are not told one by one (our judgement: nobody reads further). */
const mostLacks = 5;

function Lacks({ rows }: Pick<TableAt, 'rows'>) {
  const all = [
    ...new Set(
      rows
        .flat()
        .filter(tellsLack)
        .map(({ text }) => text),
    ),
  ];
  if (all.length === 0) return null;
  const more = all.slice(mostLacks).length;
  return (
    <ul className="remark">
      {all.slice(0, mostLacks).map((text) => (
        <li key={text}>{sentence(text)}</li>
      ))}
      {more > 0 && <li>{more === 1 ? 'And one more is unknown.' : `And ${more} more are unknown.`}</li>}
    </ul>
  );
}

/** Names what the rows below it are of, and says nothing itself. */
const isPart = ([, ...values]: TableAt['rows'][number]): boolean =>
  values.length > 0 && values.every(({ text }) => text === '');

const holds = (row: TableAt['rows'][number], wanted: string): boolean =>
  row.some(({ text }) => text.toLowerCase().includes(wanted.trim().toLowerCase()));

interface SearchProps {
  readonly title: string;
  readonly wanted: string;
  readonly found: number;
  readonly change: (wanted: string) => void;
}

function Search({ title, wanted, found, change }: SearchProps) {
  return (
    <p className="search">
      <input
        type="search"
        placeholder="search"
        aria-label={`Search in: ${title}`}
        value={wanted}
        onChange={({ target }) => change(target.value)}
      />
      <span role="status">{found > mostRows ? `the first ${mostRows} of ${found} rows` : `${found} rows`}</span>
    </p>
  );
}

/** Where the name at the head of a row leads to. */
const leadsTo: Readonly<Record<string, (cell: string, address: string) => string>> = {
  ways: (cell, address) => `${address}.nodes.${cell}`,
  racks: (cell) => `racks.${cell.split('/', 1)[0]}`,
  points: (cell) => `points.${cell}`,
};

/** The name of a station, a rack or a point leads to it. */
function Row({ cell, table, address }: { readonly cell: string; readonly table: string; readonly address: string }) {
  const sheet = useSheet();
  const to = leadsTo[table];
  if (to === undefined) return cell;
  return (
    <button type="button" className="quiet" onClick={(event) => void lookBy(event, sheet, to(cell, address))}>
      {cell}
    </button>
  );
}

/** Writes what a row offers into the file. */
function Take({ entries }: { readonly entries: readonly Entry[] }) {
  const sheet = useSheet();
  return (
    <td className="take">
      <button
        type="button"
        aria-label={`Take ${entries.map(({ value }) => value).join(', ')}`}
        onClick={() => void sheet.write(...entries)}
      >
        Take
      </button>
    </td>
  );
}

/** They may be many lines, and the table is gone with them: it is told that they are there. */
async function takeAll(sheet: Sheet, entries: readonly Entry[]): Promise<void> {
  if (await sheet.write(...entries)) sheet.tell('Taken into the file, under planned. Undo takes it back.');
}

interface LaterProps {
  /** What belongs to it while it is open: work that makes a better one. */
  readonly children?: ReactNode;
  readonly name: string;
  readonly title: string;
  readonly address: string;
  readonly table: TableAt | undefined;
}

/** A table that takes longer to make: only its title until somebody asks. */
export function LaterTable({ name, title, address, table, children }: LaterProps) {
  const sheet = useSheet();
  return (
    <div className="later">
      <button
        type="button"
        aria-expanded={table !== undefined}
        onClick={() => (table === undefined ? void sheet.openTable(address, name) : sheet.closeTable(address, name))}
      >
        {title}
      </button>
      {table !== undefined && (
        <>
          <DataTable table={table} address={address} />
          {children}
        </>
      )}
    </div>
  );
}

const sentence = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;

/** Tab-separated, as spreadsheets take it from the clipboard. */
const asSheet = ({ columns, rows }: TableAt): string =>
  [columns, ...rows.map((row) => row.map(({ text }) => text))].map((row) => row.join('\t')).join('\n');
