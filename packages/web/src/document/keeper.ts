// Keeps the text of one file: on disk as soon as it can, in this browser until then; and notices when somebody else has
// changed the file meanwhile. Nothing is ever overwritten unseen.
import type { Folder } from '../files/folder.ts';
import { merge } from '../files/merge.ts';
import { type Draft, memory, type Seen } from './browser-memory.ts';
import type { SheetState } from './state.ts';

/** Saves follow the last change by so long (our judgement). */
const saveAfter_ms = 400;
/** A server that is away is asked again (our judgement). */
const againAfter_ms = 1500;

/** The text that is kept, and where it is told what becomes of it. */
export interface Kept {
  readonly file: string;
  text(): string;
  /** As one step of undo. */
  replaceText(text: string): void;
  /** The text with its steps of undo. */
  toJSON(): string;
  tell(change: Partial<Pick<SheetState, 'save' | 'notice' | 'conflict'>>): void;
}

const draftedOn = (draft: Draft | undefined): Seen | undefined => draft && { text: draft.base, version: draft.version };

export class Keeper {
  readonly #folder: Folder;
  #kept: Kept | undefined;
  #disk: Seen = { text: '', version: null };
  #timer: ReturnType<typeof setTimeout> | undefined;
  #saving = false;
  #conflict: SheetState['conflict'];

  constructor(folder: Folder) {
    this.#folder = folder;
  }

  /** The text on disk, or the one that never reached it; nothing when the file cannot be read. */
  async load(file: string): Promise<string | undefined> {
    const found = (await this.#folder.load(file)) ?? memory.seen(file) ?? draftedOn(memory.draft(file));
    if (found === undefined) return undefined;
    this.#disk = { text: found.text, version: found.version };
    memory.keepSeen(file, this.#disk);
    return this.#disk.text;
  }

  /** Begins to keep what was loaded last; a text of this browser that never reached the disk comes back. */
  keep(kept: Kept): void {
    this.#kept = kept;
    this.#conflict = undefined;
    const draft = memory.draft(kept.file);
    if (draft === undefined || draft.text === this.#disk.text) {
      this.changed();
      return;
    }
    kept.replaceText(draft.text);
    if (draft.version === this.#disk.version)
      kept.tell({ notice: 'What had not reached the disk was taken from this browser.' });
    else this.#clash(draft.base, this.#disk);
  }

  /** Ends with what is under way, before another file is loaded. */
  async leave(): Promise<void> {
    this.keepForReload();
    if (this.#timer !== undefined) await this.#save();
    clearTimeout(this.#timer);
    this.#kept = undefined;
  }

  /** The text has changed. */
  changed(): void {
    if (this.#kept === undefined) return;
    const { file, text, tell } = this.#kept;
    clearTimeout(this.#timer);
    this.#timer = undefined;
    if (text() === this.#disk.text) {
      memory.keepDraft(file, undefined);
      tell({ save: 'saved' });
    } else if (this.#conflict === undefined) {
      tell({ save: 'waiting' });
      this.#timer = setTimeout(() => void this.#save(), saveAfter_ms);
    }
  }

  async #save(): Promise<void> {
    const kept = this.#kept;
    clearTimeout(this.#timer);
    this.#timer = undefined;
    if (kept === undefined || kept.text() === this.#disk.text) return;
    const text = kept.text();
    this.#keepDraft();
    kept.tell({ save: 'saving' });
    this.#saving = true;
    const saved = await this.#folder.save(kept.file, text, this.#disk.version);
    this.#saving = false;
    if (this.#kept !== kept) return;
    switch (saved.kind) {
      case 'saved':
        this.#disk = { text, version: saved.version };
        memory.keepSeen(kept.file, this.#disk);
        return this.changed();
      case 'other':
        return this.#clash(this.#disk.text, saved);
      case 'refused':
        return kept.tell({ save: 'refused', notice: `${saved.says} ${saved.advice}` });
      case 'away':
        kept.tell({ save: 'away' });
        this.#timer = setTimeout(() => void this.#save(), againAfter_ms);
    }
  }

  #keepDraft(): void {
    if (this.#kept === undefined) return;
    const { file, text } = this.#kept;
    const { text: base, version } = this.#disk;
    memory.keepDraft(file, text() === base ? undefined : { text: text(), base, version });
  }

  /** The page may go at any moment now. */
  keepForReload(): void {
    this.#keepDraft();
    if (this.#kept !== undefined) memory.keepHistory(this.#kept.file, this.#kept.toJSON());
  }

  /** A file of the folder has this version now. */
  async changedOnDisk(path: string, version: string | null): Promise<void> {
    const kept = this.#kept;
    if (kept?.file !== path || version === this.#disk.version || this.#saving) return;
    const found = await this.#folder.load(path);
    if (found === undefined || found.version === this.#disk.version || this.#kept !== kept) return;
    if (kept.text() !== this.#disk.text) {
      this.#clash(this.#disk.text, found);
      return;
    }
    this.#disk = found;
    kept.replaceText(found.text);
    kept.tell({ notice: 'The file was changed by another program; its text is taken over. Undo brings yours back.' });
  }

  #clash(base: string, theirs: Seen): void {
    const { text, tell } = this.#kept!;
    this.#keepDraft();
    clearTimeout(this.#timer);
    this.#conflict = { theirs: theirs.text, version: theirs.version, merged: merge(base, text(), theirs.text) };
    tell({ conflict: this.#conflict, save: 'waiting' });
  }

  /** Ends a conflict with the text that shall hold; it is one step of undo. */
  settle(which: 'mine' | 'theirs' | 'both'): void {
    const conflict = this.#conflict;
    if (conflict === undefined) return;
    this.#disk = { text: conflict.theirs, version: conflict.version };
    this.#conflict = undefined;
    const { replaceText, tell } = this.#kept!;
    tell({ conflict: undefined });
    if (which === 'theirs') replaceText(conflict.theirs);
    if (which === 'both') replaceText(conflict.merged.text);
    this.changed();
  }
}
