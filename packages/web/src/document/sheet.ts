// One machine file on the page: the text in the file pane, what the worker makes of it, and where it is kept.
// Every edit, typed or made on the sheet, goes through the file pane, so that there is one text and one undo. It is
// long because all that a page can do changes this one state.
import { starterFor } from '@layshaft/catalogue';
import type { Computer } from '../computing/computer.ts';
import type { At, By, Edited, Entry, Looking, RequestKind, Requests, Snapshot } from '../computing/protocol.ts';
import type { ChangedBy, FilePane } from '../file-pane/file-pane.ts';
import type { Folder } from '../files/folder.ts';
import { memory } from './browser-memory.ts';
import { Drag } from './drag.ts';
import { Keeper } from './keeper.ts';
import { printHash, readHash } from './place.ts';
import { emptyState, type SheetState } from './state.ts';
import { Works } from './works.ts';

/** Typing with longer pauses is a new edit for the ghosts (our judgement). */
const pause_ms = 1000;

type MakePane = (options: { readonly text: string; readonly saved: string | undefined }) => FilePane;

export class Sheet {
  readonly #computer: Computer;
  readonly #folder: Folder;
  readonly #keeper: Keeper;
  #makePane: MakePane | undefined;
  #pane: FilePane | undefined;
  #state = emptyState;
  readonly #listeners = new Set<() => void>();
  #width_px = 720;
  /** By the path of the file: the name that the machine file has for it. */
  readonly #catalogues = new Map<string, string>();
  #lastTyped = Number.NEGATIVE_INFINITY;
  #drag: Drag | undefined;
  #reading = false;
  #readAgain = false;
  #edits = 0;
  readonly works = new Works(this, (change) => this.#set(change(this.#state)));

  constructor(computer: Computer, folder: Folder) {
    this.#computer = computer;
    this.#folder = folder;
    this.#keeper = new Keeper(folder);
  }

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  readonly state = (): SheetState => this.#state;

  readonly tell = (notice: string): void => this.#set({ notice });

  #set(change: Partial<SheetState>): void {
    this.#state = { ...this.#state, ...change };
    for (const listener of this.#listeners) listener();
  }

  // ── opening ────────────────────────────────────────────────────────────────────────────────────────────────────────

  /** `makePane` is called for every file that is opened. */
  async start(makePane: MakePane): Promise<void> {
    this.#makePane = makePane;
    window.addEventListener('hashchange', () => void this.#followUrl());
    window.addEventListener('pagehide', () => this.#keeper.keepForReload());
    document.addEventListener('visibilitychange', () => this.#keeper.keepForReload());
    this.#folder.follow(({ path, version }) => void this.#changedOnDisk(path, version));
    await this.#listFiles();
    await this.#followUrl();
  }

  async #listFiles(): Promise<void> {
    const files = await this.#folder.list();
    if (files !== undefined) this.#set({ files });
  }

  async #changedOnDisk(path: string, version: string | null): Promise<void> {
    await this.#keeper.changedOnDisk(path, version);
    const catalogue = this.#catalogues.get(path);
    if (catalogue !== undefined) await this.#fetchCatalogues([catalogue]);
    else if (!this.#state.files.some((file) => file.path === path)) await this.#listFiles();
  }

  async #followUrl(): Promise<void> {
    const { file, address } = readHash(location.hash);
    const wanted = file ?? this.#state.files[0]?.path;
    if (wanted === undefined) {
      this.#set({ notice: 'This folder has no machine file yet: begin one with New machine.' });
      return;
    }
    if (wanted !== this.#state.file) await this.#open(wanted);
    if (address !== this.#state.address) await this.look(address);
  }

  async #open(file: string): Promise<void> {
    await this.#keeper.leave();
    const text = await this.#keeper.load(file);
    if (text === undefined) {
      this.#set({ notice: `${file} cannot be read. Choose another file.` });
      return;
    }
    this.#catalogues.clear();
    this.works.forget();
    this.#pane?.destroy();
    const pane = this.#makePane!({ text, saved: memory.history(file) });
    this.#pane = pane;
    this.#set({ ...emptyState, files: this.#state.files, file, kept: memory.kept(file) });
    await this.#read();
    this.#keeper.keep({
      file,
      text: () => pane.text(),
      replaceText: (other) => pane.replaceText(other),
      toJSON: () => pane.toJSON(),
      tell: (change) => this.#set(change),
    });
  }

  /** Begins a file with the text to start from; one of that name that is there already is opened as it is. */
  async createFile(name: string): Promise<void> {
    const file = /\.ya?ml$/.test(name) ? name : `${name}.yaml`;
    const saved = await this.#folder.save(file, starterFor(name.replace(/\.ya?ml$/, '')), null);
    if (saved.kind === 'refused') this.#set({ notice: `${saved.says} ${saved.advice}` });
    else if (saved.kind === 'away')
      this.#set({ notice: 'The server does not answer; begin the file when it is back.' });
    else {
      await this.#listFiles();
      this.openFile(file);
    }
  }

  openFile(file: string): void {
    location.hash = printHash({ file, address: undefined });
  }

  // ── reading and looking ────────────────────────────────────────────────────────────────────────────────────────────

  get #looking(): Looking {
    return { address: this.#state.address, width_px: this.#width_px };
  }

  /** Reads the text of the pane; while a reading is under way, one more follows it. */
  async #read(): Promise<void> {
    if (this.#reading) {
      this.#readAgain = true;
      return;
    }
    this.#reading = true;
    try {
      do {
        this.#readAgain = false;
        const { file } = this.#state;
        const snapshot = await this.ask('read', { file: file!, text: this.#pane!.text(), looking: this.#looking });
        if (snapshot !== undefined) this.#show(snapshot);
      } while (this.#readAgain);
    } finally {
      this.#reading = false;
    }
    await this.#follow();
  }

  #show(snapshot: Snapshot): void {
    const had = this.#state.snapshot?.problems.length ?? 0;
    this.#set({ snapshot });
    // Of a text that has been typed on meanwhile the next snapshot tells.
    if ((had > 0 || snapshot.problems.length > 0) && snapshot.text === this.#pane!.text())
      this.#pane!.setProblems(snapshot.problems.filter(({ elsewhere }) => elsewhere === undefined));
    // One that is not there is asked for again when the disk tells of it.
    const asked = new Set(this.#catalogues.values());
    const wanting = snapshot.wanting.filter((name) => !asked.has(name));
    if (wanting.length > 0) void this.#fetchCatalogues(wanting);
  }

  /** Catalogues and tables of the user's own lie beside the machine file; one that is not there stays a problem of the file. */
  async #fetchCatalogues(names: readonly string[]): Promise<void> {
    const { file } = this.#state;
    const folder = file!.slice(0, file!.lastIndexOf('/') + 1);
    for (const name of names) this.#catalogues.set(folder + name, name);
    const found = await Promise.all(
      names.map(async (name) => ({ name, file: folder + name, text: (await this.#folder.load(folder + name))?.text })),
    );
    const texts = found.flatMap(({ text, ...each }) => (text === undefined ? [] : [{ ...each, text }]));
    if (texts.length === 0) return;
    const snapshot = await this.ask('catalogues', { texts, looking: this.#looking });
    if (snapshot === undefined || snapshot.text !== this.#pane!.text()) return;
    this.works.textChanged();
    this.#show(snapshot);
    await this.#follow();
  }

  /** What is looked at beside the snapshot is made anew after an edit: the working, asked tables, the comparison. */
  async #follow(): Promise<void> {
    const { note, tables, against, kept } = this.#state;
    if (note !== undefined) await this.#explain(note.asked);
    for (const key of Object.keys(tables)) {
      const [address = '', name = ''] = key.split(' ');
      await this.openTable(address, name);
    }
    const other = kept.find(({ name }) => name === against);
    this.#set({ comparison: other && (await this.ask('compare', { with: other.text })) });
  }

  /** Looks at an address: its chapter or view comes into sight, a number's working opens. */
  async look(address: string | undefined): Promise<void> {
    this.#set({ address });
    const { file } = this.#state;
    if (file === undefined) return;
    const hash = printHash({ file, address });
    if (location.hash !== hash) history.pushState(null, '', hash);
    if (address === undefined) {
      this.#set({ note: undefined });
      this.#pane?.light([]);
    }
    await this.#redraw();
    if (address !== undefined) await this.#explain(address);
  }

  /** The same text, looked at from another address or at another width. */
  async #redraw(): Promise<void> {
    const snapshot = await this.ask('look', { looking: this.#looking });
    if (snapshot !== undefined && snapshot.text === this.#pane?.text()) this.#set({ snapshot });
  }

  async #explain(address: string): Promise<void> {
    const note = await this.ask('explain', { address });
    this.#set({ note });
    this.#pane?.light(note?.lines ?? []);
  }

  async openTable(address: string, name: string): Promise<void> {
    const table = await this.ask('table', { address, name });
    this.#set({ tables: { ...this.#state.tables, [`${address} ${name}`]: table } });
  }

  closeTable(address: string, name: string): void {
    const { [`${address} ${name}`]: _, ...tables } = this.#state.tables;
    this.#set({ tables });
  }

  /** A picture as a file of its own. */
  pictureFile(address: string, name: string): Promise<string | undefined> {
    return this.ask('picture', { address, name, width_px: this.#width_px });
  }

  /** The width that pictures are drawn at. */
  resize(width_px: number): void {
    if (Math.abs(width_px - this.#width_px) < 1) return;
    this.#width_px = width_px;
    if (this.#state.snapshot !== undefined) void this.#redraw();
  }

  reveal(line: number): void {
    this.#pane?.reveal(line);
  }

  // ── editing ────────────────────────────────────────────────────────────────────────────────────────────────────────

  /** The pane tells of every change of its text. */
  changed(by: ChangedBy): void {
    this.#keeper.changed();
    this.works.textChanged();
    if (by === 'sheet') return;
    const now = performance.now();
    if (by !== 'typing' || now - this.#lastTyped > pause_ms) this.#set({ before: this.#state.snapshot });
    this.#lastTyped = now;
    void this.#read();
  }

  readonly undo = () => this.#pane?.undo();
  readonly redo = () => this.#pane?.redo();

  /** Values from the sheet: all are written, as one step of undo, or none. Whether they stand in the file. */
  write(...entries: readonly Entry[]): Promise<boolean> {
    this.#set({ before: this.#state.snapshot });
    return this.#writeAt(entries, undefined);
  }

  async #writeAt(entries: readonly Entry[], at: At): Promise<boolean> {
    const edited = await this.ask('write', { entries, at, looking: this.#looking });
    const isTaken =
      edited !== undefined &&
      this.#take(edited, `write ${++this.#edits}`, (chosen) => void this.#writeAt(entries, chosen));
    await this.#follow();
    return isTaken;
  }

  /** The points of a pasted list, as one step of undo; whether they stand in the file now. */
  async writeList(text: string): Promise<boolean> {
    this.#set({ before: this.#state.snapshot });
    const edited = await this.ask('writeList', { text, looking: this.#looking });
    const done = edited !== undefined && this.#take(edited, `list ${++this.#edits}`, () => undefined);
    await this.#follow();
    return done;
  }

  /** An input is taken hold of; all moves until it is let go are one step of undo. */
  startMove(path: string): void {
    this.#drag = new Drag(path, `move ${++this.#edits}`, (by, drag) => this.#moveBy(by, drag));
    this.#set({ before: this.#state.snapshot });
  }

  move(by: By): void {
    this.#drag?.move(by);
  }

  endMove(): void {
    // A move that is still under way is followed when it ends.
    const isIdle = this.#drag?.busy !== true;
    this.#drag = undefined;
    if (isIdle) void this.#follow();
  }

  async #moveBy(by: By, drag: Drag): Promise<boolean> {
    const { path, group, at } = drag;
    const edited = await this.ask('move', { path, by, at, looking: this.#looking });
    if (edited === undefined) return false;
    const goesOn = this.#take(edited, group, (chosen) => {
      drag.at = chosen;
      drag.move(by);
    });
    if (this.#drag !== drag) await this.#follow();
    return goesOn;
  }

  /** Whether more moves may follow. */
  #take(edited: Edited, group: string, again: (at: At) => void): boolean {
    switch (edited.kind) {
      case 'unchanged':
        return true;
      case 'edit': {
        // The text was typed on meanwhile: what the worker changed is not the text of the pane; it is read anew.
        const { edits, snapshot } = edited;
        const written = edits.reduce(
          (text, { from, to, insert }) => text.slice(0, from) + insert + text.slice(to),
          this.#pane!.text(),
        );
        if (written !== snapshot.text) {
          void this.#read();
          return false;
        }
        for (const edit of edits) this.#pane!.apply(edit, group);
        this.#show(snapshot);
        if (this.#state.notice !== undefined) this.#set({ notice: undefined });
        return true;
      }
      case 'refused':
        this.#set({ notice: `${edited.says} ${edited.advice}` });
        return false;
      case 'choice': {
        const { here, source, shared } = edited;
        const decide = (at: At): void => {
          this.#set({ choice: undefined });
          if (at !== undefined) again(at);
        };
        this.#set({ choice: { here, source, shared, decide } });
        return false;
      }
    }
  }

  // ── kept states ────────────────────────────────────────────────────────────────────────────────────────────────────

  keep(name: string): void {
    const { file, kept } = this.#state;
    const all = [...kept.filter((each) => each.name !== name), { name, text: this.#pane!.text() }];
    const room = memory.keep(file!, all);
    this.#set({
      kept: all,
      notice: room
        ? `Kept under the name ${name}.`
        : `Kept under the name ${name} until the page is closed: this browser has no room left.`,
    });
    void this.against(name);
  }

  async against(name: string | undefined): Promise<void> {
    this.#set({ against: name, comparison: undefined });
    await this.#follow();
  }

  forget(name: string): void {
    const all = this.#state.kept.filter((each) => each.name !== name);
    memory.keep(this.#state.file!, all);
    this.#set({ kept: all });
    if (this.#state.against === name) void this.against(undefined);
  }

  /** Back to a kept state; one step of undo. */
  goBackTo(name: string): void {
    const kept = this.#state.kept.find((each) => each.name === name);
    if (kept !== undefined) this.#pane?.replaceText(kept.text);
  }

  /** Ends a conflict with what is on disk. */
  settle(text: 'mine' | 'theirs' | 'both'): void {
    this.#keeper.settle(text);
  }

  // ── asking the worker ──────────────────────────────────────────────────────────────────────────────────────────────

  /** Asks the worker of the present text. Nothing when the program itself is defective; the page then says so. */
  async ask<K extends RequestKind>(kind: K, ask: Requests[K]['ask']): Promise<Requests[K]['answer'] | undefined> {
    try {
      return await this.#computer.ask(kind, ask);
    } catch (error) {
      this.#set({ defect: error instanceof Error ? error.message : String(error) });
      return undefined;
    }
  }
}
