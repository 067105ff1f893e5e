// A map that is one of several kinds: the key that stands in it says which, and what is common stands beside it.
import { listed } from '../problems/wording.ts';
import { type Missing, missing } from '../working/missing.ts';
import type { About, Field, Read } from './field.ts';
import { spoilt } from './reading.ts';
import { child, enter, expectMap, knownKeys } from './walk.ts';

type Fields = Readonly<Record<string, Field<unknown>>>;

/** What is common is read as in a section; of the kinds, the one that stands there, and `kind` names it. */
export type Chosen<C extends Fields, K extends Fields> = { readonly path: string } & {
  readonly [N in keyof C]: Read<C[N]>;
} & { readonly [N in keyof K]: Read<K[N]> | undefined } & {
  /** Missing where nothing stands there, where none of the kinds does, or where several do. */
  readonly kind: (keyof K & string) | Missing;
};

/** `due` says what the kinds are kinds of: 'a motion'. */
export function choice<const C extends Fields, const K extends Fields>(
  common: C,
  kinds: K,
  spec: About & {
    readonly due: string;
    readonly example: string;
    /** A common key that may stand in place of a kind: what it names says the kind. */
    readonly elsewhere?: keyof C & string;
  },
): Field<Chosen<C, K>> {
  const names = Object.keys(kinds);
  const known = [...Object.keys(common), ...names];
  return {
    read: (at, path, reading) => {
      const open = at !== undefined && at.node.kind === 'map' ? at : undefined;
      const read: Record<string, unknown> = { path, kind: missing(path, 'absent', spec.due, spec.example) };
      for (const key of Object.keys(common)) {
        read[key] = common[key]!.read(open && child(open, key, reading), `${path}.${key}`, reading);
      }
      const word = at?.node.kind === 'leaf' ? at.node.text : '';
      if (word === 'open' || word === 'unknown') read.kind = missing(path, word, spec.due, spec.example);
      else if (at !== undefined && !expectMap(at, reading, known.join(', ')))
        read.kind = spoilt(path, spec.due, spec.example);
      if (open?.node.kind !== 'map') return read as Chosen<C, K>;
      knownKeys(open, known, reading);
      const chosen = open.node.entries.filter(({ key }) => names.includes(key));
      const [first] = chosen;
      const misspelt = open.node.entries.some(({ key }) => !known.includes(key));
      if (first !== undefined && chosen.length === 1) {
        const inner = enter(open, first, reading);
        read.kind = first.key;
        read[first.key] = kinds[first.key]!.read(inner, inner.path, reading);
      } else if (first !== undefined || !open.node.entries.some(({ key }) => key === spec.elsewhere)) {
        read.kind = spoilt(path, spec.due, spec.example);
        const said = first === undefined ? 'none stands here' : `here stand ${listed(chosen.map(({ key }) => key))}`;
        if (!misspelt)
          reading.problem(chosen[1] === undefined ? open : enter(open, chosen[1], reading), 'key', {
            code: 'kind-not-one',
            message: `${spec.due} is due here, told by one key; ${said}`,
            remedy: `Write one of ${listed(names)}, such as ${spec.example}.`,
          });
      }
      return read as Chosen<C, K>;
    },
    schema: () => ({
      description: spec.about,
      anyOf: [
        {
          type: 'object',
          properties: Object.fromEntries(known.map((key) => [key, (common[key] ?? kinds[key])!.schema()])),
          additionalProperties: false,
        },
        { enum: ['open', 'unknown'] },
      ],
    }),
  };
}
