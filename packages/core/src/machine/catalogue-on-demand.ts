// A catalogue of which a part is read when it is asked for; the names and kinds of all are found without parsing a text.
import type { Part } from '../reading/parts.ts';
import { type Catalogue, type CatalogueText, readCatalogue } from './catalogue.ts';
import { partKinds } from './format.ts';

/**
 * The catalogue that `readCatalogue` gives for texts in which it finds no problem. Whoever hands in the texts answers for
 * that: problems that are in them all the same are not told.
 */
export function catalogueOnDemand(name: string, texts: readonly CatalogueText[]): Catalogue {
  const entries = indexOf(texts);
  if (entries === undefined) return readCatalogue(name, texts);
  const known = new Map<string, Part>();
  const take = (names: readonly string[]): readonly Part[] => {
    const unknown = names.filter((each) => entries.has(each) && !known.has(each));
    if (unknown.length > 0) {
      // What was given once stays the same object, although it is read again below another that is like it.
      for (const [each, part] of readCatalogue(name, excerpts(unknown, entries)).parts)
        if (!known.has(each)) known.set(each, part);
    }
    return names.flatMap((each) => known.get(each) ?? []);
  };
  return {
    name,
    kinds: new Map([...entries].map(([each, { kind }]) => [each, kind])),
    take,
    get parts() {
      return new Map(take([...entries.keys()]).map((part) => [part.name, part]));
    },
    problems: [],
  };
}

/** The texts with no other parts than these, and those that they are like. */
function excerpts(names: readonly string[], entries: ReadonlyMap<string, Entry>): readonly CatalogueText[] {
  const due = new Set<Entry>();
  for (const each of names) for (let entry = entries.get(each); entry !== undefined; entry = entry.base) due.add(entry);
  const left = [...entries.values()].filter((entry) => due.has(entry));
  return [...new Set(left.map(({ of }) => of))].map((of) => ({
    file: of.file,
    text: headOf(of) + left.flatMap((entry) => (entry.of === of ? entry.text : [])).join(''),
  }));
}

/** A part as it stands in its text. */
export interface Entry {
  readonly of: CatalogueText;
  readonly text: string;
  readonly kind: string;
  /** The one that it is like. */
  readonly base: Entry | undefined;
}

/**
 * The parts of texts, by name. Nothing, so that all is to be read, where a text is laid out in another way than this: the
 * parts stand two spaces in, each with a name of its own, and each begins with its kind, or with a part before it that it
 * is like and whose kind it has.
 */
export function indexOf(texts: readonly CatalogueText[]): ReadonlyMap<string, Entry> | undefined {
  const entries = new Map<string, Entry>();
  for (const of of texts) {
    const head = headOf(of);
    const body = of.text.slice(head.length);
    if (head === '' || unusual.test(body)) return undefined;
    for (const text of body.split(beforeEntry)) {
      const [, name, key, word] = entryForm.exec(text) ?? [];
      if (name === undefined || entries.has(name) || text.match(/\b(?:kind|like)\b/g)?.length !== 1) return undefined;
      const base = key === 'like' ? entries.get(word!) : undefined;
      const kind = key === 'like' ? base?.kind : partKinds.find((each) => each.kind === word)?.kind;
      if (kind === undefined) return undefined;
      entries.set(name, { of, text, kind, base });
    }
  }
  return entries;
}

/** All that stands before the first part. */
const headOf = ({ text }: CatalogueText): string =>
  /^(?:(?:#[^\n]*|[a-z_]+: [^\n]*)?\n)*parts:\n(?: *(?:#[^\n]*)?\n)*/.exec(text)?.[0] ?? '';

/** What ends the section, and what would make a word or a line something else than it looks like. */
const unusual = /^ ?[^ #\n]|[\\\r\u2028\u2029]/m;

const beforeEntry = /^(?= {2}[^ #\n])/m;

const entryForm = /^ {2}([a-z][a-z0-9_]*):(?: \{|\n {3}) *(kind|like): ([a-z][a-z0-9_]*)/;
