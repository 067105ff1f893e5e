// Fields that tasks and chains share: a period told in time or in cycles, a name or a map in its place.
import type { Field } from '../reading/field.ts';
import type { Cursor } from '../reading/reading.ts';
import { count, cycles, type Named, type QuantityField, quantity, quantityIn, type Value } from '../reading/values.ts';
import { readQuantity } from '../units/read-quantity.ts';
import type { Quantity } from '../working/quantity.ts';

const textAt = (at: Cursor | undefined): string => (at?.node.kind === 'leaf' ? at.node.text : '');

/** `10 ms`, or `2 cycles` of a network. */
export function timeOrCycles(about: string): Field<Value<Quantity<'s' | '1'>>> {
  const due = 'a time, or a number of cycles';
  const time = quantity('s', { about, above: 0, due, example: '10 ms' });
  const inCycles = cycles({ about, least: 1, example: '2 cycles' });
  const field: Field<Value<Quantity<'s' | '1'>>> = {
    read: (at, path, reading) => {
      const read = (/cycles?$/.test(textAt(at)) ? inCycles : time).read(at, path, reading);
      reading.readBy(path, field);
      return read;
    },
    schema: () => ({ ...time.schema(), examples: ['10 ms', '2 cycles'] }),
  };
  return field;
}

/** A length, an angle or a time: which one it is, what is written says. */
export function wayOrTime(
  spec: QuantityField & { readonly example: string },
): Field<Value<Quantity<'m' | 'rad' | 's'>>> {
  const way = quantityIn<'m' | 'rad'>(['m', 'rad'], { ...spec, due: 'a length, an angle or a time' });
  const time = quantity('s', spec);
  const field: Field<Value<Quantity<'m' | 'rad' | 's'>>> = {
    read: (at, path, reading) => {
      const read = (readQuantity(textAt(at), 's').ok ? time : way).read(at, path, reading);
      reading.readBy(path, field);
      return read;
    },
    schema: way.schema,
  };
  return field;
}

/** The name of something, or a map that describes it on the spot. */
export const nameOr = <T>(named: Field<Value<Named>>, own: Field<T>): Field<Value<Named> | T> => ({
  read: (at, path, reading): Value<Named> | T => (at?.node.kind === 'map' ? own : named).read(at, path, reading),
  schema: () => ({ anyOf: [named.schema(), own.schema()] }),
});

/** How many, or the word all for as many as the file has. */
export function countOrAll(about: string, example: string): Field<Value<Quantity<'1'> | 'all'>> {
  const inner = count({ about, least: 0, example });
  return {
    read: (at, path, reading) => (textAt(at) === 'all' ? 'all' : inner.read(at, path, reading)),
    schema: () => ({
      ...inner.schema(),
      description: `${about} A whole number, or the word all for as many as the file has.`,
      examples: ['all', example],
    }),
  };
}
