// Keeps every text that a save has replaced or written, in the hidden folder .layshaft/history of the served folder:
// `log.jsonl` has a line for each save, `texts` has each text once, in a file that is named after its SHA-256.
import { createHash } from 'node:crypto';
import type { Stats } from 'node:fs';
import { mkdir, readdir, readFile, rm, stat, utimes, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { removeLeftovers, syncFolder, writeAtomically } from './atomic-write.ts';
import { appendLine, type LogLine, linesOf, linesWithin, printLine } from './history-log.ts';
import { placeWithoutLinks } from './inside-folder.ts';
import { type HistoryLimits, historyLimits } from './limits.ts';
import { codeOf } from './refusal.ts';

/** One text that a file has had, as the sheet asks for it. */
export interface Save extends Pick<LogLine, 'at' | 'bytes' | 'by'> {
  readonly id: string;
}

export interface KeptText {
  readonly octets: Uint8Array;
  readonly at: Date;
  readonly by: LogLine['by'];
  /** The file that has the text: who may read it may read what is kept of it. */
  readonly like?: Stats | undefined;
}

/** The SHA-256 of the octets, hexadecimal. */
export const versionOf = (octets: Uint8Array): string => createHash('sha256').update(octets).digest('hex');

/** A text that no line names may still be that of a save under way in another server (our judgement). */
const orphanStays_ms = 3_600_000;
const home = ['.layshaft', 'history'];

interface Known {
  /** Of each path the newest version. */
  readonly newest: Map<string, string>;
  /** Of each text, by its version, the octets. */
  readonly texts: Map<string, number>;
  /** Octets of the log. */
  log: number;
}

/**
 * The history of the folder `root`, which must be a real path. Nothing is created before the first text is kept.
 * All calls throw a Refusal when a symbolic link stands where the history belongs.
 */
export class History {
  readonly #root: string;
  readonly #limits: HistoryLimits;
  /** What is kept; known from the first `keep` on. */
  #known: Known | undefined;

  constructor(root: string, limits: HistoryLimits = historyLimits) {
    this.#root = root;
    this.#limits = limits;
  }

  /**
   * Keeps a text of the file `path`, unless it is the newest that is known; it is on the disk when this resolves.
   * Calls must not overlap.
   */
  async keep(path: string, text: KeptText): Promise<void> {
    const folder = await this.#made();
    this.#known ??= await this.#tidied(folder);
    const version = versionOf(text.octets);
    if (this.#known.newest.get(path) === version) return;
    await keepText(join(folder, 'texts', version), text);
    const line = { path, at: text.at.toISOString(), version, bytes: text.octets.length, by: text.by };
    this.#known.log += await appendLine(await this.#place('log.jsonl'), line);
    this.#known.newest.set(path, version);
    this.#known.texts.set(version, line.bytes);
    const octets = [...this.#known.texts.values()].reduce((sum, each) => sum + each, this.#known.log);
    if (octets > this.#limits.octets) this.#known = await this.#tidied(folder);
  }

  /** All texts that the file has had, newest first. */
  async saves(path: string): Promise<Save[]> {
    const lines = (await this.#lines()).filter((line) => line.path === path).reverse();
    return lines.map((line) => ({ id: idOf(line), at: line.at, bytes: line.bytes, by: line.by }));
  }

  /** The text of one save; undefined when there is none, or when it is no longer what was kept. */
  async text(path: string, id: string): Promise<Uint8Array | undefined> {
    const line = (await this.#lines()).find((line) => line.path === path && idOf(line) === id);
    if (line === undefined) return undefined;
    const octets = await unlessAbsent(readFile(await this.#place('texts', line.version)));
    return octets && versionOf(octets) === line.version ? octets : undefined;
  }

  #place(...names: readonly string[]): Promise<string> {
    return placeWithoutLinks(this.#root, [...home, ...names]);
  }

  async #lines(): Promise<LogLine[]> {
    return linesOf((await unlessAbsent(readFile(await this.#place('log.jsonl'), 'utf8'))) ?? '');
  }

  /** The folder, made when it is not there. It is nothing that a version control should take in. */
  async #made(): Promise<string> {
    const texts = await this.#place('texts');
    if ((await mkdir(texts, { recursive: true })) !== undefined) {
      await writeFile(join(this.#root, '.layshaft', '.gitignore'), '*\n', { flag: 'wx' }).catch(unlessThere);
      for (const names of [[], home.slice(0, 1), home]) await syncFolder(join(this.#root, ...names));
    }
    return join(this.#root, ...home);
  }

  /** Drops what lies over the limit, and what killed runs left; gives what is there then. */
  async #tidied(folder: string): Promise<Known> {
    for (const each of [folder, join(folder, 'texts')]) await removeLeftovers(each);
    const all = await this.#lines();
    const kept = linesWithin(all, this.#limits);
    const log = kept.map(printLine).join('');
    if (kept.length < all.length) await writeAtomically(await this.#place('log.jsonl'), Buffer.from(log));
    const texts = new Map(kept.map((line) => [line.version, line.bytes]));
    const dropped = new Set(all.map((line) => line.version));
    for (const name of await readdir(join(folder, 'texts'))) {
      const place = join(folder, 'texts', name);
      if (!texts.has(name) && (dropped.has(name) || (await isOld(place)))) await rm(place, { force: true });
    }
    return { newest: new Map(kept.map((line) => [line.path, line.version])), texts, log: Buffer.byteLength(log) };
  }
}

/** Tells the saves of a file apart, but for the same text in the same millisecond, which is the same save. */
const idOf = (line: LogLine): string => `${Date.parse(line.at)}-${line.version.slice(0, 16)}`;

/** A text that is there already becomes young again, so that no other server takes it for an orphan. */
async function keepText(place: string, { octets, like }: KeptText): Promise<void> {
  const there = await unlessAbsent(stat(place));
  if (there?.size === octets.length) await utimes(place, new Date(), new Date());
  else await writeAtomically(place, octets, { like });
}

const isOld = async (place: string): Promise<boolean> =>
  ((await unlessAbsent(stat(place)))?.mtimeMs ?? 0) < Date.now() - orphanStays_ms;

async function unlessAbsent<T>(reading: Promise<T>): Promise<T | undefined> {
  try {
    return await reading;
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return undefined;
    throw error;
  }
}

function unlessThere(error: unknown): void {
  if (codeOf(error) !== 'EEXIST') throw error;
}
