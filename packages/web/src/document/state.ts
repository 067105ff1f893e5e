// What the page knows at a moment. The text is the document; all else here follows from it or is about looking at it.
import type { Comparison } from '@layshaft/core';
import type { Snapshot, TableAt, WorkingAt } from '../computing/protocol.ts';
import type { FileEntry } from '../files/folder.ts';
import type { Merged } from '../files/merge.ts';

export type SaveState = 'saved' | 'saving' | 'waiting' | 'away' | 'refused';

/** A value that is inherited was edited: for one alone, or for all that share it? */
export interface OpenChoice {
  readonly here: string;
  readonly source: string;
  readonly shared: readonly string[];
  readonly decide: (at: 'here' | 'source' | undefined) => void;
}

/** The file on disk and the text here were both changed. */
export interface Conflict {
  readonly theirs: string;
  readonly version: string | null;
  readonly merged: Merged;
}

export interface Kept {
  readonly name: string;
  readonly text: string;
}

/** What is known of long work that was asked for. */
export type WorkState =
  /** `share` in per cent, where it is known. */
  | { readonly kind: 'runs'; readonly share: number | undefined; readonly says: string }
  | { readonly kind: 'done' | 'stopped' | 'refused' | 'failed'; readonly says: string };

export interface SheetState {
  readonly files: readonly FileEntry[];
  readonly file: string | undefined;
  readonly snapshot: Snapshot | undefined;
  /** As it was before the last edit: for the ghosts. */
  readonly before: Snapshot | undefined;
  /** The address that is looked at, as in the URL. */
  readonly address: string | undefined;
  /** The number whose working is open. */
  readonly note: WorkingAt | undefined;
  /** Tables that take longer and were asked for, by `address name`; undefined while the text has none of that name. */
  readonly tables: Readonly<Record<string, TableAt | undefined>>;
  /** By `address name` as well. */
  readonly works: Readonly<Record<string, WorkState>>;
  readonly save: SaveState;
  /** A sentence about what just happened, for all to read. */
  readonly notice: string | undefined;
  readonly choice: OpenChoice | undefined;
  readonly conflict: Conflict | undefined;
  readonly kept: readonly Kept[];
  /** The kept state that the present one is held against. */
  readonly against: string | undefined;
  readonly comparison: Comparison | undefined;
  /** The program itself is at fault. */
  readonly defect: string | undefined;
}

export const emptyState: SheetState = {
  files: [],
  file: undefined,
  snapshot: undefined,
  before: undefined,
  address: undefined,
  note: undefined,
  tables: {},
  works: {},
  save: 'saved',
  notice: undefined,
  choice: undefined,
  conflict: undefined,
  kept: [],
  against: undefined,
  comparison: undefined,
  defect: undefined,
};
