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
  readPointsTable,
  resolve,
  tablesNamed,
  withTables,
} from '@layshaft/core';
import type { Io } from './io.ts';
import { codeOf, decode, readText } from './read-file.ts';

/** A design with the catalogues that filled it. */
export interface OpenedDesign extends Design {
  readonly catalogues: readonly Catalogue[];
}

/** Throws a UserError when there is no machine file to read; all else that is wrong is a problem of the design. */
export async function openDesign(named: string, io: Io): Promise<OpenedDesign> {
  const machine = await openMachine(named, io);
  const catalogues = await readNamed(machine, folderOf(named, machine), io);
  return { ...resolve(machine, catalogues), catalogues };
}

/** A machine file with the tables that it names. Throws a UserError when there is none. */
export async function openMachine(named: string, io: Io): Promise<Machine> {
  const { file, text } = await readText(named, io);
  const machine = read(text, { file });
  const tables = await each(tablesNamed(machine), folderOf(named, machine), io, (_, from, table) =>
    readPointsTable(from, table),
  );
  return tables.size === 0 ? machine : withTables(machine, tables);
}

/** What a machine file names lies beside it. */
const folderOf = (named: string, { file }: Machine): string => (named === '-' ? '.' : dirname(file));

/** In the order of the file; the demonstration parts when it names none. */
async function readNamed(machine: Machine, folder: string, io: Io): Promise<readonly Catalogue[]> {
  const had = await each(cataloguesNamed(machine, demonstrationName), folder, io, (name, file, text) =>
    readCatalogue(name, [{ file, text }]),
  );
  return cataloguesOf(machine, demonstration(), had);
}

/** What becomes of the files of these names. One that cannot be read is left out, and told at the place where it is named. */
async function each<T>(
  names: readonly string[],
  folder: string,
  io: Io,
  made: (name: string, file: string, text: string) => T,
): Promise<ReadonlyMap<string, T>> {
  const had = new Map<string, T>();
  for (const name of names) {
    const file = isAbsolute(name) ? name : join(folder, name);
    try {
      had.set(name, made(name, file, decode(await io.readFile(file))));
    } catch (error) {
      if (codeOf(error) === undefined) throw error;
    }
  }
  return had;
}
