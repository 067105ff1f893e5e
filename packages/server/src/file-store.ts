// The machine files of one folder: listed, read, saved without losing anything, watched; all paths stay inside.
import { readFileSync, type Stats } from 'node:fs';
import { access, constants, open, realpath } from 'node:fs/promises';
import { dirname } from 'node:path';
import { removeLeftovers, writeAtomically } from './atomic-write.ts';
import { History, type Save, versionOf } from './history.ts';
import { isMachineFile, isTable, placeInside } from './inside-folder.ts';
import { type HistoryLimits, largestText_octets, walkLimits } from './limits.ts';
import { asRefusal, codeOf, Refusal } from './refusal.ts';
import { walkFolder } from './walk-folder.ts';
import { type Change, Watch } from './watch.ts';

export interface FileText {
  readonly path: string;
  readonly text: string;
  readonly version: string;
}

/** `base` is the version that the text was made from; null when it is a new file. */
export interface SaveRequest {
  readonly path: string;
  readonly text: string;
  readonly base: string | null;
}

/** What is on disk after a save: the new version, or, unsaved, another one with its text, null when there is no file. */
export type SaveAnswer =
  | { readonly saved: true; readonly version: string }
  | { readonly saved: false; readonly version: string | null; readonly text: string | null };

export interface FileList {
  readonly files: readonly { readonly path: string; readonly bytes: number }[];
  /** False when a limit, or a folder that may not be read, has hidden some. */
  readonly complete: boolean;
  readonly limits: typeof walkLimits;
}

export interface FileStore {
  list(): Promise<FileList>;
  /** A machine file, or a table that one names. */
  read(path: string): Promise<FileText>;
  save(request: SaveRequest): Promise<SaveAnswer>;
  history(path: string): Promise<Save[]>;
  historyText(path: string, id: string): Promise<string>;
  /** Tells all files with their versions, then every change, until the function that it gives is called. */
  follow(listener: (change: Change) => void): () => void;
  /** Resolves when the saves under way are done. Nothing may be asked afterwards. */
  close(): Promise<void>;
}

export interface StoreOptions {
  /** An error that has nobody to be told to. */
  readonly onError: (error: unknown) => void;
  readonly historyLimits?: HistoryLimits;
  /** Longest time until a change by another hand is seen. */
  readonly look_ms?: number;
}

/**
 * Opens a folder. Rejects with the error of the file system when it is not there.
 * Every method rejects with a Refusal when it cannot do what it is asked.
 */
export async function openStore(folder: string, options: StoreOptions): Promise<FileStore> {
  const root = await realpath(folder);
  const history = new History(root, options.historyLimits);
  const listeners = new Set<(change: Change) => void>();
  const watch = new Watch(root, {
    ...options,
    onChange: (change) => {
      for (const listener of listeners) listener(change);
    },
  });
  for (const each of (await walkFolder(root)).folders) await removeLeftovers(each);
  await watch.start();
  let saves: Promise<unknown> = Promise.resolve();

  return {
    list: async () => {
      const { files, complete } = await walkFolder(root);
      return {
        files: files.map(({ path, stats }) => ({ path, bytes: Number(stats.size) })),
        complete,
        limits: walkLimits,
      };
    },

    read: (path) =>
      inPlainWords(path, async () => {
        const place = await placeInside(root, path, { allows: (name) => isMachineFile(name) || isTable(name) });
        if (isTable(path)) watch.lookAt(path);
        const found = await readPlace(path, place);
        if (found === undefined) throw Object.assign(new Error(path), { code: 'ENOENT' });
        return { path, text: decode(found.octets), version: versionOf(found.octets) };
      }),

    save: (request) => {
      const saved = saves.then(() => inPlainWords(request.path, () => save(root, history, request)));
      saves = saved.catch(() => undefined);
      return saved;
    },

    history: (path) =>
      inPlainWords(path, async () => {
        await placeInside(root, path);
        return history.saves(path);
      }),

    historyText: (path, id) =>
      inPlainWords(path, async () => {
        await placeInside(root, path);
        const octets = await history.text(path, id);
        if (octets === undefined)
          throw new Refusal(404, `${path} has no save ${id}.`, 'Ask for its history again: old saves are dropped.');
        return decode(octets);
      }),

    follow: (listener) => {
      for (const change of watch.current()) listener(change);
      listeners.add(listener);
      return () => listeners.delete(listener);
    },

    close: async () => {
      await watch.close();
      await saves;
    },
  };
}

async function save(root: string, history: History, { path, text, base }: SaveRequest): Promise<SaveAnswer> {
  if (/\p{Surrogate}/u.test(text))
    throw new Refusal(400, 'The text has half a character in it.', 'Remove the lone surrogate, then save again.');
  const place = await placeInside(root, path);
  const octets = Buffer.from(text);
  if (octets.length > largestText_octets) throw tooLarge(path);
  const found = await readPlace(path, place);
  const before = found ? versionOf(found.octets) : null;
  const version = versionOf(octets);
  const isThere = before === version;
  if (!isThere && before !== base) return otherwise(found);
  if (!found) await mayBeMade(path, place);
  else if (!isThere) await mayBeReplaced(path, place, found.stats);

  const like = found?.stats;
  if (found) await history.keep(path, { octets: found.octets, at: found.stats.mtime, by: 'elsewhere', like });
  if (isThere) return { saved: true, version };
  await history.keep(path, { octets, at: new Date(), by: 'sheet', like });
  const ready = () => versionNow(place) === before;
  if (await writeAtomically(place, octets, { like, ready })) return { saved: true, version };
  return otherwise(await readPlace(path, place));
}

const otherwise = (found: Found | undefined): SaveAnswer => ({
  saved: false,
  version: found ? versionOf(found.octets) : null,
  text: found ? decode(found.octets) : null,
});

interface Found {
  readonly octets: Uint8Array;
  readonly stats: Stats;
}

/** The file at a place that was found to be inside; undefined when there is none. */
async function readPlace(path: string, place: string): Promise<Found | undefined> {
  try {
    const handle = await open(place, constants.O_RDONLY | (constants.O_NOFOLLOW ?? 0));
    try {
      const stats = await handle.stat();
      if (stats.size > largestText_octets) throw tooLarge(path);
      return { octets: await handle.readFile(), stats };
    } finally {
      await handle.close();
    }
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return undefined;
    throw error;
  }
}

/** The version at this moment, without waiting: what happens between this and a renaming is a matter of microseconds. */
function versionNow(place: string): string | null {
  try {
    return versionOf(readFileSync(place));
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return null;
    throw error;
  }
}

async function mayBeMade(path: string, place: string): Promise<void> {
  try {
    await access(dirname(place), constants.W_OK);
  } catch (error) {
    if (codeOf(error) !== 'ENOENT') throw error;
    throw new Refusal(404, `There is no folder for ${path}.`, 'Make the folder first, or give another name.');
  }
}

/** Renaming over a file asks only whether the folder may be written; the file has a say as well. */
async function mayBeReplaced(path: string, place: string, stats: Stats): Promise<void> {
  if ((stats.mode & 0o222) === 0)
    throw new Refusal(403, `${path} is read-only.`, 'Allow writing in its permissions, or save under another name.');
  await access(place, constants.W_OK);
}

async function inPlainWords<T>(path: string, act: () => Promise<T>): Promise<T> {
  try {
    return await act();
  } catch (error) {
    throw asRefusal(path, error);
  }
}

const tooLarge = (path: string): Refusal =>
  new Refusal(413, `${path} is larger than 2 MB.`, 'Share values with like and set, or split the file.');

/** As the command decodes: octets that are no UTF-8 become the replacement character, which the reader reports. */
const decode = (octets: Uint8Array): string => new TextDecoder().decode(octets);
