// Paths that stay inside one folder: how they may be written, and that no symbolic link stands on the way.
import type { Stats } from 'node:fs';
import { lstat } from 'node:fs/promises';
import { join } from 'node:path';
import { codeOf, Refusal } from './refusal.ts';

/** Folders in which nobody keeps machine files; hidden ones are the business of other programs. */
export const isPassedOver = (folder: string): boolean =>
  folder.startsWith('.') || folder === 'node_modules' || folder === 'expected' || !isPlain(folder);

/** Whether a file of this name is listed, read and written. */
export const isMachineFile = (name: string): boolean => /^[^.].*\.ya?ml$/i.test(name) && isPlain(name);

/** Whether a file of this name is a table that a machine file may name: it is only read. */
export const isTable = (name: string): boolean => /^[^.].*\.[ct]sv$/i.test(name) && isPlain(name);

/**
 * The place on disk of a path with forward slashes below `root`, which must be a real path. What is there is a plain
 * file or nothing at that moment; whoever can write to the folder by other means can change that a moment later.
 * Throws a Refusal for every path that is not, or might not be, inside, and for other files than `allows` says.
 */
export async function placeInside(
  root: string,
  path: string,
  { allows = isMachineFile }: { readonly allows?: (name: string) => boolean } = {},
): Promise<string> {
  const names = path.split('/');
  if (/^\/|^[a-z]:/i.test(path) || names.includes('..'))
    throw new Refusal(403, 'The path leads out of the folder.', 'Give a path below the folder that is open.');
  if (names.some((name) => !isPlain(name)))
    throw new Refusal(400, 'The path is not one that every computer can have.', pathRules);
  if (!allows(names.at(-1) ?? ''))
    throw new Refusal(
      403,
      `${path} is no machine file.`,
      'Its name must end in .yaml or .yml, and not begin with a dot.',
    );
  if (names.slice(0, -1).some(isPassedOver))
    throw new Refusal(403, `${path} is in a folder that is passed over.`, passedOverRules);
  return placeWithoutLinks(root, names);
}

/** Joins the names to `root`; throws a Refusal when a symbolic link, or anything but folders, stands on the way. */
export async function placeWithoutLinks(root: string, names: readonly string[]): Promise<string> {
  let place = root;
  for (const [index, name] of names.entries()) {
    place = join(place, name);
    const found = await whatIsAt(place);
    const path = names.slice(0, index + 1).join('/');
    if (found?.isSymbolicLink())
      throw new Refusal(403, `${path} is a symbolic link.`, 'Open the folder to which it leads instead.');
    if (found && !found.isDirectory() && !(found.isFile() && index === names.length - 1))
      throw new Refusal(403, `${path} is neither a plain file nor a folder.`, 'Name a plain file.');
  }
  return place;
}

const pathRules =
  'Use names between single forward slashes, without control characters, backslash or colon, without a dot or a ' +
  'blank at their end, and none that Windows keeps for devices, such as con, nul or com1.';
const passedOverRules = 'Move the file: hidden folders, node_modules and expected are passed over.';

/** The names that Windows keeps for devices, whatever extension follows (from memory of its naming rules). */
const deviceName = /^(con|prn|aux|nul|conin\$|conout\$|(com|lpt)[\d¹²³]) *(\.|$)/i;
const isPlain = (name: string): boolean =>
  /^[^\p{Cc}\p{Surrogate}\\/:]*[^\p{Cc}\p{Surrogate}\\/:. ]$/u.test(name) && !deviceName.test(name);

async function whatIsAt(place: string): Promise<Stats | undefined> {
  try {
    return await lstat(place);
  } catch (error) {
    if (codeOf(error) === 'ENOENT' || codeOf(error) === 'ENOTDIR') return undefined;
    throw error;
  }
}
