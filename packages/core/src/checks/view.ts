// What is shown of one thing besides its findings: a sentence, inputs, tables, as data for every screen and document.
import type { Drawn } from '../pictures/picture.ts';
import { Missing } from '../working/missing.ts';
import type { Origin, OriginKind } from '../working/origin.ts';
import { isLeaf, Quantity } from '../working/quantity.ts';
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
  /** For each row what is written into the file, at which path, when somebody takes it; absent where nothing is to be taken. */
  readonly takes?: readonly (readonly { readonly path: string; readonly value: string }[])[];
  /** What is written when somebody takes the whole of it, where no row is to be had without the others. */
  readonly takesAll?: readonly { readonly path: string; readonly value: string }[];
}

/** A table that takes longer than a blink to make: it is made when somebody wants to see it. */
export interface LaterTable extends Pick<Table, 'name' | 'title'> {
  readonly make: () => Table;
  /** It is long and only printed when it is asked for by its name. */
  readonly alone?: true;
}

/** How much of a long work is asked for. */
export interface Asked {
  readonly count: number;
  /** A whole number from 0 to 2^32 − 1: the same one gives the same results. */
  readonly seed: number;
}

/** What a thread is asked to do with a part of a job. */
export type PartTask = 'trials' | 'curvedTrials' | 'simulation';

/** Parts are plain data and done anywhere, in any order; their results come back in the order of the parts. */
export interface LongJob {
  readonly task: PartTask;
  readonly chunks: readonly unknown[];
  /** Every number has its working, with count and seed. The name is that of the work. */
  readonly merge: (results: readonly unknown[]) => Table;
}

/** What takes longer than anybody waits for unasked: a host asks how much, runs its parts on threads, and shows the table. */
export interface LongWork extends Pick<Table, 'name' | 'title'> {
  /** What is counted: 'trials', 'cycles'. */
  readonly counts: string;
  readonly least: number;
  /** What is offered first. */
  readonly usual: number;
  readonly most: number;
  /** Missing where it cannot be done. */
  readonly job: (asked: Asked) => LongJob | Missing;
}

/** A value of the file that a screen lets one move while everything else follows. */
export interface Input {
  /** Where it stands in the file, or would stand. */
  readonly path: string;
  readonly title: string;
  /** What holds at present; words where it is open. */
  readonly value: Cell;
  /** In SI: how far it is usually moved, and in which steps where only these make sense. */
  readonly span?: { readonly least: number; readonly most: number; readonly step?: number };
  /** What is on offer, as it is written, where only some values are. */
  readonly offered?: readonly Quantity[];
}

/** What a host with a solver can choose, as the tables that come of it. */
export interface Choosing extends Pick<Table, 'name' | 'title'> {
  readonly oneMore: Pick<Table, 'name' | 'title'>;
}

export interface View {
  readonly address: string;
  readonly title: string;
  /** The result in one sentence: words and numbers in turn. */
  readonly says: readonly Cell[];
  readonly inputs: readonly Input[];
  readonly pictures: readonly Drawn[];
  readonly tables: readonly Table[];
  readonly later: readonly LaterTable[];
  /** The table of a work may stand among the later ones already, with fewer counts. */
  readonly works?: readonly LongWork[];
  /** Absent where nothing is open. */
  readonly choosing?: Choosing;
}

/** All tables of a view, those that take longer among them; not those that are only shown alone. */
export const allTables = ({ tables, later }: View): readonly Table[] => [
  ...tables,
  ...later.filter(({ alone }) => alone !== true).map((each) => each.make()),
];

/** A cell as plain data: words alone, or a number with its address. */
export type CellJson = { readonly text: string } | (Shown & { readonly origin: OriginKind | 'derived' });

const lacking = 'unknown: ';

/** Whether a cell tells what is missing. */
export const tellsLack = ({ text }: CellJson): boolean => text.startsWith(lacking);

export const cellJson = (cell: Cell): CellJson => {
  if (typeof cell === 'string') return { text: cell };
  if (cell instanceof Missing) return { text: `${lacking}${lackSentence(cell.lacks)}` };
  return { ...shown(cell), origin: isLeaf(cell) ? (cell.by as Origin).kind : 'derived' };
};

/** All numbers of a view; those of tables that take longer come last, and only when they are asked for. */
export function* quantitiesIn({ pictures, says, inputs, tables, later }: View): Iterable<Quantity> {
  for (const { numbers } of pictures) yield* numbers;
  const quantities = (cells: readonly Cell[]): readonly Quantity[] => cells.filter((cell) => cell instanceof Quantity);
  yield* quantities([...says, ...inputs.map(({ value }) => value)]);
  for (const { rows } of tables) yield* quantities(rows.flat());
  for (const { make } of later) yield* quantities(make().rows.flat());
}
