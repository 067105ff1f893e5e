// From what the user names to a design: the machine file, and the catalogues that it names.
import { dirname, isAbsolute, join } from 'node:path';
import { demonstration, demonstrationName } from '@layshaft/catalogue';
import { type Catalogue, type Design, type Machine, read, readCatalogue, resolve } from '@layshaft/core';
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
  const catalogues = await cataloguesOf(machine, folder, io);
  return { ...resolve(machine, catalogues), catalogues };
}

type Listed = Extract<Machine['catalogue'], readonly unknown[]>[number];
type Named = Extract<Listed, { readonly name: string }>;

/** In the order of the file; the demonstration parts when it names none. */
async function cataloguesOf({ catalogue, reading }: Machine, folder: string, io: Io): Promise<readonly Catalogue[]> {
  if (!('length' in catalogue)) return [demonstration()];
  const named = catalogue.filter((each): each is Named => 'name' in each);
  return Promise.all(
    named.map(async ({ name, at }) => {
      if (name === demonstrationName) return demonstration();
      const file = isAbsolute(name) ? name : join(folder, name);
      try {
        return readCatalogue(name, [{ file, text: decode(await io.readFile(file)) }]);
      } catch (error) {
        if (codeOf(error) === undefined) throw error;
        return unreadable(name, { place: reading.place(at), path: at.path });
      }
    }),
  );
}

/** An empty catalogue that carries the problem into the design. */
const unreadable = (
  name: string,
  at: Pick<Catalogue['problems'][number], 'place'> & { readonly path: string },
): Catalogue => ({
  name,
  parts: new Map(),
  problems: [
    {
      code: 'catalogue-unknown',
      message: `no catalogue '${name}' can be read`,
      remedy: `Write ${demonstrationName}, or the name of a catalogue file that lies beside this one, such as our_parts.yaml.`,
      notes: [],
      ...at,
    },
  ],
});
