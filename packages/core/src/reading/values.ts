// Fields for single values: a quantity, a share, a count, a word, a name, a text.
import { nearest } from '../units/nearest.ts';
import { printQuantity } from '../units/print-quantity.ts';
import { readQuantity } from '../units/read-quantity.ts';
import type { Unit } from '../units/si.ts';
import { usual } from '../units/usual-units.ts';
import { Missing, missing } from '../working/missing.ts';
import type { Origin, OriginKind } from '../working/origin.ts';
import { leaf, type Quantity } from '../working/quantity.ts';
import type { About, Field } from './field.ts';
import { type Cursor, plannedVia, type Reading, spoilt } from './reading.ts';
import { nounOf } from './tree.ts';

/** A value that may be absent, open, unknown or spoilt by a problem. */
export type Value<T> = T | Missing;

export interface Bounds {
  /** The smallest and largest possible value, in SI. */
  readonly least?: number;
  readonly most?: number;
  /** The value must be larger than this, in SI. */
  readonly above?: number;
}

export interface QuantityField extends About, Bounds {
  /** What the user could write; a usual one of the unit where it is left out. */
  readonly example?: string;
  /** What it is, where that is more than what the unit measures. */
  readonly due?: string;
}

/** A number with its unit. Bounds are for what cannot be, never for what is unwise: that is for the checks. */
export function quantity<const U extends Unit>(unit: U, spec: QuantityField): Field<Value<Quantity<U>>> {
  const { due = usual[unit].measures, example = usual[unit].example } = spec;
  const field: Field<Value<Quantity<U>>> = {
    read: (at, path, reading) => {
      const text = plainText(at, path, reading, due, example);
      if (typeof text !== 'string') return text;
      const cursor = at!;
      reading.readBy(path, field);
      const read = readQuantity(text, unit);
      if (!read.ok) {
        reading.problem(
          cursor,
          { from: read.from, to: read.to },
          { code: read.code, message: read.message, remedy: read.remedy },
        );
        return spoilt(path, due, example);
      }
      const wrong = outside(read.value, spec);
      if (wrong !== undefined) {
        reading.problem(cursor, 'value', {
          code: 'out-of-range',
          message: `${read.written} cannot be: ${keyOf(path)} is ${wrong}`,
          remedy: `Write ${due} such as ${example}.`,
        });
        return spoilt(path, due, example);
      }
      return leaf(read.value, unit, originOf(cursor, reading, read.written, read.unit));
    },
    schema: () => ({
      anyOf: [{ type: 'string' }, { type: 'number' }],
      description: `${spec.about} ${capital(due)}.`,
      examples: [example],
    }),
  };
  return field;
}

/** A quantity in one of two units: which one it is, what is written says. */
export function quantityIn<const U extends Unit>(
  units: readonly [U, U],
  spec: QuantityField & { readonly example: string },
): Field<Value<Quantity<U>>> {
  const due = units.map((unit) => usual[unit].measures).join(' or ');
  const [first, second] = units.map((unit) => quantity(unit, { ...spec, due }));
  const field: Field<Value<Quantity<U>>> = {
    read: (at, path, reading) => {
      const fits = at?.node.kind === 'leaf' && readQuantity(at.node.text, units[1]).ok;
      const read = (fits ? second! : first!).read(at, path, reading);
      reading.readBy(path, field);
      return read;
    },
    schema: () => ({ ...first!.schema(), description: `${spec.about} ${capital(due)}.` }),
  };
  return field;
}

/** A quantity, or one word that stands for what no number says. */
export function quantityOr<const U extends Unit, const W extends string>(
  unit: U,
  either: W,
  spec: QuantityField,
): Field<Value<Quantity<U> | W>> {
  const inner = quantity(unit, spec);
  return {
    read: (at, path, reading) =>
      at?.node.kind === 'leaf' && at.node.text === either ? either : inner.read(at, path, reading),
    schema: () => ({
      ...inner.schema(),
      description: `${spec.about} Or the word ${either}.`,
      examples: [either, ...(inner.schema().examples ?? [])],
    }),
  };
}

/** What a share is, in the words of a message. */
export const shareDue = 'a share';

/** A share of a whole. A bare number up to 1 is the share itself; a larger one lacks its %, and is asked for it. */
export function share(
  spec: About & { readonly example: string; readonly above?: number },
): Field<Value<Quantity<'1'>>> {
  const inner = quantity('1', { least: 0, most: 1, due: shareDue, ...spec });
  const field: Field<Value<Quantity<'1'>>> = {
    read: (at, path, reading) => {
      const bare = at?.node.kind === 'leaf' ? readQuantity(at.node.text, '1') : undefined;
      if (bare?.ok !== true || bare.unit !== '1' || bare.value <= 1) {
        const read = inner.read(at, path, reading);
        reading.readBy(path, field);
        return read;
      }
      const { written, value } = bare;
      const instead = printQuantity(value / 100, '1', { digits: 12 });
      reading.problem(at!, 'value', {
        code: 'out-of-range',
        message: `${written} alone would be ${printQuantity(value, '1', { as: '%', digits: 12 })}; a share is written with %`,
        remedy:
          value > 100
            ? `Write ${shareDue} such as ${spec.example}.`
            : `Write ${written} %, or ${instead}, which is the same.`,
      });
      reading.readBy(path, field);
      return spoilt(path, shareDue, spec.example);
    },
    schema: inner.schema,
  };
  return field;
}

/** A whole number. */
export function count(spec: QuantityField & { readonly example: string }): Field<Value<Quantity<'1'>>> {
  const inner = quantity('1', spec);
  const field: Field<Value<Quantity<'1'>>> = {
    read: (at, path, reading) => {
      const read = inner.read(at, path, reading);
      reading.readBy(path, field);
      if (!('value' in read) || Number.isSafeInteger(read.value)) return read;
      reading.problem(at!, 'value', {
        code: 'out-of-range',
        message: `${(read.by as Origin).written} cannot be: ${keyOf(path)} is a whole number`,
        remedy: `Write a number such as ${spec.example}.`,
      });
      return spoilt(path, 'a whole number', spec.example);
    },
    schema: () => ({ ...inner.schema(), description: `${spec.about} A whole number.` }),
  };
  return field;
}

/** A number of cycles of the network that the thing hangs on: `2 cycles`. */
export const cycles = (spec: About & Bounds & { readonly example: string }): Field<Value<Quantity<'1'>>> =>
  numberOf('cycle', spec);

/** A number of print repeats, or of products one after another: `3 repeats`. */
export const printRepeats = (spec: About & Bounds & { readonly example: string }): Field<Value<Quantity<'1'>>> =>
  numberOf('repeat', spec);

function numberOf(
  what: 'cycle' | 'repeat',
  spec: About & Bounds & { readonly example: string },
): Field<Value<Quantity<'1'>>> {
  const due = `a number of ${what}s`;
  const form = new RegExp(`^(\\d{1,6}) ?${what}s?$`);
  const field: Field<Value<Quantity<'1'>>> = {
    read: (at, path, reading) => {
      const text = plainText(at, path, reading, due, spec.example);
      if (typeof text !== 'string') return text;
      reading.readBy(path, field);
      const found = form.exec(text);
      const wrong = found === null ? undefined : outside(Number(found[1]), spec);
      if (found !== null && wrong === undefined) return leaf(Number(found[1]), '1', originOf(at!, reading, text, '1'));
      const message = wrong === undefined ? `'${text}' is not ${due}` : `${text} cannot be: ${keyOf(path)} is ${wrong}`;
      reading.problem(at!, 'value', {
        code: wrong === undefined ? 'number-expected' : 'out-of-range',
        message,
        remedy: `Write a whole number and the word, such as ${spec.example}.`,
      });
      return spoilt(path, due, spec.example);
    },
    schema: () => ({
      type: 'string',
      pattern: `^[0-9]{1,6} ?${what}s?$|^open$|^unknown$`,
      description: spec.about,
      examples: [spec.example],
    }),
  };
  return field;
}

/** How far something may be off to either side: `0.2 mm`, or `±0.2 mm`, which is the same. */
export function tolerance<const U extends Unit>(unit: U, spec: QuantityField): Field<Value<Quantity<U>>> {
  const inner = quantity(unit, { above: 0, ...spec });
  const field: Field<Value<Quantity<U>>> = {
    read: (at, path, reading) => {
      const sign = at?.node.kind === 'leaf' ? (/^± ?/.exec(at.node.text)?.[0].length ?? 0) : 0;
      const bare =
        at?.node.kind === 'leaf' && sign > 0
          ? { ...at, node: { ...at.node, text: at.node.text.slice(sign), from: at.node.from + sign } }
          : at;
      const read = inner.read(bare, path, reading);
      if (at !== undefined) reading.readBy(path, field as Field<unknown>);
      return read;
    },
    schema: inner.schema,
  };
  return field;
}

/** One of a closed list of words. */
export function word<const W extends string>(words: readonly W[], spec: About): Field<Value<W>> {
  const due = `one of ${words.join(', ')}`;
  return {
    read: (at, path, reading) => {
      const text = plainText(at, path, reading, due, words[0]!);
      if (typeof text !== 'string') return text;
      if ((words as readonly string[]).includes(text)) return text as W;
      const near = nearest(text, words);
      reading.problem(at!, 'value', {
        code: 'word-unknown',
        message: `'${text}' is not ${due}`,
        remedy: near === undefined ? `Write ${due}.` : `Did you mean '${near}'?`,
        instead: near,
      });
      return spoilt(path, due, words[0]!);
    },
    // To an editor, 3 is a number, also where it is one of the words.
    schema: () => {
      const numbers = words.filter((each) => /^\d+$/.test(each)).map(Number);
      const due = [...words, ...numbers, 'open', 'unknown'];
      return { ...(numbers.length === 0 && { type: 'string' }), enum: due, description: spec.about };
    },
  };
}

/** Whatever stands there, to be read where it belongs: the value of a line of `set`, a planned value. */
export const anything = (spec: About): Field<Cursor | undefined> => ({
  read: (at) => at,
  schema: () => ({ description: spec.about }),
});

/** The name of something else; whether it exists is asked where all names are known. */
export function name(spec: About & { readonly due: string; readonly example: string }): Field<Value<Named>> {
  return {
    read: (at, path, reading) => {
      const text = plainText(at, path, reading, spec.due, spec.example);
      return typeof text === 'string' ? { name: text, at: at! } : text;
    },
    schema: () => ({ type: 'string', description: spec.about, examples: [spec.example] }),
  };
}

/** A name in the text, with the cursor at which a problem of it is reported. */
export interface Named {
  readonly name: string;
  readonly at: Cursor;
}

/** The version of the format that a file is written in; any other than `known` is refused. */
export function version(known: string): Field<Value<string>> {
  const due = 'the version of the format';
  return {
    read: (at, path, reading) => {
      const text = plainText(at, path, reading, due, known);
      const why = text instanceof Missing ? text.lacks[0]?.why : undefined;
      if (text === known || why === 'absent' || why === 'problem') return text;
      // A version left open would leave the whole file unread without a word.
      const written = why ?? text;
      reading.problem(at!, 'value', {
        code: 'version-unknown',
        message: `the file is written in version ${written} of the format; this program reads version ${known}`,
        remedy: `Write ${keyOf(path)}: ${known}, or use a program that reads version ${written}.`,
      });
      return spoilt(path, due, known);
    },
    schema: () => ({ anyOf: [{ const: known }, { const: Number(known) }], description: 'The version of this format.' }),
  };
}

/** Free text, for people. */
export function text(spec: About & { readonly example: string }): Field<Value<string>> {
  return {
    read: (at, path, reading) => plainText(at, path, reading, 'a text', spec.example),
    // To an editor, 2.1 is a number, also where it is the text of a version.
    schema: () => ({ type: ['string', 'number'], description: spec.about, examples: [spec.example] }),
  };
}

/** A value as the user wrote it, when it is a single word or number; reports what stands there otherwise. */
export function plainText(
  at: Cursor | undefined,
  path: string,
  reading: Reading,
  due: string,
  example: string,
): string | Missing {
  if (at === undefined) return missing(path, 'absent', due, example);
  if (at.node.kind !== 'leaf' || at.node.text === '') {
    reading.problem(at, at.node.kind === 'leaf' ? 'key' : 'value', {
      code: 'value-expected',
      message: `${keyOf(path)} is ${due}; ${nounOf(at.node)} stands here`,
      remedy: `Write ${keyOf(path)}: ${example}, or open or unknown.`,
    });
    return spoilt(path, due, example);
  }
  if (!at.node.quoted && (at.node.text === 'open' || at.node.text === 'unknown'))
    return missing(path, at.node.text, due, example);
  return at.node.text;
}

/** The last key of a path, for messages. The keys of reserves are names of checks, and have points in them. */
export const keyOf = (path: string): string => path.replace(/^reserves\.|^.*\./, '');

/** The origin of what stands at a cursor. */
export function originOf(at: Cursor, reading: Reading, written: string, writtenUnit: string): Origin {
  const kind: OriginKind =
    reading.dialect === 'catalogue' ? 'catalogue' : at.via.includes(plannedVia) ? 'planned' : 'given';
  return { kind, path: at.path, via: at.via, writtenAt: at.writtenAt, written, writtenUnit };
}

function outside(value: number, { least, most, above }: Bounds): string | undefined {
  if (least !== undefined && value < least) return least === 0 ? 'never negative' : `at least ${least}`;
  if (above !== undefined && value <= above) return above === 0 ? 'larger than nothing' : `more than ${above}`;
  if (most !== undefined && value > most) return most === 1 ? 'at most 100 %' : `at most ${most}`;
  return undefined;
}

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
