// What is shown of one thing besides its findings: sentences and tables, as data for every screen and document.
import { Missing } from '../working/missing.ts';
import { Quantity } from '../working/quantity.ts';
import { type Shown, shown } from '../working/working.ts';
import { lackSentence } from './finding.ts';

/** A number with its working, a value that is missing, or words. */
export type Cell = Quantity | Missing | string;

export interface Table {
  /** Unique in its view, and the name under which a table is asked for alone. */
  readonly name: string;
  readonly title: string;
  /** What the table rests on, where that is more than the file. */
  readonly note?: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly Cell[])[];
}

export interface View {
  readonly address: string;
  readonly title: string;
  readonly tables: readonly Table[];
}

/** A cell as plain data: words alone, or a number with its address. */
export type CellJson = { readonly text: string } | Shown;

export const cellJson = (cell: Cell): CellJson => {
  if (typeof cell === 'string') return { text: cell };
  return cell instanceof Missing ? { text: `unknown: ${lackSentence(cell.lacks)}` } : shown(cell);
};

/** All numbers of a view. */
export const quantitiesIn = (view: View): readonly Quantity[] =>
  view.tables.flatMap(({ rows }) => rows.flat().filter((cell) => cell instanceof Quantity));
