// The catalogues that a machine file names, in its order; one that cannot be had becomes a problem at its place.
import { type Catalogue, catalogueOf } from './catalogue.ts';
import type { Machine } from './machine.ts';

type Listed = Extract<Machine['catalogue'], readonly unknown[]>[number];
type Named = Extract<Listed, { readonly name: string }>;

const listed = ({ catalogue }: Machine): readonly Named[] | undefined =>
  'length' in catalogue ? catalogue.filter((each): each is Named => 'name' in each) : undefined;

/** The names of the catalogues that a machine file lists, without those that the host has built in. */
export const cataloguesNamed = (machine: Machine, builtIn: string): readonly string[] =>
  (listed(machine) ?? []).map(({ name }) => name).filter((name) => name !== builtIn);

/**
 * The catalogues of a machine, the built-in one alone when the file lists none. `had` are those that the host could
 * read, by name.
 */
export function cataloguesOf(
  machine: Machine,
  builtIn: Catalogue,
  had: ReadonlyMap<string, Catalogue>,
): readonly Catalogue[] {
  return (
    listed(machine)?.map(({ name, at }) => {
      if (name === builtIn.name) return builtIn;
      return had.get(name) ?? notHad(name, builtIn.name, machine.reading.place(at), at.path);
    }) ?? [builtIn]
  );
}

/** An empty catalogue that carries the problem into the design. */
const notHad = (
  name: string,
  builtIn: string,
  place: Catalogue['problems'][number]['place'],
  path: string,
): Catalogue =>
  catalogueOf(name, new Map(), [
    {
      code: 'catalogue-unknown',
      message: `no catalogue '${name}' can be read`,
      remedy: `Write ${builtIn}, or the name of a catalogue file that lies beside this one, such as our_parts.yaml.`,
      notes: [],
      place,
      path,
    },
  ]);
