// How the contributions of a mark go together: as the file says, and their products with each other.
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { triangleOf } from './calc/correlation.ts';
import type { PlacedMark } from './mark.ts';
import type { Part } from './part.ts';
import { type CorrelationOf, correlationOfProducts, notCorrelated } from './products.ts';

/** Row after row. */
export type Correlations = readonly Quantity<'1'>[];

const itself = assumed('marks.itself', 1, '1', { source: 'definition', because: 'a contribution goes with itself' });

/** A budget with more contributions than this nobody has correlated by hand (our judgement). */
const mostCorrelated = 200;

/** The correlations of the parts, row after row; nothing where the file tells none. */
export function correlationsOf({ said, path }: PlacedMark, parts: readonly Part[]): Value<Correlations> | undefined {
  const { correlation } = said;
  if (correlation === undefined || correlation instanceof Missing) return correlation;
  if (parts.length > mostCorrelated)
    return missing(`${path}.correlation`, 'problem', `correlations among ${mostCorrelated} contributions at most`, '');
  return given({ correlation }, (known): Value<Correlations> => {
    const rows = parts.map((_, row) =>
      parts.map((__, column): Quantity<'1'> => (row === column ? itself : notCorrelated)),
    );
    for (const tied of known.correlation) {
      const { one, other, correlation: r } = tied as Exclude<typeof tied, Missing>;
      if (one instanceof Missing || other instanceof Missing || r instanceof Missing)
        return [one, other, r].find((each) => each instanceof Missing) as Missing;
      const [row, column] = [one.name, other.name].map((name) => parts.findIndex((part) => part.name === name)) as [
        number,
        number,
      ];
      if (row < 0 || column < 0 || row === column)
        return missing(
          `${path}.correlation`,
          'problem',
          'two contributions of spread',
          '[plate_repeat, backlash, 0.5]',
        );
      rows[row]![column] = r;
      rows[column]![row] = r;
    }
    return triangleOf(rows.map((row) => row.map(({ value }) => value))) === undefined
      ? missing(`${path}.correlation`, 'problem', 'correlations that can be together', '[plate_repeat, backlash, 0.5]')
      : rows.flat();
  });
}

/** The correlations by row and column. */
export function tiesOf(correlations: Correlations): NonNullable<CorrelationOf> {
  const size = Math.round(Math.sqrt(correlations.length));
  return (row, column) => correlations[row * size + column]!;
}

export type ProductPart = Part & { readonly factors: NonNullable<Part['factors']> };

/** The same with the products behind the contributions that they are of. */
export function widened(
  before: number,
  products: readonly ProductPart[],
  r: NonNullable<CorrelationOf>,
  about: string,
): Correlations {
  const size = before + products.length;
  const found = new Map<string, Quantity<'1'>>();
  const ofProducts = (one: number, other: number): Quantity<'1'> => {
    const [x, y] = one < other ? [one, other] : [other, one];
    const key = `${x} ${y}`;
    const made = found.get(key) ?? correlationOfProducts(products[x]!, products[y]!, r, about);
    found.set(key, made);
    return made;
  };
  return Array.from({ length: size ** 2 }, (_, at) => {
    const [row, column] = [Math.floor(at / size), at % size];
    if (row === column) return itself;
    if (row < before && column < before) return r(row, column);
    // What is normally distributed and a product of such are not correlated.
    return row < before || column < before ? notCorrelated : ofProducts(row - before, column - before);
  });
}

/** The same with contributions behind it that go with none. */
export function alone(correlations: Correlations, size: number): Correlations {
  const r = tiesOf(correlations);
  const before = Math.round(Math.sqrt(correlations.length));
  return Array.from({ length: size ** 2 }, (_, at) => {
    const [row, column] = [Math.floor(at / size), at % size];
    if (row < before && column < before) return r(row, column);
    return row === column ? itself : notCorrelated;
  });
}
