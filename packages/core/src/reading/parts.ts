// Parts: the kinds a catalogue can hold, how a file uses one, and how a use is filled from the part it names.
import type { Unit } from '../units/si.ts';
import { isAbsent, Missing } from '../working/missing.ts';
import type { Origin } from '../working/origin.ts';
import { leaf, Quantity } from '../working/quantity.ts';
import type { About, Field, Read } from './field.ts';
import { list, section } from './groups.ts';
import { type Cursor, Reading } from './reading.ts';
import { type Named, name, quantity, text, type Value, word } from './values.ts';
import { child, expectMap, knownKeys } from './walk.ts';

type Fields = Readonly<Record<string, Field<unknown>>>;
type Values<F extends Fields> = { readonly [K in keyof F]: Read<F[K]> };

const partVersion = text({ about: 'Its version, numbers with points between them.', example: '2.1' });

/** What every part states, whatever its kind. */
const common = {
  title: text({ about: 'What it is, in a few words.', example: 'Servo drive, 10 A' }),
  cost: quantity('cost', {
    about: 'What it costs, in any currency as long as it is the same for all parts.',
    least: 0,
  }),
  source: text({ about: 'Who states the figures.', example: 'data sheet of 2026-05' }),
  condition: text({ about: 'Under which condition the figures hold.', example: '0 to 50 °C' }),
  version: partVersion,
  requires: list(
    section(
      {
        part: name({ about: 'The part that must be there.', due: 'a part', example: 'controller_m' }),
        version: partVersion,
      },
      { about: 'One part that must be used beside this one, and its least version.' },
    ),
    { about: 'What this part needs beside it.' },
  ),
};

export interface PartKind<F extends Fields = Fields> extends About {
  readonly kind: string;
  readonly fields: F;
}

export const partKind = <const F extends Fields>(kind: string, fields: F, spec: About): PartKind<F> => ({
  kind,
  fields,
  ...spec,
});

/** Another part that a part needs beside it, of at least a version where one is stated. */
export interface Requirement {
  readonly part: string;
  readonly version: string | undefined;
}

/** A part as a catalogue states it. */
export interface Part {
  readonly name: string;
  readonly kind: string;
  readonly path: string;
  /** The link that the part makes in the chain of a value: `part drive_10`. */
  readonly via: readonly string[];
  readonly catalogue: string;
  readonly title: Value<string>;
  readonly cost: Value<Quantity<'cost'>>;
  readonly source: string;
  readonly condition: string | undefined;
  readonly version: Value<string>;
  readonly requires: readonly Requirement[];
  readonly values: Readonly<Record<string, unknown>>;
}

export const commonFields: Fields = { ...common };

/** How a file uses a part: the name of one, and the values that stand beside it; they go before the part's own. */
export type PartUse<F extends Fields> = Partial<Values<F>> & {
  readonly path: string;
  readonly via: readonly string[];
  readonly part: Value<Named>;
  /** The version in use, where the file states one; the part's own otherwise. */
  readonly version: Value<string> | undefined;
  readonly kinds: readonly string[];
  /** Whether nothing at all stands here. */
  readonly absent: boolean;
};

/** Finds the part that a use names; gives nothing, and reports why, when there is none that fits. */
export type PartLookUp = (use: Pick<PartUse<Fields>, 'part' | 'kinds' | 'version' | 'path'>) => Part | undefined;

/** `drive: drive_10`, or `drive: { part: drive_10, turnaround: 2 µs }`; several kinds where any of them may stand. */
export function partUse<const F extends Fields>(
  kinds: readonly PartKind[],
  fields: F,
  spec: About & { readonly example: string },
): Field<PartUse<F>> {
  const due = `a part of kind ${kinds.map((each) => each.kind).join(' or ')}`;
  const part = name({ about: spec.about, due, example: spec.example });
  const own = { part, version: partVersion, ...fields };
  const full = section(own, spec);
  const names = kinds.map((each) => each.kind);
  const keys = Object.keys(own);
  const field: Field<PartUse<F>> = {
    read: (at, path, reading) => {
      const use: Record<string, unknown> = {
        path,
        via: at?.via ?? [],
        kinds: names,
        absent: at === undefined,
        part: undefined,
      };
      if (at === undefined || at.node.kind !== 'map') {
        use.part = part.read(at, path, reading);
        if (at !== undefined) reading.readBy(path, field as Field<unknown>);
        return use as unknown as PartUse<F>;
      }
      knownKeys(at, keys, reading);
      for (const { key } of at.node.entries) {
        const inner = Object.hasOwn(own, key) ? (own as Fields)[key] : undefined;
        if (inner !== undefined) use[key] = inner.read(child(at, key, reading), `${path}.${key}`, reading);
      }
      use.part ??= part.read(undefined, `${path}.part`, reading);
      return use as unknown as PartUse<F>;
    },
    schema: () => ({ anyOf: [part.schema(), full.schema()] }),
  };
  return field;
}

/** The values of a use: its own, else those of the part, each with the part in its origin; else what is missing. */
export function fill<F extends Fields>(use: PartUse<F>, part: Part | undefined, fields: F): Values<F> {
  return filled(use, part?.values, use.path, use, part, fields) as Values<F>;
}

function filled(
  own: object,
  stated: object | undefined,
  path: string,
  use: PartUse<Fields>,
  part: Part | undefined,
  fields: Fields,
): object {
  const result: Record<string, unknown> = {};
  for (const key in fields) {
    const value = (own as Record<string, unknown>)[key];
    const figure = (stated as Record<string, unknown> | undefined)?.[key];
    const inner = (fields[key] as { readonly inside?: Fields }).inside;
    result[key] =
      inner !== undefined
        ? filled(
            isSection(value) ? value : {},
            isSection(figure) ? figure : undefined,
            `${path}.${key}`,
            use,
            part,
            inner,
          )
        : value === undefined || isAbsent(value)
          ? (fromPart(use, part, figure, path, key) ?? value ?? fields[key]!.read(undefined, `${path}.${key}`, nothing))
          : value;
  }
  return result;
}

/** For reading what is absent: that reports nothing. */
const nothing = new Reading('machine');

const isSection = (value: unknown): value is object =>
  typeof value === 'object' &&
  value !== null &&
  !Array.isArray(value) &&
  !(value instanceof Quantity) &&
  !(value instanceof Missing) &&
  'path' in value &&
  !('at' in value);

/** The name of the part in use, for people; missing when none is named. */
export const partName = (use: Pick<PartUse<Fields>, 'part'>): Value<string> =>
  use.part instanceof Missing ? use.part : use.part.name;

/** What the part gives, or what lacks because of it; nothing when neither. */
function fromPart(use: PartUse<Fields>, part: Part | undefined, figure: unknown, path: string, key: string): unknown {
  // Naming a part settles an absent value, unless some values are given and this one was forgotten.
  if (part === undefined)
    return use.part instanceof Missing && (use.absent || !isAbsent(use.part)) ? use.part : undefined;
  if (figure instanceof Missing || figure === undefined) return undefined;
  return isSection(figure) ? figure : rebased(figure, `${path}.${key}`, use, part);
}

/** Sections in a list have figures too; all else that is no single figure stays as it is. */
function rebased(figure: unknown, path: string, use: PartUse<Fields>, part: Part): unknown {
  if (figure instanceof Quantity) return rebase(figure, path, use.via, part);
  if (Array.isArray(figure) && figure.every(isSection))
    return figure.map((each, at) => rebased(each, `${path}.${at}`, use, part));
  if (!isSection(figure)) return figure;
  return Object.fromEntries(
    Object.entries(figure).map(([key, value]) => [
      key,
      key === 'path' ? path : rebased(value, `${path}.${key}`, use, part),
    ]),
  );
}

/** A part's figure as the value of the use: same number, the path of the use, the part in its chain. */
export function rebase<U extends Unit>(
  figure: Quantity<U>,
  path: string,
  via: readonly string[],
  part: Part,
): Quantity<U> {
  const {
    path: writtenAt,
    written,
    writtenUnit,
    source = part.source,
    condition = part.condition,
    typical,
  } = figure.by as Origin;
  const chain = via.length === 0 ? part.via : [...via, ...part.via];
  return leaf(figure.value, figure.unit, {
    kind: 'catalogue',
    path,
    via: chain,
    writtenAt,
    written,
    writtenUnit,
    source,
    condition,
    typical,
  });
}

/** Reads one part of a catalogue. `kinds` are all kinds that this version knows. */
export function readPart(
  at: Cursor,
  partName: string,
  catalogue: { readonly name: string; readonly source: string },
  kinds: readonly PartKind[],
  reading: Reading,
): Part | undefined {
  if (!expectMap(at, reading, 'kind, title, cost and the figures of its kind')) return undefined;
  const kindField = word(
    kinds.map((each) => each.kind),
    { about: 'The kind of the part.' },
  );
  const kindAt = child(at, 'kind', reading);
  const kind = kindField.read(kindAt, `${at.path}.kind`, reading);
  if (kind instanceof Missing) {
    if (kindAt === undefined)
      reading.problem(at, 'key', {
        code: 'key-missing',
        message: `'kind' is missing here`,
        remedy: `Add kind: ${kinds[0]?.kind}.`,
      });
    return undefined;
  }
  const fields = kinds.find((each) => each.kind === kind)!.fields;
  const read = section({ kind: kindField, ...commonFields, ...fields }, { about: '' }).read(
    at,
    at.path,
    reading,
  ) as Readonly<Record<string, unknown>>;
  const plain = (value: unknown): string | undefined => (typeof value === 'string' ? value : undefined);
  return {
    name: partName,
    kind,
    path: at.path,
    via: [`part ${partName}`],
    catalogue: catalogue.name,
    title: read.title as Value<string>,
    cost: read.cost as Value<Quantity<'cost'>>,
    source: plain(read.source) ?? catalogue.source,
    condition: plain(read.condition),
    version: read.version as Value<string>,
    requires: requirementsOf(read.requires as Read<typeof common.requires>),
    values: read,
  };
}

const requirementsOf = (requires: Read<typeof common.requires>): readonly Requirement[] =>
  requires instanceof Missing
    ? []
    : requires.flatMap(({ part, version }) =>
        part instanceof Missing ? [] : [{ part: part.name, version: version instanceof Missing ? undefined : version }],
      );
