// Catalogues: parts by name, read from texts of the same kind as a machine file.

import { inOrder, type Problem } from '../problems/problem.ts';
import type { Field } from '../reading/field.ts';
import { group } from '../reading/groups.ts';
import { parseText } from '../reading/parse.ts';
import { type Part, readPart } from '../reading/parts.ts';
import { Reading } from '../reading/reading.ts';
import { text, version } from '../reading/values.ts';
import { Missing } from '../working/missing.ts';
import { partKinds } from './format.ts';
import { sectionsOf } from './machine.ts';

export interface Catalogue {
  readonly name: string;
  /** The kind of each part, by its name. */
  readonly kinds: ReadonlyMap<string, string>;
  /** The parts of these names, as far as there are any. */
  readonly take: (names: readonly string[]) => readonly Part[];
  /** All of them, by name. */
  readonly parts: ReadonlyMap<string, Part>;
  readonly problems: readonly Problem[];
}

/** One text of a catalogue: `{ layshaft_catalogue: 1, source, parts }`. */
export interface CatalogueText {
  readonly file: string;
  readonly text: string;
}

/** The version of the catalogue file that this program reads. */
export const catalogueVersion = '1';

const keys = ['layshaft_catalogue', 'source', 'parts'] as const;

/** Reads the texts of one catalogue. Never throws. */
export function readCatalogue(name: string, texts: readonly CatalogueText[]): Catalogue {
  const parts = new Map<string, Part>();
  const problems: Problem[] = [];
  for (const each of texts) {
    const reading = new Reading('catalogue');
    const sections = sectionsOf(parseText(each.file, each.text), keys, reading);
    version(catalogueVersion).read(sections.get('layshaft_catalogue'), 'layshaft_catalogue', reading);
    const source = text({ about: 'Who states the figures.', example: 'data sheets of 2026' }).read(
      sections.get('source'),
      'source',
      reading,
    );
    const stated = { name, source: source instanceof Missing ? `catalogue ${name}` : source };
    for (const { part, name: partName } of group(partField(stated), { about: 'Parts, by name.' }).read(
      sections.get('parts'),
      'parts',
      reading,
    )) {
      if (part !== undefined) parts.set(partName, part);
    }
    problems.push(...reading.problems);
  }
  return catalogueOf(name, parts, inOrder(problems));
}

export const catalogueOf = (
  name: string,
  parts: ReadonlyMap<string, Part>,
  problems: readonly Problem[],
): Catalogue => ({
  name,
  kinds: new Map([...parts].map(([each, { kind }]) => [each, kind])),
  take: (names) => names.flatMap((each) => parts.get(each) ?? []),
  parts,
  problems,
});

const partField = (catalogue: {
  readonly name: string;
  readonly source: string;
}): Field<{ readonly part: Part | undefined }> => ({
  read: (at, path, reading) => ({
    part: at && readPart(at, path.slice(path.indexOf('.') + 1), catalogue, partKinds, reading),
  }),
  schema: () => ({ type: 'object' }),
});
