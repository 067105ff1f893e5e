// How much the server takes on, in one place.

/** The largest text of a file; the reader of machine files refuses larger ones as well. */
export const largestText_octets = 2_000_000;

/** How much of a folder is looked at (our judgement: more is no folder of machines but somebody's whole disk). */
export const walkLimits = { files: 1000, folders: 1000, depth: 8 } as const;

export interface HistoryLimits {
  /** Texts and log together; what lies over it goes, oldest first. */
  readonly octets: number;
  /** The newest saves of a file that stay whatever their size. */
  readonly newest: number;
}

/** Our judgement: some thousand saves of a large machine file; `newest` reaches back over a day's work. */
export const historyLimits: HistoryLimits = { octets: 100_000_000, newest: 200 };
