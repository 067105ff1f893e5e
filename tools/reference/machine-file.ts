// The reference page of the machine file: every key, from the fields that read it.

import { format } from '../../packages/core/src/machine/format.ts';
import { topologies } from '../../packages/core/src/networks/parts.ts';
import type { JsonSchema } from '../../packages/core/src/reading/json-schema.ts';
import { capital, shareDue } from '../../packages/core/src/reading/values.ts';
import { usual } from '../../packages/core/src/units/usual-units.ts';
import { page, table } from './markdown.ts';

/** A whole file with what takes getting used to; the documents' test checks it. */
export const exampleFile = `layshaft: 1
machine: { name: Feeder with a lift }
catalogue: [demonstration]
reserves: { networks.cycle: 25 % }
axes:
  infeed:  { drive: drive_5 }
  outfeed: { like: infeed }
  lift:    { drive: { part: drive_10, every: 2 cycles } }
controller: controller_m
networks:
  drives:
    port: 1
    profile: polled_100
    cycle: open
    runs: # from, to, length, cable
      - [controller, infeed, 2 m, solid]
      - [infeed, outfeed, 5 m, solid]
      - [outfeed, lift, 3 m, flexible]
      - [lift, rack_1, 3 m, solid]
      - [rack_1, rack_2, 1 m, solid]
    nodes:
      rack_[1..2]: { part: rack_small, every: 4 cycles }
set:
  - { path: axes.*feed.cycle_at_most, value: 1 ms }
planned:
  networks.drives.cycle: 500 µs
`;

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
      '- What is *or a spread* is the standard deviation of a normal distribution as it stands, or one of `{ normal: 15 µm }`, `{ rectangular: 15 µm }`, `{ triangular: 15 µm }` and `{ arcsine: 15 µm }` (half of their width), or `{ sample: [12 µm, 14 µm, 9 µm], of: one }` (measured values; `of: mean` where their mean is used). Beside these may stand `sensitivity` (how much the result moves for each of it), `compensated` (the share that is taken out elsewhere), `offset` (what it is off by on average) and `degrees` (degrees of freedom of a standard deviation that rests on few measurements).',
      '- What is *or measured* may be written `{ measured: 2.4 µs, date: 2026-11-03, count: 10000 }`: the largest value that was seen, when (year-month-day), and over how many observations.',
    ].join('\n'),
    `A whole file, and what takes getting used to in it:\n\n\`\`\`yaml\n${exampleFile}\`\`\``,
    [
      '- `runs` has a row of four for each cable: the station where it starts, seen from the controller, the one where it ends, its length, its kind. Stations are `controller`, axes and `nodes`.',
      `- The runs alone make the topology, one of ${topologies.join(', ')}: a ring comes back to the controller, a line never branches, in a star every station hangs on one hub or switch, all else is a tree. \`topologies\` of the profile lists those that it allows.`,
      '- `cycle` is one time such as `500 µs`, or `open`; it is no list: what can be chosen from are the `cycles` of the controller. While it is open, `layshaft check` says what a cycle needs and the shortest that will do.',
      '- `every: 2 cycles` serves a station in every second cycle of its network; without it, in each.',
      '- A name with a range, such as `rack_[1..2]`, stands for one entry for each number.',
      '- `set` gives one value to many: each line has a `path`, in which `*` stands for any letters of one name, and a `value`. What an entry gives itself goes before; a later line goes before an earlier one.',
      '- `catalogue` lists where parts are looked up: `demonstration`, and files of your own beside the machine file, such as `our_parts.yaml`. A later one goes before an earlier one; without the section, it is the demonstration alone.',
      '- `planned` holds by path what was chosen for values that are `open`. It stands in for them; remove a line to choose again.',
    ].join('\n'),
    ...sections,
  );
}

type Row = readonly [path: string, kind: string, units: string, about: string, example: string];

const quoted = ([path, ...rest]: Row): readonly string[] => [`\`${path}\``, ...rest];

function rowsOf(schema: JsonSchema, path: string): readonly Row[] {
  const [first, second] = schema.anyOf ?? [];
  if (first?.type === 'array') return rowsOf({ ...first, ...schema, anyOf: [] }, path);
  if (first !== undefined && second?.properties?.part !== undefined) return rowsOfPart(first, second, path);
  if (second?.anyOf?.[0]?.properties?.rectangular !== undefined)
    return [quantityRow(first ?? schema, path, ' or a spread')];
  if (first?.properties !== undefined && second?.enum !== undefined)
    return [[path, 'keys', '', schema.description ?? first.description ?? '', ''], ...rowsOfKeys(first, path)];
  if (first?.patternProperties !== undefined) return rowsOf(first, path);
  // One share for all kinds, or one for each.
  if (second?.properties?.share_of !== undefined) return [...rowsOf(first!, path), ...rowsOfKeys(second, path)];
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
  const measured = sentences.at(-1) === `${capital(shareDue)}.` ? usual['1'] : measuredBy(sentences.at(-1));
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

const measuredBy = (sentence: string | undefined) =>
  Object.values(usual).find(({ measures }) => `${capital(measures)}.` === sentence);

function kindOf({ type, enum: words, items, prefixItems, patternProperties, properties, pattern }: JsonSchema): string {
  if (words !== undefined) return `one of ${words.filter((each) => each !== 'open' && each !== 'unknown').join(', ')}`;
  if (prefixItems !== undefined) return `a row of ${prefixItems.length}`;
  if (items !== undefined) return 'a list';
  if (patternProperties !== undefined) return 'entries by name';
  if (properties !== undefined) return 'keys';
  if (pattern?.includes('repeat')) return 'a number of repeats';
  if (pattern?.includes('cycle')) return 'a number of cycles';
  return type === 'string' || Array.isArray(type) ? 'a text' : '';
}

const examplesOf = ({ examples = [] }: JsonSchema): string => examples.map((example) => `\`${example}\``).join(', ');
