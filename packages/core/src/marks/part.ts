// One contribution of a budget: made of a spread of the file, or of limits that are computed.
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import {
  arcsineSpread,
  meanDeviation,
  rectangularSpread,
  sampleDegrees,
  sampleDeviation,
  sampleMean,
  sampleReach,
  triangularSpread,
} from './calc/budget.ts';
import { limitOfNormal, limitOfResult, partOfResult, wayOfTime } from './calc/contribution.ts';
import { bothEdges, twoEdges } from './calc/length.ts';
import type { Factors } from './products.ts';
import { type Shape, type SpreadSection, sizeOf } from './spread-field.ts';

export interface Part {
  readonly name: string;
  /** Of the file, where it is told. */
  readonly path: string;
  readonly shape: Shape | 'askew' | 'product' | 'square';
  /** The standard uncertainty that it gives the result, with the sign of its sensitivity. */
  readonly u: Quantity<'m'>;
  /** The most that it gives the result. */
  readonly limit: Quantity<'m'>;
  /** Its own standard uncertainty and limit, before its sensitivity and what is compensated. */
  readonly itself: { readonly u: Quantity<'m'>; readonly limit: Quantity<'m'> };
  readonly offset: Quantity<'m'> | undefined;
  /** Undefined where they are infinite. */
  readonly degrees: Quantity<'1'> | undefined;
  /** Of a sample: its values as lengths, and whether one more or their mean counts. */
  readonly sample: { readonly x: readonly Quantity<'m'>[]; readonly of: 'one' | 'mean' } | undefined;
  /** Of a web askew. */
  readonly skew: { readonly L: Quantity<'m'>; readonly φ: Quantity<'rad'>; readonly σ: Quantity<'rad'> } | undefined;
  /** Of a product: its places among the other parts, and the length that it is over. */
  readonly factors: Factors | undefined;
  /** Whether its offset is a time that the speed makes a length of. */
  readonly isOffsetTimed: boolean;
}

export interface Maker {
  /** A spread of the file; edges that are off each for itself count twice in a length. */
  readonly told: (name: string, spread: SpreadSection, each?: 'each edge') => Value<Part>;
  /** A spread whose size is made a length by more than the speed. */
  readonly made: (
    name: string,
    spread: SpreadSection,
    length: (size: Quantity, about: string) => Value<Quantity<'m'>>,
  ) => Value<Part>;
  /** What has limits that are computed. */
  readonly within: (
    name: string,
    path: string,
    shape: 'rectangular' | 'triangular' | 'arcsine',
    limit: Value<Quantity<'m'>>,
    each?: 'each edge',
  ) => Value<Part>;
  readonly about: string;
}

/** Three standard deviations are taken for the limit of what has none (our judgement). */
const deviations = assumed('marks.limit_of_normal', 3, '1', {
  source: 'judgement',
  because: 'a normal distribution has no limit; beyond three standard deviations are 0.27 %',
});
const asMuch = assumed('marks.sensitivity', 1, '1', {
  source: 'definition',
  because: 'the result moves with it, unless said',
});
export const noPart = assumed('marks.compensated', 0, '1', {
  source: 'definition',
  because: 'nothing of it is taken out, unless said',
  as: '%',
});

/** A part with nothing but its spread. */
export const plainPart = (
  name: string,
  path: string,
  shape: Part['shape'],
  u: Quantity<'m'>,
  limit: Quantity<'m'>,
): Part => ({
  name,
  path,
  shape,
  u,
  limit,
  itself: { u, limit },
  offset: undefined,
  degrees: undefined,
  sample: undefined,
  skew: undefined,
  factors: undefined,
  isOffsetTimed: false,
});

/** A part that is computed as a standard deviation. */
export const normalPart = (name: string, path: string, u: Quantity<'m'>, prefix: string): Part =>
  plainPart(name, path, 'normal', u, limitOfNormal({ n: deviations, u }, `${prefix}.${name}`));

const spreadsOf = { rectangular: rectangularSpread, triangular: triangularSpread, arcsine: arcsineSpread } as const;

export function makerOf(v: Value<Quantity<'m/s'>>, prefix: string, isLength: boolean): Maker {
  const asLength = (size: Quantity, about: string): Value<Quantity<'m'>> =>
    size.unit === 's'
      ? given({ v }, (known) => wayOfTime({ v: known.v, t: size as Quantity<'s'> }, about))
      : (size as Quantity<'m'>);

  const made = (
    name: string,
    spread: SpreadSection,
    length: (size: Quantity, about: string) => Value<Quantity<'m'>>,
    twice: boolean,
  ): Value<Part> => {
    const about = `${prefix}.${name}`;
    const { path, kind, sensitivity, compensated, offset, degrees } = spread;
    if (kind instanceof Missing) return kind;
    const values = kind === 'sample' ? sampleOf(spread) : sizeOf(spread)!;
    return given({ values, sensitivity, compensated, offset, degrees, of: spread.of }, (known) => {
      const sizes = (Array.isArray(known.values) ? known.values : [known.values]) as readonly Quantity[];
      const several = kind === 'sample';
      const lengths = sizes.map((size, at) => length(size, several ? `${about}.${at + 1}` : about));
      const middle = known.offset && length(known.offset as Quantity, `${about}.offset`);
      return given({ lengths, middle }, (all): Part => {
        const own = ownSpread(kind as Shape, all.lengths as readonly Quantity<'m'>[], known.of ?? 'one', about);
        const [c, k] = [known.sensitivity ?? asMuch, known.compensated ?? noPart];
        const plain = known.sensitivity === undefined && known.compensated === undefined;
        const part = (u: Quantity<'m'>, which: string): Quantity<'m'> =>
          plain ? u : partOfResult({ c, k, u }, `${about}${which}`);
        const mean = all.middle ?? own.mean;
        const [u, limit] = [part(own.u, ''), plain ? own.limit : limitOfResult({ c, k, a: own.limit }, about)];
        return {
          ...(twice
            ? plainPart(name, path, kind as Shape, twoEdges({ u }, about), bothEdges({ a: limit }, about))
            : plainPart(name, path, kind as Shape, u, limit)),
          itself: own,
          offset: mean && !twice ? part(mean as Quantity<'m'>, '.offset') : undefined,
          degrees: known.degrees ?? own.degrees,
          sample: kind === 'sample' ? { x: all.lengths as readonly Quantity<'m'>[], of: known.of ?? 'one' } : undefined,
          isOffsetTimed: (known.offset ?? sizes[0]!).unit === 's',
        };
      }) as Value<Part>;
    }) as Value<Part>;
  };

  return {
    about: prefix,
    told: (name, spread, each) => made(name, spread, asLength, each !== undefined && isLength),
    made: (name, spread, length) => made(name, spread, length, false),
    within: (name, path, shape, limit, each) =>
      given({ limit }, (known) => {
        const about = `${prefix}.${name}`;
        const u = spreadsOf[shape]({ a: known.limit }, about);
        return each !== undefined && isLength
          ? plainPart(name, path, shape, twoEdges({ u }, about), bothEdges({ a: known.limit }, about))
          : plainPart(name, path, shape, u, known.limit);
      }),
  };
}

function sampleOf({ path, sample }: SpreadSection): Value<readonly Value<Quantity>[]> {
  if (sample === undefined || sample instanceof Missing)
    return sample ?? missing(`${path}.sample`, 'absent', 'measured values', '[ … ]');
  if (sample.length < 2) return missing(`${path}.sample`, 'problem', 'two measured values at least', '[ … ]');
  const units = sample.flatMap((each) => (each instanceof Missing ? [] : [each.unit]));
  if (new Set(units).size > 1)
    return missing(`${path}.sample`, 'problem', 'lengths alone, or times alone', '[0.1 mm, 0.2 mm]');
  return sample;
}

interface OwnSpread {
  readonly u: Quantity<'m'>;
  readonly limit: Quantity<'m'>;
  readonly mean?: Quantity<'m'>;
  readonly degrees?: Quantity<'1'>;
}

function ownSpread(shape: Shape, lengths: readonly Quantity<'m'>[], of: 'one' | 'mean', about: string): OwnSpread {
  const a = lengths[0]!;
  if (shape === 'normal') return { u: a, limit: limitOfNormal({ n: deviations, u: a }, about) };
  if (shape !== 'sample') return { u: spreadsOf[shape]({ a }, about), limit: a };
  const x = lengths;
  const common = { mean: sampleMean({ x }, about), degrees: sampleDegrees({ x }, about) };
  if (of === 'one') return { u: sampleDeviation({ x }, about), limit: sampleReach({ x }, about), ...common };
  const u = meanDeviation({ x }, about);
  return { u, limit: limitOfNormal({ n: deviations, u }, about), ...common };
}
