// Finds the part that a use names; reports names that no catalogue has, and parts of another kind than is due.
import { listed } from '../problems/wording.ts';
import type { PartLookUp } from '../reading/parts.ts';
import type { Reading } from '../reading/reading.ts';
import { nearest } from '../units/nearest.ts';
import { Missing } from '../working/missing.ts';
import type { Catalogue } from './catalogue.ts';

/** Looks in the last catalogue first, so that a user's own part replaces one of the same name. */
export function lookUpIn(catalogues: readonly Catalogue[], reading: Reading): PartLookUp {
  const lastFirst = catalogues.toReversed();
  return (use) => {
    if (use.part instanceof Missing) return undefined;
    const { name, at } = use.part;
    const part = lastFirst.find((each) => each.parts.has(name))?.parts.get(name);
    if (part !== undefined && use.kinds.includes(part.kind)) return part;
    const due = use.kinds.join(' or ');
    const fitting = namesOf(catalogues, use.kinds);
    const kinds = `Parts of kind ${due}: ${listed(fitting)}.`;
    if (part !== undefined) {
      const message = `'${name}' is a part of kind ${part.kind}; a ${due} is due here`;
      reading.problem(at, 'value', { code: 'part-kind', message, remedy: kinds });
      return undefined;
    }
    const near = nearest(name, fitting);
    const message = `no catalogue in use has a part called '${name}'`;
    const remedy = near === undefined ? kinds : `Did you mean '${near}'? ${kinds}`;
    reading.problem(at, 'value', { code: 'part-unknown', message, remedy, instead: near });
    return undefined;
  };
}

const namesOf = (catalogues: readonly Catalogue[], kinds: readonly string[]): readonly string[] => [
  ...new Set(
    catalogues.flatMap(({ parts }) =>
      [...parts.values()].filter((part) => kinds.includes(part.kind)).map((part) => part.name),
    ),
  ),
];
