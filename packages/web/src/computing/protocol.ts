// What the page and the worker say to each other: plain data only.
import type {
  Asking,
  Candidate,
  CellJson,
  Choosing,
  Comparison,
  FindingJson,
  LinearModel,
  LongJob,
  LongWork,
  MarginBar,
  Preference,
  SetWorking,
  Solution,
  TaskOfAll,
  Verdict,
} from '@layshaft/core';
import type { Offering, ProblemAt as ProblemInFile, TextEdit } from '../file-pane/file-pane.ts';

/** A text of the folder, by the name that the machine file has for it. */
export interface CatalogueText {
  readonly name: string;
  readonly file: string;
  readonly text: string;
}

/** A problem of the machine file, or of another one that it names. */
export interface ProblemAt extends ProblemInFile {
  /** The file it is in, where that is not the machine file. */
  readonly elsewhere?: string;
}

export interface FindingAt extends FindingJson {
  readonly bar: MarginBar;
  readonly line?: number;
}

export interface InputAt {
  readonly path: string;
  readonly title: string;
  readonly value: CellJson;
  /** As it stands in the file, right or wrong. */
  readonly written?: string;
  /** 0 to 1; absent when it cannot be moved. */
  readonly place?: number;
  readonly offered?: readonly string[];
  readonly line?: number;
}

export interface PictureAt {
  readonly name: string;
  readonly title: string;
  readonly caption: string;
  /** For the page, in its colours. */
  readonly svg: string;
  readonly text: readonly string[];
}

/** A value that is written into the file, at a path of it, as it would be typed. */
export interface Entry {
  readonly path: string;
  readonly value: string;
}

export interface TableAt {
  readonly name: string;
  readonly title: string;
  readonly note?: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly CellJson[])[];
  /** For each row what is written when somebody takes it. */
  readonly takes?: readonly (readonly Entry[])[];
  /** What is written when somebody takes the whole of it. */
  readonly takesAll?: readonly Entry[];
}

/** Long work that a view offers. */
export type WorkAt = Omit<LongWork, 'job'>;

/** The parts of long work, for the page to run; their results go back with the number. */
export interface JobAt extends Pick<LongJob, 'task' | 'chunks'> {
  readonly id: number;
  readonly count: number;
}

/** Racks that are being chosen: a model for the solver of the page, or what came of it. */
export type ChoosingAt =
  | {
      readonly kind: 'model';
      readonly id: number;
      readonly model: LinearModel;
      readonly task: TaskOfAll;
      readonly prefer: Preference;
    }
  | {
      readonly kind: 'result';
      readonly became: 'done' | 'refused' | 'stopped';
      readonly says: string;
      readonly table?: TableAt;
    };

export interface ViewAt {
  readonly address: string;
  readonly title: string;
  readonly says: readonly CellJson[];
  readonly inputs: readonly InputAt[];
  readonly pictures: readonly PictureAt[];
  readonly tables: readonly TableAt[];
  readonly later: readonly { readonly name: string; readonly title: string }[];
  readonly works: readonly WorkAt[];
  readonly choosing?: Choosing;
}

export interface ChapterAt {
  readonly domain: string;
  readonly title: string;
  readonly gist: readonly CellJson[];
  readonly verdicts: Readonly<Record<Verdict, number>>;
  readonly views: readonly ViewAt[];
}

/** All that the page shows of one text. */
export interface Snapshot {
  readonly text: string;
  readonly machine: string | undefined;
  readonly problems: readonly ProblemAt[];
  readonly findings: readonly FindingAt[];
  readonly chapters: readonly ChapterAt[];
  /** The view of the address that is looked at, where it is not a chapter's own. */
  readonly looked: readonly ViewAt[];
  /** Catalogues and tables that the file names and that have not been handed in. */
  readonly wanting: readonly string[];
}

/** A number with where it comes from: what is given, or 'derived'. */
export type NumberAt = Extract<CellJson, { readonly address: string }> & {
  /** In a few words; absent for a derived number. */
  readonly told?: string;
  readonly line?: number;
};

/** One number explained: its formula and values, or where it comes from. */
export interface WorkingAt {
  /** The address that was asked for; that of a finding leads to its margin. */
  readonly asked: string;
  readonly number: NumberAt;
  readonly step?: {
    readonly title: string;
    readonly formula: string;
    /** The formula with symbols, and the same with values: MathML; a method has a sentence instead. */
    readonly set?: SetWorking;
    readonly prose?: string;
    /** With values, as text: what is too long to be set in one line. */
    readonly substituted: string;
    readonly when?: string;
    readonly source: string;
    readonly proof: string;
    readonly inputs: readonly {
      readonly symbol: string;
      readonly means: string;
      readonly values: readonly NumberAt[];
    }[];
  };
  /** Of a finding: the view on the page that shows what it is about, or the chapter that it belongs to. */
  readonly view?: string;
  /** The lines of the file that it rests on, down to the given. */
  readonly lines: readonly number[];
}

/** How a pasted list of points is read. */
export interface ListAt {
  readonly text: string;
  readonly count: number;
  /** Nothing where it is no list. */
  readonly columns?: TableAt;
  /** What is wrong, line by line; then it cannot be written. */
  readonly problems: readonly string[];
  readonly remarks: readonly string[];
}

/** What came of an edit on the sheet. */
export type Edited =
  | {
      readonly kind: 'edit';
      /** Each counts in the text that those before it have made. */
      readonly edits: readonly TextEdit[];
      readonly snapshot: Snapshot;
    }
  | { readonly kind: 'unchanged' }
  | { readonly kind: 'choice'; readonly here: string; readonly source: string; readonly shared: readonly string[] }
  | { readonly kind: 'refused'; readonly says: string; readonly advice: string };

export interface Looking {
  readonly address: string | undefined;
  readonly width_px: number;
}

/** Where an inherited value is written: here alone, or at its source; not said yet. */
export type At = 'here' | 'source' | undefined;
/** To a place on the span of an input, 0 to 1, or by so many steps. */
export type By = { readonly place: number } | { readonly steps: number };

/** Each request with what answers it. */
export interface Requests {
  read: { ask: { file: string; text: string; looking: Looking }; answer: Snapshot };
  catalogues: { ask: { texts: readonly CatalogueText[]; looking: Looking }; answer: Snapshot };
  look: { ask: { looking: Looking }; answer: Snapshot };
  /** All entries are written, or none. */
  write: { ask: { entries: readonly Entry[]; at: At; looking: Looking }; answer: Edited };
  move: {
    ask: { path: string; by: By; at: At; looking: Looking };
    answer: Edited;
  };
  /** How a list of points is read, before any of it is written. */
  list: { ask: { text: string }; answer: ListAt };
  /** Its points are written into the file, all or none. */
  writeList: { ask: { text: string; looking: Looking }; answer: Edited };
  explain: { ask: { address: string }; answer: WorkingAt | undefined };
  table: { ask: { address: string; name: string }; answer: TableAt | undefined };
  /** So much long work, as typed; a sentence where it cannot be done. */
  work: {
    ask: { address: string; name: string; count: string; seed: string };
    answer: JobAt | { readonly refused: string } | undefined;
  };
  /** What the parts have come to, in their order; a sentence where the text is another one by now. */
  merge: { ask: { id: number; results: readonly unknown[] }; answer: TableAt | { readonly refused: string } };
  /** Starts to choose racks, or to ask what one more point of each kind would take beside those that were chosen. */
  choose: { ask: { what: 'racks'; prefer: Preference } | { what: 'one more' }; answer: ChoosingAt };
  /** What the solver says to the model of this number. */
  solved: { ask: { id: number; solution: Solution }; answer: ChoosingAt };
  /** A picture as a file of its own. */
  picture: { ask: { address: string; name: string; width_px: number }; answer: string | undefined };
  inputs: { ask: { finding: string }; answer: readonly Candidate[] };
  backwards: { ask: { finding: string; path: string }; answer: Asking };
  compare: { ask: { with: string }; answer: Comparison };
  completion: { ask: Record<never, never>; answer: Offering };
}

export type RequestKind = keyof Requests;
export type Request = { [K in RequestKind]: { kind: K; id: number; ask: Requests[K]['ask'] } }[RequestKind];
export type Answer = { readonly id: number; readonly answer?: unknown; readonly failed?: string };

export type { CellJson };
