// A table of words and numbers; it can be copied into a spreadsheet, and a row that is on offer can be taken.
import type { ReactNode } from 'react';
import type { Entry, TableAt } from '../computing/protocol.ts';
import { useSheet } from './context.ts';
import { Num } from './num.tsx';
import { drawnWhenDifferent } from './same.ts';

interface DataTableProps {
  readonly table: TableAt;
  readonly address: string;
}

export const DataTable = drawnWhenDifferent(function DataTable({ table, address }: DataTableProps) {
  const numeric = table.columns.map((_, at) => table.rows.some((row) => 'value' in (row[at] ?? {})));
  return (
    <section className="nodes" data-table={table.name}>
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
          {table.rows.map((row, nth) => (
            <tr key={row.map(({ text }) => text).join('\n')}>
              {row.map((cell, at) =>
                at === 0 ? (
                  <th key={table.columns[at]} scope="row">
                    <Row cell={cell.text} table={table.name} address={address} />
                  </th>
                ) : (
                  <td key={table.columns[at]} className={numeric[at] ? 'r' : undefined}>
                    <Num cell={cell} />
                  </td>
                ),
              )}
              {table.takes && <Take entries={table.takes[nth]!} />}
            </tr>
          ))}
        </tbody>
      </table>
      {table.note !== undefined && <p className="remark">{sentence(table.note)}</p>}
    </section>
  );
});

/** The name of a station leads to the station. */
function Row({ cell, table, address }: { readonly cell: string; readonly table: string; readonly address: string }) {
  const sheet = useSheet();
  if (table !== 'ways') return cell;
  return (
    <button type="button" className="quiet" onClick={() => void sheet.look(`${address}.nodes.${cell}`)}>
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
