// Writes a file whole or not at all: a second file beside it is written, brought to the disk and renamed over it.
import { randomBytes } from 'node:crypto';
import { renameSync, type Stats } from 'node:fs';
import { type FileHandle, open, readdir, rm } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { codeOf } from './refusal.ts';

export interface AtomicWriteOptions {
  /** Permissions and owner are taken from there; otherwise they are what a new file gets. */
  readonly like?: Stats | undefined;
  /** Asked at the last moment; when it says no, nothing happens. It must not wait, so that little can change after it. */
  readonly ready?: () => boolean;
}

/** Says whether it was written. Rejects with an error of the file system, the file being as it was before. */
export async function writeAtomically(
  place: string,
  octets: Uint8Array,
  options: AtomicWriteOptions = {},
): Promise<boolean> {
  const { like, ready = () => true } = options;
  const folder = dirname(place);
  const temporary = join(folder, `.layshaft-${process.pid}-${randomBytes(6).toString('hex')}.tmp`);
  let renamed = false;
  try {
    // Nobody else may read it until it has the permissions of the old file.
    const handle = await open(temporary, 'wx', like ? 0o600 : 0o666);
    try {
      await handle.writeFile(octets);
      if (like) await liken(handle, like);
      await handle.sync();
    } finally {
      await handle.close();
    }
    if (ready()) {
      renameSync(temporary, place);
      renamed = true;
    }
  } finally {
    if (!renamed) await rm(temporary, { force: true });
  }
  if (renamed) await syncFolder(folder);
  return renamed;
}

/** Makes sure that the names in a folder have reached the disk. Windows has no way to ask for it and needs none. */
export async function syncFolder(folder: string): Promise<void> {
  if (process.platform === 'win32') return;
  const handle = await open(folder);
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}

/** Removes what runs that were killed in the middle of a write have left in a folder. */
export async function removeLeftovers(folder: string): Promise<void> {
  for (const name of await readdir(folder)) {
    const pid = /^\.layshaft-(\d+)-[0-9a-f]{12}\.tmp$/.exec(name)?.[1];
    if (pid !== undefined && !isRunning(Number(pid))) await rm(join(folder, name), { force: true });
  }
}

/** Only the owner may give a file away, and only root to somebody else: then it stays with whoever writes. */
async function liken(handle: FileHandle, like: Stats): Promise<void> {
  const own = await handle.stat();
  if (own.uid !== like.uid || own.gid !== like.gid) {
    try {
      await handle.chown(like.uid, like.gid);
    } catch (error) {
      if (codeOf(error) !== 'EPERM') throw error;
    }
  }
  await handle.chmod(like.mode & 0o7777);
}

/** Whether another process of this number runs; this one has nothing under way when it asks. */
function isRunning(pid: number): boolean {
  if (pid === process.pid) return false;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return codeOf(error) === 'EPERM';
  }
}
