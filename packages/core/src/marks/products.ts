// Products of two contributions of a mark, or squares of one: parts of its budget that slopes do not tell.
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import {
  productCorrelation,
  productLimit,
  productOffset,
  productSpread,
  squareLimit,
  squareOffset,
  squareSpread,
} from './calc/product.ts';
import type { PlacedMark } from './mark.ts';
import { type Part, plainPart } from './part.ts';

/** How two contributions go together; nothing where none of the budget are correlated. */
export type CorrelationOf = ((row: number, column: number) => Quantity<'1'>) | undefined;

export const notCorrelated = assumed('marks.not_correlated', 0, '1', {
  source: 'judgement',
  because: 'contributions are independent unless said',
});

/** Where a product stands among the contributions, and what it is over. */
export interface Factors {
  readonly one: number;
  readonly other: number;
  readonly L: Quantity<'m'>;
}

/** The products of a mark; `parts` are all other contributions. */
export function productParts(
  { said, path }: PlacedMark,
  parts: readonly Part[],
  correlation: CorrelationOf,
  prefix: string,
): readonly Value<Part>[] {
  const { products } = said;
  if (products === undefined) return [];
  if (products instanceof Missing) return [products];
  const seen = new Set<string>();
  return products.map((product): Value<Part> => {
    if (product instanceof Missing) return product;
    return given({ one: product.one, other: product.other, L: product.over }, (known): Value<Part> => {
      const lacks = (due: string, example: string) => missing(`${path}.products`, 'problem', due, example);
      const places = [known.one.name, known.other.name].map((each) => parts.findIndex((part) => part.name === each));
      const [one, other] = places.toSorted((a, b) => a - b) as [number, number];
      if (one < 0) return lacks('two contributions of spread', '[edge_tilt, web_wander, 20 mm]');
      if (known.L.value === 0) return lacks('a length that is not 0', '20 mm');
      if (seen.has(`${one} ${other}`)) return lacks('each pair once', '[edge_tilt, web_wander, 20 mm]');
      seen.add(`${one} ${other}`);
      const [a, b] = [parts[one]!, parts[other]!];
      const isTied = (at: number) => parts.some((_, to) => to !== at && correlation && correlation(at, to).value !== 0);
      for (const at of [one, other])
        if (parts[at]!.shape !== 'normal' && isTied(at))
          return missing(
            `${path}.correlation`,
            'problem',
            'correlations among normal contributions only',
            '[a, b, 0.5]',
          );
      for (const { shape, offset, name: of } of [a, b])
        if (shape === 'sample' || offset !== undefined)
          return lacks(
            `contributions that are nothing on average; what ${of} is on average makes a sensitivity of the other`,
            '{ normal: 3 µm, sensitivity: 0.1 }',
          );
      const made = partOf({ one, other, L: known.L }, a, b, correlation, { path: product.path, prefix });
      return parts.some((part) => part.name === made.name)
        ? lacks(`another name than ${made.name} for the contribution that has it`, '20 mm')
        : made;
    });
  });
}

function partOf(
  factors: Factors,
  a: Part,
  b: Part,
  correlation: CorrelationOf,
  { path, prefix }: { readonly path: string; readonly prefix: string },
): Part {
  const { one, other, L } = factors;
  const isSquare = one === other;
  const name = isSquare ? `${a.name}_squared` : `${a.name}_times_${b.name}`;
  const at = `${prefix}.${name}`;
  if (isSquare) {
    const [u, κ] = [a.itself.u, kurtosisOf[a.shape as keyof typeof kurtosisOf]];
    const limit = squareLimit({ a: a.itself.limit, u, L }, at);
    const part = plainPart(name, path, 'square', squareSpread({ u, κ, L }, at), limit);
    return { ...part, offset: squareOffset({ u, L }, at), factors };
  }
  const [u, w, r] = [a.itself.u, b.itself.u, correlation?.(one, other) ?? notCorrelated];
  const limit = productLimit({ a: a.itself.limit, b: b.itself.limit, L }, at);
  const part = plainPart(name, path, 'product', productSpread({ u, w, r, L }, at), limit);
  return { ...part, factors, ...(r.value === 0 ? {} : { offset: productOffset({ u, w, r, L }, at) }) };
}

/** The correlation of two products, whose factors are correlated. */
export function correlationOfProducts(
  x: { readonly name: string; readonly factors: Factors },
  y: { readonly name: string; readonly factors: Factors },
  r: NonNullable<CorrelationOf>,
  prefix: string,
): Quantity<'1'> {
  const [{ one: a, other: b }, { one: c, other: d }] = [x.factors, y.factors];
  const all = { p: r(a, c), s: r(b, d), q: r(a, d), t: r(b, c), f: r(a, b), g: r(c, d) };
  return productCorrelation(all, `${prefix}.${x.name}.${y.name}`);
}

const kurtosis = (shape: string, value: number): Quantity<'1'> =>
  assumed(`marks.kurtosis.${shape}`, value, '1', { source: 'definition', because: `of a ${shape} distribution` });
const kurtosisOf = {
  normal: kurtosis('normal', 3),
  rectangular: kurtosis('rectangular', 9 / 5),
  triangular: kurtosis('triangular', 12 / 5),
  arcsine: kurtosis('arcsine', 3 / 2),
} as const;
