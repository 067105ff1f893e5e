// Reads the text that the user names: a file, a folder that holds machine.yaml, or standard input.
import { dirname, join } from 'node:path';
import { type Io, UserError } from './io.ts';

/** The file that stands for a folder. */
const usualName = 'machine.yaml';

/** Throws a UserError when there is nothing to read. */
export async function readText(named: string, io: Io): Promise<{ readonly file: string; readonly text: string }> {
  if (named === '-') return { file: 'standard input', text: decode(await io.readStdin()) };
  try {
    return { file: named, text: decode(await io.readFile(named)) };
  } catch (error) {
    if (codeOf(error) !== 'EISDIR') throw unreadable(named, error);
  }
  const file = join(named, usualName);
  try {
    return { file, text: decode(await io.readFile(file)) };
  } catch (error) {
    if (codeOf(error) !== 'ENOENT') throw unreadable(file, error);
    throw new UserError(`${named} is a folder without a ${usualName}. Name a file in it.`);
  }
}

/** Octets that are no UTF-8 become the replacement character, which the reader reports with its place. */
export const decode = (octets: Uint8Array): string => new TextDecoder().decode(octets);

/** The code of an error of the file system, such as ENOENT. */
export const codeOf = (error: unknown): string | undefined => (error as { code?: string }).code;

/** What a failed writing means to the user; an error that is none of the file system stays as it is. */
export function unwritable(file: string, error: unknown): unknown {
  const code = codeOf(error);
  if (code === 'ENOENT')
    return new UserError(`There is no folder ${dirname(file)}. Make it first, or give another name.`);
  return code === undefined ? error : new UserError(`${file} cannot be written (${code}). Give another name.`);
}

/** What a failed reading means to the user; an error that is none of the file system stays as it is. */
export function unreadable(file: string, error: unknown): unknown {
  const code = codeOf(error);
  if (code === undefined) return error;
  if (code === 'ENOENT')
    return new UserError(`There is no file ${file}. Look at its spelling, and at the folder you are in.`);
  if (code === 'EACCES') return new UserError(`${file} may not be read by you. Change its permissions, or copy it.`);
  return new UserError(`${file} cannot be read (${code}). Name a file with text.`);
}
