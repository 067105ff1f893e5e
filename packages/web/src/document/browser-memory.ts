// What this browser keeps of a file: text that is not on the disk yet, the history of undo, and states kept by name.
import type { Kept } from './state.ts';

/** Text that has not reached the disk, and the text on disk that it was made from. */
export interface Draft {
  readonly text: string;
  readonly base: string;
  readonly version: string | null;
}

/** A text as it was on disk. */
export interface Seen {
  readonly text: string;
  readonly version: string | null;
}

const key = (what: string, file: string): string => `layshaft ${what} ${file}`;

export const memory = {
  draft: (file: string): Draft | undefined => read(localStorage, key('draft', file)),
  keepDraft: (file: string, draft: Draft | undefined): boolean => write(localStorage, key('draft', file), draft),
  /** What was last on disk, for when the server is away at the next visit. */
  seen: (file: string): Seen | undefined => read(localStorage, key('seen', file)),
  keepSeen: (file: string, seen: Seen): boolean => write(localStorage, key('seen', file), seen),
  history: (file: string): string | undefined => read(sessionStorage, key('history', file)),
  keepHistory: (file: string, history: string): boolean => write(sessionStorage, key('history', file), history),
  kept: (file: string): readonly Kept[] => read(localStorage, key('kept', file)) ?? [],
  keep: (file: string, kept: readonly Kept[]): boolean => write(localStorage, key('kept', file), kept),
  fileWidth: (): number | undefined => read(localStorage, 'layshaft file width'),
  keepFileWidth: (width_px: number): boolean => write(localStorage, 'layshaft file width', width_px),
  theme: (): string | undefined => read(localStorage, 'layshaft theme'),
  keepTheme: (theme: string): boolean => write(localStorage, 'layshaft theme', theme),
};

function read<T>(storage: Storage, name: string): T | undefined {
  const text = storage.getItem(name);
  if (text === null) return undefined;
  try {
    return JSON.parse(text) as T;
  } catch (error) {
    // Something else wrote here; it is no use to us.
    if (error instanceof SyntaxError) return undefined;
    throw error;
  }
}

/** Whether there was room for it. */
function write(storage: Storage, name: string, value: unknown): boolean {
  if (value === undefined) {
    storage.removeItem(name);
    return true;
  }
  try {
    storage.setItem(name, JSON.stringify(value));
    return true;
  } catch (error) {
    if (error instanceof DOMException) return false;
    throw error;
  }
}
