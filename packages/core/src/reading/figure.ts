// A figure is a quantity that a catalogue states with its limits and that a user may replace by a measurement.
import type { Unit } from '../units/si.ts';
import { usual } from '../units/usual-units.ts';
import { Missing } from '../working/missing.ts';
import type { Origin } from '../working/origin.ts';
import { leaf, type Quantity } from '../working/quantity.ts';
import type { Field } from './field.ts';
import type { JsonSchema } from './json-schema.ts';
import { type Cursor, type Reading, spoilt } from './reading.ts';
import { entryOf } from './tree.ts';
import { count, plainText, type QuantityField, quantity, type Value } from './values.ts';
import { child, expectMap, knownKeys } from './walk.ts';

/**
 * In a catalogue `{ typical, at_most }` or `{ typical, at_least }`, with condition and source; in a machine file a
 * plain value or `{ measured, date, count }`. Checks use the stated limit or the measurement, never the typical value.
 */
export function figure<const U extends Unit>(unit: U, spec: QuantityField): Field<Value<Quantity<U>>> {
  const inner = quantity(unit, spec);
  const due = usual[unit].measures;
  const example = spec.example ?? usual[unit].example;
  return {
    read: (at, path, reading) => {
      if (at === undefined || at.node.kind === 'leaf') return inner.read(at, path, reading);
      const stated = reading.dialect === 'catalogue';
      if (!expectMap(at, reading, due)) return spoilt(path, due, example);
      const known = stated ? statedKeys : measuredKeys;
      knownKeys(at, known, reading);
      const key = !stated ? 'measured' : entryOf(at.node, 'at_least') === undefined ? 'at_most' : 'at_least';
      const value = inner.read(demand(at, key, example, known, reading), `${path}.${key}`, reading);
      const more = stated ? statement(at, inner, reading) : measurement(at, reading);
      if (value instanceof Missing || more instanceof Missing) {
        // A wrong date is told as a date; what is not written at all is the figure that lacks.
        const written = [value, more]
          .filter((each) => each instanceof Missing)
          .find(({ lacks }) => lacks[0]?.why !== 'absent');
        return written ?? spoilt(path, due, example);
      }
      return leaf(value.value, unit, { ...(value.by as Origin), path, ...more });
    },
    schema: () => ({ anyOf: [inner.schema(), measuredSchema(inner.schema())] }),
  };
}

const statedKeys = ['typical', 'at_most', 'at_least', 'condition', 'source'] as const;
const measuredKeys = ['measured', 'date', 'count'] as const;

/** The entry of a key that cannot be left out. */
function demand(
  at: Cursor,
  key: string,
  example: string,
  known: readonly string[],
  reading: Reading,
): Cursor | undefined {
  const found = child(at, key, reading);
  // A key that is misspelt is not missing as well.
  const misspelt = at.node.kind === 'map' && at.node.entries.some((entry) => !known.includes(entry.key));
  if (found === undefined && !misspelt) {
    reading.problem(at, 'key', {
      code: 'key-missing',
      message: `'${key}' is missing here`,
      remedy: `Add ${key}: ${example}.`,
    });
  }
  return found;
}

function statement(at: Cursor, inner: Field<Value<Quantity>>, reading: Reading): Partial<Origin> {
  const typical = inner.read(child(at, 'typical', reading), `${at.path}.typical`, reading);
  return {
    ...(typical instanceof Missing ? {} : { typical: (typical.by as Origin).written }),
    ...textOf(at, 'condition', reading),
    ...textOf(at, 'source', reading),
  };
}

function textOf(at: Cursor, key: string, reading: Reading): Partial<Record<string, string>> {
  const found = child(at, key, reading);
  const text = found && plainText(found, found.path, reading, 'a text', 'at 40 °C');
  return typeof text === 'string' ? { [key]: text } : {};
}

const dateDue = 'a date';
const dateExample = '2026-11-03';

function measurement(at: Cursor, reading: Reading): Partial<Origin> | Missing {
  const dateAt = demand(at, 'date', dateExample, measuredKeys, reading);
  const countAt = demand(at, 'count', '10000', measuredKeys, reading);
  const datePath = `${at.path}.date`;
  const date = plainText(dateAt, datePath, reading, dateDue, dateExample);
  const observed = count({ about: 'How many observations the measurement rests on.', example: '10000', least: 1 }).read(
    countAt,
    `${at.path}.count`,
    reading,
  );
  if (date instanceof Missing) return date;
  const trouble = dateTrouble(date);
  if (trouble !== undefined) {
    reading.problem(dateAt!, 'value', {
      code: 'word-unknown',
      message: `'${date}' ${trouble}`,
      remedy: `Write year-month-day, such as ${dateExample}.`,
    });
    return spoilt(datePath, dateDue, dateExample);
  }
  if (observed instanceof Missing) return observed;
  return { kind: 'measured', measured: { date, count: (observed.by as Origin).written } };
}

/** What is wrong with a date, or nothing. */
function dateTrouble(date: string): string | undefined {
  const [, year = 0, month = 0, day = 0] = /^(\d{4})-(\d\d)-(\d\d)$/.exec(date)?.map(Number) ?? [];
  if (year === 0) return 'cannot be read as a date';
  if (month < 1 || month > 12) return `is no date: there is no month ${month}`;
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const days = month === 2 ? (leap ? 29 : 28) : [4, 6, 9, 11].includes(month) ? 30 : 31;
  return day >= 1 && day <= days ? undefined : `is no date: that month has ${days} days`;
}

const measuredSchema = (value: JsonSchema): JsonSchema => ({
  type: 'object',
  description: 'A measurement: the largest value that was seen, when, and over how many observations.',
  properties: {
    measured: value,
    date: { type: 'string', description: 'Year-month-day.', examples: [dateExample] },
    count: { anyOf: [{ type: 'string' }, { type: 'integer' }] },
  },
  required: ['measured', 'date', 'count'],
  additionalProperties: false,
});
