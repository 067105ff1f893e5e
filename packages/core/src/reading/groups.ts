// Fields for what has parts: a section of known keys, a group of named entries, a list, a row of fixed places.
import { type Missing, missing } from '../working/missing.ts';
import type { About, Field, Read } from './field.ts';
import type { JsonSchema } from './json-schema.ts';
import { spoilt } from './reading.ts';
import { entriesOf } from './share.ts';
import { type Node, nameForm, namePattern, nounOf } from './tree.ts';
import { child, enter, expectMap, item, knownKeys } from './walk.ts';

type Fields = Readonly<Record<string, Field<unknown>>>;
type Section<F extends Fields> = { readonly [K in keyof F]: Read<F[K]> } & { readonly path: string };

/** A map of known keys. Absent, it reads as a section of which every value is absent. */
export function section<const F extends Fields>(fields: F, spec: About): Field<Section<F>> & { readonly inside: F } {
  const keys = Object.keys(fields);
  return {
    inside: fields,
    read: (at, path, reading) => {
      const open = at !== undefined && expectMap(at, reading, keys.join(', ')) ? at : undefined;
      if (open !== undefined) knownKeys(open, keys, reading);
      const read: Record<string, unknown> = { path };
      for (const key of keys) {
        read[key] = fields[key]!.read(open && child(open, key, reading), `${path}.${key}`, reading);
      }
      return read as Section<F>;
    },
    schema: () => ({
      type: 'object',
      description: spec.about,
      properties: Object.fromEntries(keys.map((key) => [key, fields[key]!.schema()])),
      additionalProperties: false,
    }),
  };
}

/** What may be left out as a whole. */
export const optional = <T>(field: Field<T>): Field<T | undefined> => ({
  read: (at, path, reading) => (at === undefined ? undefined : field.read(at, path, reading)),
  schema: field.schema,
});

/** Entries under names that the user chooses. `reserved` names cannot be chosen, with the reason. */
export function group<T extends object>(
  field: Field<T>,
  spec: About & { readonly reserved?: Readonly<Record<string, string>> },
): Field<readonly (T & { readonly name: string })[]> {
  const reservedFor = (name: string): string | undefined =>
    Object.hasOwn(spec.reserved ?? {}, name) ? spec.reserved?.[name] : undefined;
  return {
    read: (at, _path, reading) => {
      if (at === undefined || !expectMap(at, reading, 'a name for each entry') || at.node.kind !== 'map') return [];
      const entries = entriesOf(at, reading);
      return entries.flatMap((entry) => {
        const cursor = enter(at, entry, reading);
        if (entry.value.set === true) {
          reading.problem(cursor, 'key', {
            code: 'name-unknown',
            message: `nothing here is called '${entry.key}'`,
            remedy: `Set it for one of ${entries
              .filter((each) => each.value.set !== true)
              .map((each) => each.key)
              .join(', ')}.`,
          });
          return [];
        }
        const reason = nameForm.test(entry.key)
          ? reservedFor(entry.key)
          : 'a name is small letters, digits and _, and starts with a letter';
        if (reason !== undefined) {
          reading.problem(cursor, 'key', {
            code: 'name-form',
            message: `'${entry.key}' cannot be a name here: ${reason}`,
            remedy: `Write a name such as ${suggestName(entry.key)}.`,
          });
          return [];
        }
        return [{ ...field.read(cursor, cursor.path, reading), name: entry.key }];
      });
    },
    schema: () => ({
      type: 'object',
      description: spec.about,
      patternProperties: { [namePattern]: withLike(field.schema()), [rangePattern]: withLike(field.schema()) },
      additionalProperties: false,
    }),
  };
}

const rangePattern = '^[a-z][a-z0-9_]*\\[[0-9]+\\.\\.[0-9]+\\][a-z0-9_]*$';

/** Every entry of a group may be like a sibling. */
function withLike(schema: JsonSchema): JsonSchema {
  const like: JsonSchema = {
    type: 'string',
    description: 'The sibling whose values this entry takes where it gives none.',
  };
  if (schema.anyOf) return { ...schema, anyOf: schema.anyOf.map(withLike) };
  return schema.type === 'object' ? { ...schema, properties: { like, ...schema.properties } } : schema;
}

const suggestName = (key: string): string => {
  const form = key
    .toLowerCase()
    .replace(/[^a-z0-9_]+/g, '_')
    .replace(/^[^a-z]+/, '');
  return nameForm.test(form) && form !== key ? form : `${form || 'station'}_1`;
};

/** Items one after another; `nameOf` gives the name of an item in its path, from its node. */
export function list<T>(
  field: Field<T>,
  spec: About & { readonly nameOf?: (node: Node) => string | undefined },
): Field<readonly T[] | Missing> {
  const due = 'a list';
  return {
    read: (at, path, reading) => {
      if (at === undefined) return missing(path, 'absent', due, '[ … ]');
      if (at.node.kind !== 'list') {
        if (at.node.kind === 'leaf' && (at.node.text === 'open' || at.node.text === 'unknown'))
          return missing(path, at.node.text, due, '[ … ]');
        reading.problem(at, 'value', {
          code: 'list-expected',
          message: `a list is due here; ${nounOf(at.node)} stands here`,
          remedy: "Write '- item' lines, indented, or [ item, item ].",
        });
        return spoilt(path, due, '[ … ]');
      }
      return at.node.items.map((node, index) => {
        const cursor = item(at, spec.nameOf?.(node) ?? String(index), node, reading);
        return field.read(cursor, cursor.path, reading);
      });
    },
    schema: () => ({
      description: spec.about,
      anyOf: [{ type: 'array', items: field.schema() }, { enum: ['open', 'unknown'] }],
    }),
  };
}

/** A short list in which each place has its own meaning: `[hub, infeed, 1.5 m, solid]`. */
export function row<const F extends Fields>(
  fields: F,
  spec: About & { readonly example: string },
): Field<Section<F> | Missing> {
  const keys = Object.keys(fields);
  return {
    read: (at, path, reading) => {
      if (at?.node.kind !== 'list' || at.node.items.length !== keys.length) {
        if (at !== undefined) {
          const found =
            at.node.kind === 'list' ? `the list here has ${at.node.items.length}` : `${nounOf(at.node)} stands here`;
          reading.problem(at, 'value', {
            code: 'list-expected',
            message: `a list of ${keys.length} is due here (${keys.join(', ')}); ${found}`,
            remedy: `Write ${spec.example}.`,
          });
        }
        return spoilt(path, spec.about, spec.example);
      }
      const items = at.node.items;
      const read: Record<string, unknown> = { path };
      keys.forEach((key, index) => {
        read[key] = fields[key]!.read(item(at, key, items[index]!, reading), `${path}.${key}`, reading);
      });
      return read as Section<F>;
    },
    schema: (): JsonSchema => ({
      type: 'array',
      description: spec.about,
      prefixItems: keys.map((key) => ({ title: key, ...fields[key]!.schema() })),
      minItems: keys.length,
      items: false,
      examples: [spec.example],
    }),
  };
}
