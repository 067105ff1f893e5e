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
  readonly parts: ReadonlyMap<string, Part>;
  readonly problems: readonly Problem[];
}

/** The version of the catalogue file that this program reads. */
export const catalogueVersion = '1';

const keys = ['layshaft_catalogue', 'source', 'parts'] as const;

/** Reads the texts of one catalogue: each `{ layshaft_catalogue: 1, source, parts }`. Never throws. */
export function readCatalogue(
  name: string,
  texts: readonly { readonly file: string; readonly text: string }[],
): Catalogue {
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
  return { name, parts, problems: inOrder(problems) };
}

const partField = (catalogue: {
  readonly name: string;
  readonly source: string;
}): Field<{ readonly part: Part | undefined }> => ({
  read: (at, path, reading) => ({
    part: at && readPart(at, path.slice(path.indexOf('.') + 1), catalogue, partKinds, reading),
  }),
  schema: () => ({ type: 'object' }),
});
