// From what the user names to a design: the machine file, and the catalogues that it names.
import { dirname, isAbsolute, join } from 'node:path';
import { demonstration, demonstrationName } from '@layshaft/catalogue';
import {
  type Catalogue,
  cataloguesNamed,
  cataloguesOf,
  type Design,
  type Machine,
  read,
  readCatalogue,
  resolve,
} from '@layshaft/core';
import type { Io } from './io.ts';
import { codeOf, decode, readText } from './read-file.ts';

/** A design with the catalogues that filled it. */
export interface OpenedDesign extends Design {
  readonly catalogues: readonly Catalogue[];
}

/** Throws a UserError when there is no machine file to read; all else that is wrong is a problem of the design. */
export async function openDesign(named: string, io: Io): Promise<OpenedDesign> {
  const { file, text } = await readText(named, io);
  const machine = read(text, { file });
  const folder = named === '-' ? '.' : dirname(file);
  const catalogues = await readNamed(machine, folder, io);
  return { ...resolve(machine, catalogues), catalogues };
}

/** In the order of the file; the demonstration parts when it names none. */
async function readNamed(machine: Machine, folder: string, io: Io): Promise<readonly Catalogue[]> {
  const had = new Map<string, Catalogue>();
  for (const name of cataloguesNamed(machine, demonstrationName)) {
    const file = isAbsolute(name) ? name : join(folder, name);
    try {
      had.set(name, readCatalogue(name, [{ file, text: decode(await io.readFile(file)) }]));
    } catch (error) {
      // A file that cannot be read is left out, and told at the place where it is named.
      if (codeOf(error) === undefined) throw error;
    }
  }
  return cataloguesOf(machine, demonstration(), had);
}
