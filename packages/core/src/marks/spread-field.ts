// How the file tells what something scatters by: a standard deviation, or the shape and size of a distribution.
import { type Chosen, choice } from '../reading/choice.ts';
import type { About, Field } from '../reading/field.ts';
import { list, optional } from '../reading/groups.ts';
import { quantity, quantityIn, share, type Value, word } from '../reading/values.ts';
import type { Unit } from '../units/si.ts';
import type { Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';

export const shapes = ['normal', 'rectangular', 'triangular', 'arcsine', 'sample'] as const;
export type Shape = (typeof shapes)[number];

const fieldsOf = <const U extends Unit>(units: readonly [U, ...U[]], example: string) => {
  const size = (about: string): Field<Value<Quantity<U>>> =>
    units.length === 1
      ? quantity(units[0], { about, least: 0, example })
      : quantityIn([units[0], units[1]!], { about, least: 0, example });
  const signed = (about: string): Field<Value<Quantity<U>>> =>
    units.length === 1 ? quantity(units[0], { about, example }) : quantityIn([units[0], units[1]!], { about, example });
  const common = {
    sensitivity: optional(
      quantity('1', { about: 'How much the result moves for each of it; 1 unless said.', example: '0.5' }),
    ),
    compensated: optional(share({ about: 'The share of it that is taken out elsewhere.', example: '80 %' })),
    offset: optional(signed('What it is off by on average, where that is known.')),
    degrees: optional(
      quantity('1', {
        about: 'Degrees of freedom of its standard deviation, where it rests on few measurements.',
        above: 0,
        example: '9',
      }),
    ),
    of: optional(
      word(['one', 'mean'], {
        about: 'Of a sample: whether one more such value counts, or the mean of all of them; one unless said.',
      }),
    ),
  };
  const kinds = {
    normal: size('Normally distributed, by its standard deviation.'),
    rectangular: size('Anywhere within limits, by half of their width.'),
    triangular: size('Near the middle of its limits, by half of their width.'),
    arcsine: size('Swings as a sine, by its amplitude.'),
    sample: list(signed('A measured value.'), { about: 'Measured values.' }),
  };
  return { common, kinds, size };
};

type Common<U extends Unit> = ReturnType<typeof fieldsOf<U>>['common'];
type Kinds<U extends Unit> = ReturnType<typeof fieldsOf<U>>['kinds'];

/** What the file says of a spread; a bare quantity is the standard deviation of a normal distribution. */
export type SpreadSection<U extends Unit = Unit> = Chosen<Common<U>, Kinds<U>>;

export function spreadField<const U extends Unit>(
  units: readonly [U, ...U[]],
  { about, example }: About & { readonly example: string },
): Field<SpreadSection<U>> {
  const { common, kinds, size } = fieldsOf(units, example);
  const inner = choice(common, kinds, { about, due: 'a spread', example: `{ rectangular: ${example} }` });
  const bare = size(about);
  const field: Field<SpreadSection<U>> = {
    read: (at, path, reading) => {
      const leaf = at?.node.kind === 'leaf' && at.node.text !== 'open' && at.node.text !== 'unknown';
      if (!leaf) return inner.read(at, path, reading);
      const normal = bare.read(at, path, reading);
      reading.readBy(path, field as Field<unknown>);
      return { path, kind: 'normal', normal } as SpreadSection<U>;
    },
    schema: () => ({ anyOf: [bare.schema(), inner.schema()], description: about }),
  };
  return field;
}

/** The size of a spread as it is written: its standard deviation or half width. A sample has none. */
export const sizeOf = (spread: SpreadSection): Value<Quantity> | undefined => {
  const { kind } = spread;
  if (typeof kind !== 'string') return kind as Missing;
  return kind === 'sample' ? undefined : spread[kind as Exclude<Shape, 'sample'>];
};
