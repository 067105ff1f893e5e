// Tells when a machine file of a folder changes on disk, by whatever hand: the system's notices hasten a slow, sure look.
import { type FSWatcher, watch } from 'node:fs';
import { lstat, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { versionOf } from './history.ts';
import { largestText_octets } from './limits.ts';
import { codeOf } from './refusal.ts';
import { type FoundFile, found, walkFolder } from './walk-folder.ts';

export interface Change {
  readonly path: string;
  /** Null when the file is gone. */
  readonly version: string | null;
}

export interface WatchOptions {
  readonly onChange: (change: Change) => void;
  /** An error that is none of the folder's ordinary coming and going. The watch goes on. */
  readonly onError: (error: unknown) => void;
  /** Between two looks without a notice (our judgement: a person looks again sooner than that). */
  readonly look_ms?: number;
  /** From a notice to the look, so that a save in several steps is seen once (our judgement). */
  readonly settle_ms?: number;
}

/** A look never takes more than this share of one core (our judgement). */
const share = 0.05;

/** Watches the machine files of the folder `root` from `start` to `close`. */
export class Watch {
  readonly #root: string;
  readonly #options: Required<WatchOptions>;
  readonly #known = new Map<string, { readonly mark: string; readonly version: string }>();
  /** Files that are looked at beside the machine files. */
  readonly #more = new Set<string>();
  readonly #watchers = new Map<string, FSWatcher>();
  #timer: NodeJS.Timeout | undefined;
  #looking: Promise<void> | undefined;
  #noticed = false;
  #closed = false;

  constructor(root: string, options: WatchOptions) {
    this.#root = root;
    this.#options = { look_ms: 2000, settle_ms: 80, ...options };
  }

  /** Resolves when everything has been looked at once; all that is there is told as a change. */
  start(): Promise<void> {
    return this.#look();
  }

  /** All files with their versions, as last seen. */
  current(): Change[] {
    return [...this.#known].map(([path, { version }]) => ({ path, version }));
  }

  /** Looks at this file as well from now on, whether it is there or not. */
  lookAt(path: string): void {
    this.#more.add(path);
  }

  async close(): Promise<void> {
    this.#closed = true;
    clearTimeout(this.#timer);
    for (const watcher of this.#watchers.values()) watcher.close();
    await this.#looking;
  }

  #look(): Promise<void> {
    clearTimeout(this.#timer);
    this.#noticed = false;
    const began_ms = performance.now();
    this.#looking = this.#compare()
      .catch((error: unknown) => this.#options.onError(error))
      .then(() => {
        this.#looking = undefined;
        const rest_ms = (performance.now() - began_ms) / share;
        this.#next(this.#noticed ? this.#options.settle_ms : Math.max(this.#options.look_ms, rest_ms));
      });
    return this.#looking;
  }

  #next(wait_ms: number): void {
    if (this.#closed) return;
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.#look(), wait_ms);
    this.#timer.unref();
  }

  #notice = (): void => {
    if (!this.#noticed && this.#looking === undefined) this.#next(this.#options.settle_ms);
    this.#noticed = true;
  };

  async #compare(): Promise<void> {
    const { files: machines, folders } = await walkFolder(this.#root);
    this.#follow(folders);
    const files = [...machines, ...(await Promise.all([...this.#more].map((path) => found(this.#root, path)))).flat()];
    for (const file of files) await this.#compareFile(file);
    const there = new Set(files.map(({ path }) => path));
    for (const path of this.#known.keys()) {
      // What only a limit or an unreadable folder hides is not gone.
      if (there.has(path) || !(await isGone(join(this.#root, path)))) continue;
      this.#known.delete(path);
      this.#tell({ path, version: null });
    }
  }

  async #compareFile({ path, stats }: FoundFile): Promise<void> {
    const mark = [stats.ino, stats.size, stats.mtimeNs, stats.ctimeNs].join(' ');
    const known = this.#known.get(path);
    if (known?.mark === mark || stats.size > largestText_octets) return;
    const version = await versionAt(join(this.#root, path));
    if (version === undefined) return;
    this.#known.set(path, { mark, version });
    if (version !== known?.version) this.#tell({ path, version });
  }

  #tell(change: Change): void {
    if (!this.#closed) this.#options.onChange(change);
  }

  /** Asks the system for notices from these folders. Where it gives none, the look alone finds the change. */
  #follow(folders: readonly string[]): void {
    for (const [folder, watcher] of this.#watchers) {
      if (folders.includes(folder)) continue;
      watcher.close();
      this.#watchers.delete(folder);
    }
    for (const folder of folders) {
      if (this.#closed || this.#watchers.has(folder)) continue;
      try {
        const watcher = watch(folder, { persistent: false }, this.#notice);
        watcher.on('error', () => {
          watcher.close();
          this.#watchers.delete(folder);
        });
        this.#watchers.set(folder, watcher);
      } catch (error) {
        if (codeOf(error) === undefined) throw error;
      }
    }
  }
}

/** Nothing when it may not be read or has vanished: then there is no version to tell. */
async function versionAt(place: string): Promise<string | undefined> {
  try {
    return versionOf(await readFile(place));
  } catch (error) {
    if (codeOf(error) === undefined) throw error;
    return undefined;
  }
}

async function isGone(place: string): Promise<boolean> {
  try {
    return !(await lstat(place)).isFile();
  } catch (error) {
    if (codeOf(error) === undefined) throw error;
    return codeOf(error) === 'ENOENT' || codeOf(error) === 'ENOTDIR';
  }
}
