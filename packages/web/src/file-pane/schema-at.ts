// What a JSON Schema says may stand at a path of the file: which keys, which words, whether the name of a part.
import type { machineSchema } from '@layshaft/core';

export type JsonSchema = NonNullable<ReturnType<typeof machineSchema>['properties']>[string];
export type Path = readonly (string | number)[];

export interface KeyOffer {
  readonly key: string;
  readonly about: string;
  /** Whether only a map or a list can stand behind it. */
  readonly opens: boolean;
}

export interface ValueOffer {
  readonly text: string;
  readonly about: string;
}

/** Everything that may stand at the path, one schema for each alternative; none when nothing may. */
export const schemasAt = (schema: JsonSchema, path: Path): readonly JsonSchema[] =>
  path.reduce<readonly JsonSchema[]>(
    (at, step) => at.flatMap((each) => alternatives(inside(each, step), schema)),
    alternatives(schema, schema),
  );

/** The keys that the schema itself names for a map at the path. Names that the user chooses are not among them. */
export function keysAt(schema: JsonSchema, path: Path): readonly KeyOffer[] {
  const entries = schemasAt(schema, path).flatMap((each) => Object.entries(each.properties ?? {}));
  const offers = entries.map(([key, inner]) => {
    const all = alternatives(inner, schema);
    const about = all.find(({ description }) => description !== undefined)?.description ?? '';
    return { key, about, opens: all.length > 0 && all.every(({ type }) => type === 'object') };
  });
  return [...new Map(offers.map((offer) => [offer.key, offer])).values()];
}

/** The words that the schema lists for a value at the path, then its examples. */
export function valuesAt(schema: JsonSchema, path: Path): readonly ValueOffer[] {
  const at = schemasAt(schema, path);
  const said = (each: JsonSchema) => [...(each.enum ?? []), ...(each.const === undefined ? [] : [each.const])];
  const offers = [said, (each: JsonSchema) => each.examples ?? []].flatMap((texts) =>
    at.flatMap((each) => texts(each).map((text) => ({ text: String(text), about: each.description ?? '' }))),
  );
  return [...new Map(offers.map((offer) => [offer.text, offer])).values()];
}

/**
 * The word that the schema has for what stands at a path: its key, or the title of its place in a row. Nothing where
 * the user chose the name.
 */
export function fieldAt(schema: JsonSchema, path: Path): string | undefined {
  const last = path.at(-1);
  if (typeof last === 'number') return schemasAt(schema, path).find(({ title }) => title !== undefined)?.title;
  const parents = schemasAt(schema, path.slice(0, -1));
  return parents.some(({ properties }) => last !== undefined && Object.hasOwn(properties ?? {}, last))
    ? last
    : undefined;
}

/** Whether a part is used at the path, by its name alone or as the `part` of a map. */
export const takesPart = (schema: JsonSchema, path: Path): boolean =>
  schemasAt(schema, path).some(({ properties }) => properties?.part !== undefined);

function inside(schema: JsonSchema, step: string | number): JsonSchema | undefined {
  if (typeof step === 'number') return schema.prefixItems?.[step] ?? (schema.items || undefined);
  if (Object.hasOwn(schema.properties ?? {}, step)) return schema.properties?.[step];
  const named = Object.entries(schema.patternProperties ?? {}).find(([pattern]) => new RegExp(pattern, 'u').test(step));
  if (named !== undefined) return named[1];
  return typeof schema.additionalProperties === 'object' ? schema.additionalProperties : undefined;
}

/** A schema without `anyOf` and `$ref`: each alternative, with what is said of all where it says nothing itself. */
function alternatives(schema: JsonSchema | undefined, root: JsonSchema): readonly JsonSchema[] {
  if (schema === undefined) return [];
  const { anyOf, $ref, ...own } = schema;
  if ($ref !== undefined) return alternatives(root.$defs?.[$ref.replace('#/$defs/', '')], root);
  return anyOf === undefined ? [own] : anyOf.flatMap((each) => alternatives({ ...own, ...each }, root));
}
