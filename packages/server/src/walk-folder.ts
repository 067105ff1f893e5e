// Finds the machine files below a folder, without following symbolic links and without wandering for ever.
import type { BigIntStats, Dirent } from 'node:fs';
import { lstat, readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { isMachineFile, isPassedOver } from './inside-folder.ts';
import { walkLimits } from './limits.ts';
import { codeOf } from './refusal.ts';

export interface FoundFile {
  /** Below the folder, with forward slashes. */
  readonly path: string;
  readonly stats: BigIntStats;
}

export interface Walk {
  readonly files: readonly FoundFile[];
  /** Absolute, the folder itself first. */
  readonly folders: readonly string[];
  /** False when a limit cut it short or a folder could not be read. */
  readonly complete: boolean;
}

/** Walks breadth first, so that what a limit leaves out lies deepest. */
export async function walkFolder(
  root: string,
  limits: Readonly<Record<keyof typeof walkLimits, number>> = walkLimits,
): Promise<Walk> {
  const files: FoundFile[] = [];
  const folders: string[] = [];
  let complete = true;
  const waiting: string[][] = [[]];
  for (let names = waiting.shift(); names !== undefined; names = waiting.shift()) {
    const folder = join(root, ...names);
    const entries = await entriesOf(folder);
    if (entries === undefined) {
      complete = false;
      continue;
    }
    folders.push(folder);
    for (const entry of entries) {
      const inside = [...names, entry.name];
      if (entry.isFile() && isMachineFile(entry.name)) {
        if (files.length >= limits.files) complete = false;
        else files.push(...(await found(root, inside.join('/'))));
      } else if (entry.isDirectory() && !isPassedOver(entry.name)) {
        if (inside.length > limits.depth || folders.length + waiting.length >= limits.folders) complete = false;
        else waiting.push(inside);
      }
    }
  }
  return { files, folders, complete };
}

/** Nothing when the folder has vanished meanwhile or may not be read. */
async function entriesOf(folder: string): Promise<Dirent[] | undefined> {
  try {
    return (await readdir(folder, { withFileTypes: true })).sort((a, b) => (a.name < b.name ? -1 : 1));
  } catch (error) {
    if (codeOf(error) === undefined) throw error;
    return undefined;
  }
}

/** The file at a path, if there is one: it may vanish at any moment. */
export async function found(root: string, path: string): Promise<FoundFile[]> {
  try {
    const stats = await lstat(join(root, path), { bigint: true });
    return stats.isFile() ? [{ path, stats }] : [];
  } catch (error) {
    if (codeOf(error) === 'ENOENT' || codeOf(error) === 'ENOTDIR') return [];
    throw error;
  }
}
