// Where a leaf comes from. An origin holds paths, never positions, so that it stays true after an edit elsewhere.

export type OriginKind = 'given' | 'measured' | 'planned' | 'catalogue' | 'assumed';

export interface Origin {
  readonly kind: OriginKind;
  /** The path in the machine file at which the value stands, or would stand if the user gave it. */
  readonly path: string;
  /** How the value came there, nearest first: `like print_1`, `set[0]`, `part drive_10`. Empty when it stands there. */
  readonly via: readonly string[];
  /** The path at which the value is written; differs from `path` when `via` names a sharing. */
  readonly writtenAt: string;
  /** As it is written, unit included. */
  readonly written: string;
  /** The unit spelling that it is written in; numbers of this origin are echoed in it. */
  readonly writtenUnit: string;
  /** Who says so: the source of a catalogue figure or of a default. Absent for what the user gave. */
  readonly source?: string | undefined;
  /** The usual value beside a stated limit, as written. Checks never use it. */
  readonly typical?: string | undefined;
  /** Under which condition the figure holds. */
  readonly condition?: string | undefined;
  /** For a measurement: when, and over how many observations. */
  readonly measured?: { readonly date: string; readonly count: string };
}
