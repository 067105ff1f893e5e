// The reference page of the machine file: every key, from the fields that read it.

import { format } from '../../packages/core/src/machine/format.ts';
import type { JsonSchema } from '../../packages/core/src/reading/json-schema.ts';
import { capital } from '../../packages/core/src/reading/values.ts';
import { usual } from '../../packages/core/src/units/usual-units.ts';
import { page, table } from './markdown.ts';

export function machineFilePage(): string {
  const sections = Object.entries(format).map(
    ([key, field]) =>
      `## ${key}\n\n${table(['path', 'kind', 'units', 'what it is', 'such as'], rowsOf(field.schema(), key).map(quoted))}`,
  );
  return page(
    'The machine file, key by key',
    [
      '- NAME stands for a name that you choose: small letters, digits and `_`. `[]` stands for each entry of a list.',
      '- Every value may also be `open` (to be chosen) or `unknown` (named as missing).',
      '- In an entry under a NAME, `like: SIBLING` takes the values of another entry of the same section where it gives none.',
      '- What is *a part, or keys* is the name of a catalogue part, or the keys below it; with `part: NAME` among them, they go before what the part states.',
      '- What is *or measured* may be written `{ measured: 2.4 µs, date: 2026-11-03, count: 10000 }`: the largest value that was seen, when, and over how many observations.',
    ].join('\n'),
    ...sections,
  );
}

type Row = readonly [path: string, kind: string, units: string, about: string, example: string];

const quoted = ([path, ...rest]: Row): readonly string[] => [`\`${path}\``, ...rest];

function rowsOf(schema: JsonSchema, path: string): readonly Row[] {
  const [first, second] = schema.anyOf ?? [];
  if (first !== undefined && second?.properties?.part !== undefined) return rowsOfPart(first, second, path);
  if (second?.properties?.measured !== undefined) return [quantityRow(first ?? schema, path, ' or measured')];
  if (first?.type === 'string' && second?.type === 'number') return [quantityRow(schema, path, '')];
  if (first?.const !== undefined) return [[path, 'a version', '', schema.description ?? '', `\`${first.const}\``]];
  const own: Row = [path, kindOf(schema), '', schema.description ?? '', examplesOf(schema)];
  const places = schema.prefixItems?.map((place, index) => rowsOf(place, `${path}.${place.title ?? index}`)) ?? [];
  const item = schema.items ? rowsOf(schema.items, `${path}[]`) : [];
  const named = Object.values(schema.patternProperties ?? {}).slice(0, 1);
  return [
    own,
    ...item,
    ...places.flat(),
    ...named.flatMap((entry) => rowsOf(entry, `${path}.NAME`)),
    ...rowsOfKeys(schema, path),
  ];
}

const rowsOfKeys = ({ properties = {} }: JsonSchema, path: string): readonly Row[] =>
  Object.entries(properties).flatMap(([key, value]) => (key === 'like' ? [] : rowsOf(value, `${path}.${key}`)));

function rowsOfPart(name: JsonSchema, full: JsonSchema, path: string): readonly Row[] {
  const keys = Object.fromEntries(Object.entries(full.properties ?? {}).filter(([key]) => key !== 'part'));
  return [
    [path, 'a part, or keys', '', name.description ?? '', examplesOf(name)],
    ...rowsOfKeys({ properties: keys }, path),
  ];
}

/** The description of a quantity ends with what it measures; its usual units follow from that. */
function quantityRow(schema: JsonSchema, path: string, more: string): Row {
  const sentences = (schema.description ?? '').split(/(?<=\.) /);
  const measured = Object.values(usual).find(({ measures }) => `${capital(measures)}.` === sentences.at(-1));
  const kind = sentences.at(-1)?.replace(/\.$/, '').toLowerCase() ?? '';
  const about = kind.startsWith('or ') ? (schema.description ?? '') : sentences.slice(0, -1).join(' ');
  const units = measured?.spellings.filter((spelling) => spelling !== '').slice(0, 3) ?? [];
  return [
    path,
    `${kind.startsWith('or ') ? 'a value, or a word' : kind}${more}`,
    units.join(', '),
    about,
    examplesOf(schema),
  ];
}

function kindOf({ type, enum: words, items, prefixItems, patternProperties, properties, pattern }: JsonSchema): string {
  if (words !== undefined) return `one of ${words.join(', ')}`;
  if (prefixItems !== undefined) return `a row of ${prefixItems.length}`;
  if (items !== undefined) return 'a list';
  if (patternProperties !== undefined) return 'entries by name';
  if (properties !== undefined) return 'keys';
  if (pattern !== undefined) return 'a number of cycles';
  return type === 'string' || Array.isArray(type) ? 'a text' : '';
}

const examplesOf = ({ examples = [] }: JsonSchema): string => examples.map((example) => `\`${example}\``).join(', ');
