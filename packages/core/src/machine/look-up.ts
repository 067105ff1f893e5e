// Finds parts in catalogues: the one that a use names, and all of a kind. A later catalogue goes before an earlier one.
import { listed } from '../problems/wording.ts';
import type { Part, PartLookUp } from '../reading/parts.ts';
import type { Reading } from '../reading/reading.ts';
import { nearest } from '../units/nearest.ts';
import { Missing } from '../working/missing.ts';
import type { Catalogue } from './catalogue.ts';

/** Reports names that no catalogue has, and parts of another kind than is due. */
export function lookUpIn(catalogues: readonly Catalogue[], reading: Reading): PartLookUp {
  return (use) => {
    if (use.part instanceof Missing) return undefined;
    const { name, at } = use.part;
    const part = catalogues.findLast(({ kinds }) => kinds.has(name))?.take([name])[0];
    if (part !== undefined && use.kinds.includes(part.kind)) return part;
    const due = use.kinds.join(' or ');
    const fitting = namesOf(catalogues, use.kinds);
    const kinds = `Parts of kind ${due}: ${nearestOf(fitting, name)}.`;
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

/** Every part of a kind. */
export function partsOfKind(catalogues: readonly Catalogue[], kind: string): readonly Part[] {
  const names = namesOf(catalogues, [kind]);
  return [...new Map(catalogues.flatMap(({ take }) => take(names).map((part) => [part.name, part]))).values()];
}

const namesOf = (catalogues: readonly Catalogue[], kinds: readonly string[]): readonly string[] =>
  [...new Map(catalogues.flatMap((each) => [...each.kinds]))].flatMap(([name, kind]) =>
    kinds.includes(kind) ? [name] : [],
  );

/** More names than this are not read in a sentence (our judgement: about a line). */
const longestList = 8;

/** All names; or of many those nearest to what was written, how many more there are, and what lists them. */
function nearestOf(names: readonly string[], written: string): string {
  // A list that is one name too long is no shorter with 'and 1 more'.
  if (names.length <= longestList + 1) return listed(names);
  const left = new Set(names);
  const first = Array.from({ length: longestList }, () => {
    const [earliest = ''] = left;
    const next = nearest(written, left) ?? earliest;
    left.delete(next);
    return next;
  });
  return `${first.join(', ')} and ${left.size} more; layshaft parts lists all`;
}
