// The budget of a mark: its contributions combined as JCGM 100 does, held against its tolerance.
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, Missing, missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import {
  combinedSpread,
  correlatedShare,
  correlatedSpread,
  coverageFactor,
  effectiveDegrees,
  expandedSpread,
  normalFactor,
  varianceShare,
  worstSum,
} from './calc/budget.ts';
import {
  capability,
  centredCapability,
  confidenceQuantile,
  lowerLimit,
  neededOfCurved,
  neededTolerance,
  outsideLimits,
  piecesToProve,
  provenCapability,
  provenConfidence,
} from './calc/capability.ts';
import { sizeOfPart, sumOfOffsets } from './calc/contribution.ts';
import { addedSpread } from './calc/loop.ts';
import { allSecondShare } from './calc/product.ts';
import { meaninglessFrom } from './calc/second-order.ts';
import { firstOrderSpread, secondOrderShare, secondOrderSpread } from './calc/skew.ts';
import { speedOffset } from './calc/speed-spread.ts';
import { alone, type Correlations, correlationsOf, type ProductPart, tiesOf, widened } from './correlations.ts';
import { type LoopOf, loopOf } from './loop-of.ts';
import { noneOf, type PlacedMark } from './mark.ts';
import { normalPart, type Part } from './part.ts';
import { type Offset, partsOf } from './parts-of.ts';
import { productParts } from './products.ts';

/** A part with its share of the variance, and its standard deviation without a sign. */
export interface SharedPart extends Part {
  readonly size: Quantity<'m'>;
  readonly share: Quantity<'1'>;
}

/** What the terms of second order say, where something is not linear. */
export interface Orders {
  readonly first: Quantity<'m'>;
  readonly second: Quantity<'m'>;
  readonly share: Quantity<'1'>;
  /** Nothing may be concluded from the first order alone. */
  readonly meaningless: boolean;
}

export interface Known {
  readonly parts: readonly SharedPart[];
  readonly offsets: readonly Offset[];
  readonly offset: Quantity<'m'>;
  /** Combined standard uncertainty. */
  readonly u: Quantity<'m'>;
  /** The same without what a correction adds: what it has to correct. */
  readonly before: Quantity<'m'>;
  readonly worst: Quantity<'m'>;
  /** Effective degrees of freedom, `infinite`, or `unknown` where contributions with finite ones are correlated. */
  readonly degrees: Quantity<'1'> | 'infinite' | 'unknown';
  readonly coverage: Value<Quantity<'1'>>;
  /** Not told where one of the two is not known. */
  readonly factor: Quantity<'1'> | undefined;
  /** Not told where the first order is meaningless, or the degrees of freedom are not known. */
  readonly expanded: Quantity<'m'> | undefined;
  readonly orders: Orders | undefined;
  /** Of the parts in their order, row after row; nothing where none is correlated. */
  readonly correlation: readonly Quantity<'1'>[] | undefined;
  /** What the mark needs of its tolerance: three deviations, or all at its worst where the first order is meaningless. */
  readonly needed: Quantity<'m'>;
}

/** Against the tolerance. */
export interface Capability {
  readonly cp: Quantity<'1'>;
  readonly cpk: Quantity<'1'>;
  readonly outside: Quantity<'1'>;
  readonly provenCpk: Quantity<'1'>;
  readonly confidence: Quantity<'1'>;
  /** Not told where the expected Cpk is not above the one that is to be proven. */
  readonly pieces: Quantity<'1'> | undefined;
  /** Where the file says how many are measured: the Cpk that they prove with that confidence, and how sure the one wanted is. */
  readonly measured:
    | { readonly n: Quantity<'1'>; readonly cpk: Quantity<'1'>; readonly sure: Quantity<'1'> }
    | undefined;
}

export interface BudgetOf {
  readonly mark: PlacedMark;
  readonly speed: Value<Quantity<'m/s'>>;
  readonly known: Value<Known>;
  /** Untold where the first order is meaningless: a Cpk stands for a normal distribution. */
  readonly capability: Value<Capability> | 'untold';
  readonly loop: LoopOf | undefined;
}

/** The budget at a speed; `about` names the mark, and the speed where it is not that of the file. */
export function budgetOf(mark: PlacedMark, speed: Value<Quantity<'m/s'>>, about: string): BudgetOf {
  const loop = mark.said.correct && loopOf(mark, mark.said.correct, speed, about);
  const known = knownOf(mark, speed, about, loop);
  const capability = given({ known, T: mark.said.tolerance }, (all) =>
    all.known.orders?.meaningless === true ? 'untold' : capabilityOf(mark, all.known, all.T, about),
  );
  return { mark, speed, known, capability, loop };
}

function knownOf(
  mark: PlacedMark,
  speed: Value<Quantity<'m/s'>>,
  about: string,
  loop: LoopOf | undefined,
): Value<Known> {
  const { said, path } = mark;
  const made = partsOf(mark, speed, about);
  if (made.parts.length === 0)
    return missing(`${path}.spread`, 'absent', 'a contribution at least', '{ plate_repeat: 15 µm }');
  return given({ parts: made.parts, offsets: made.offsets, spread: said.speed_spread }, (known): Value<Known> => {
    const offsets = known.offsets as readonly Offset[];
    const varied = [
      ...(known.parts as readonly Part[]),
      ...(known.spread === undefined ? [] : speedPart(mark, offsets, known.spread, about)),
    ];
    const correlation = correlationsOf(mark, varied);
    return given({ correlation }, ({ correlation: tied }): Value<Known> => {
      const among = tied && tiesOf(tied as Correlations);
      const products = productParts(mark, varied, among, about);
      return given({ products, added: loop?.noise }, (all): Value<Known> => {
        const own = all.products as readonly ProductPart[];
        const means = own.flatMap(({ name, offset: b }): readonly Offset[] =>
          b ? [{ name, b, timed: undefined }] : [],
        );
        const curved = [...varied, ...own];
        const matrix = among && widened(varied.length, own, among, about);
        const before = spreadOf(curved, matrix, `${about}${loop ? '.before' : ''}`);
        const parts = all.added === undefined ? curved : [...curved, corrected(mark, all.added, before, about)];
        const whole = matrix && alone(matrix, parts.length);
        const u = loop === undefined ? before : spreadOf(parts, whole, about);
        return given({ u }, (last) => ({
          ...wholeOf(mark, parts, [...offsets, ...means], last.u, whole, about),
          before,
        }));
      });
    });
  });
}

/** A speed that varies moves all that is off by a time. */
function speedPart({ path }: PlacedMark, offsets: readonly Offset[], s: Quantity<'1'>, about: string): readonly Part[] {
  const timed = offsets.flatMap((each) => each.timed ?? []);
  if (timed.length === 0) return [];
  const b = sumOfOffsets({ b: timed }, `${about}.timed`);
  const u = speedOffset({ b, s }, about);
  return [normalPart('speed_spread', `${path}.speed_spread`, u, about)];
}

function corrected({ path }: PlacedMark, S: Quantity<'1'>, u: Quantity<'m'>, about: string): Part {
  return normalPart('correction', `${path}.correct`, addedSpread({ S, u }, about), about);
}

const spreadOf = (parts: readonly Part[], r: Correlations | undefined, about: string): Quantity<'m'> => {
  const u = parts.map((part) => part.u);
  return r === undefined ? combinedSpread({ u }, about) : correlatedSpread({ u, r }, about);
};

function wholeOf(
  mark: PlacedMark,
  parts: readonly Part[],
  offsets: readonly Offset[],
  u: Quantity<'m'>,
  correlation: Correlations | undefined,
  about: string,
): Omit<Known, 'before'> {
  const { said, path } = mark;
  const offset =
    offsets.length === 0
      ? noneOf(`${path}.offset`, 'm', 'nothing is known to be off on average unless said')
      : sumOfOffsets({ b: offsets.map(({ b }) => b) }, about);
  const coverage =
    said.coverage ??
    assumed(`${path}.coverage`, 0.95, '1', { source: 'common-practice', because: 'what most budgets state', as: '%' });
  const degrees = degreesOfParts(parts, u, correlation, about);
  const orders = ordersOf(parts, u, correlation, about);
  const factor = coverage instanceof Missing ? undefined : factorOf(coverage, degrees, about);
  const worst = worstSum({ a: parts.map(({ limit }) => limit) }, about);
  const { length } = parts;
  return {
    parts: parts.map((part, at) => ({
      ...part,
      size: part.u.value < 0 ? sizeOfPart({ u: part.u }, `${about}.${part.name}`) : part.u,
      share:
        correlation === undefined
          ? varianceShare({ u: part.u, U: u }, `${about}.${part.name}`)
          : correlatedShare(
              { c: part.u, r: correlation.slice(at * length, (at + 1) * length), u: parts.map((each) => each.u), U: u },
              `${about}.${part.name}`,
            ),
    })),
    offsets,
    offset,
    u,
    worst,
    degrees,
    coverage,
    factor,
    expanded:
      factor === undefined || orders?.meaningless === true ? undefined : expandedSpread({ k: factor, u }, about),
    orders,
    correlation,
    needed:
      orders === undefined
        ? neededTolerance({ b: offset, u }, about)
        : neededOfCurved({ b: offset, a: worst, u, s: orders.share, q: fromHere }, about),
  };
}

/** Nothing where it is not finite either: for all results, or without a spread. */
function factorOf(p: Quantity<'1'>, degrees: Known['degrees'], about: string): Quantity<'1'> | undefined {
  if (degrees === 'unknown') return undefined;
  const k = degrees === 'infinite' ? normalFactor({ p }, about) : coverageFactor({ p, n: degrees }, about);
  return Number.isFinite(k.value) ? k : undefined;
}

function degreesOfParts(
  parts: readonly Part[],
  U: Quantity<'m'>,
  correlation: Correlations | undefined,
  about: string,
): Known['degrees'] {
  const finite = parts.filter(({ degrees }) => degrees !== undefined);
  if (finite.length === 0) return 'infinite';
  const isOfFew = ({ factors: of }: Part): boolean =>
    of !== undefined && [of.one, of.other].some((at) => parts[at]!.degrees !== undefined);
  if (parts.some(isOfFew)) return 'unknown';
  const tied = finite.some((part) => {
    const row = parts.indexOf(part) * parts.length;
    return correlation?.some(
      (r, at) => r.value !== 0 && at >= row && at < row + parts.length && at - row !== parts.indexOf(part),
    );
  });
  if (tied) return 'unknown';
  return effectiveDegrees({ U, u: finite.map(({ u }) => u), n: finite.map(({ degrees }) => degrees!) }, about);
}

const fromHere = assumed('marks.meaningless_from', meaninglessFrom, '1', {
  source: 'judgement',
  because: 'where more than a tenth of the variance is of second order, the first tells too little',
  as: '%',
});

/** Nothing where all is linear, or nothing scatters. */
function ordersOf(
  parts: readonly Part[],
  U: Quantity<'m'>,
  correlation: Correlations | undefined,
  about: string,
): Orders | undefined {
  const askew = parts.find(({ skew }) => skew !== undefined);
  const products = parts.flatMap(({ factors }, at) => (factors === undefined ? [] : [at]));
  if ((askew === undefined && products.length === 0) || U.value === 0) return undefined;
  const straight = parts.flatMap((part, at) => (part === askew || part.factors !== undefined ? [] : [at]));
  const u = spreadAmong(parts, straight, correlation, `${about}.linear`);
  const values = askew && { u, ...askew.skew! };
  const first = values === undefined ? u : firstOrderSpread(values, about);
  // Products are exact; with them the second order is all that there is.
  const second =
    values === undefined
      ? U
      : products.length === 0
        ? secondOrderSpread(values, about)
        : combinedSpread(
            {
              u: [
                secondOrderSpread(values, `${about}.askew`),
                spreadAmong(parts, products, correlation, `${about}.products`),
              ],
            },
            `${about}.second`,
          );
  const share =
    values !== undefined && products.length === 0
      ? secondOrderShare(values, about)
      : allSecondShare({ f: first, s: second }, about);
  return { first, second, share, meaningless: share.value > fromHere.value };
}

/** What those at some places make together; `correlation` is of all parts. */
function spreadAmong(
  parts: readonly Part[],
  places: readonly number[],
  correlation: Correlations | undefined,
  about: string,
): Quantity<'m'> {
  const among = correlation && places.flatMap((row) => places.map((at) => correlation[row * parts.length + at]!));
  return spreadOf(
    places.map((at) => parts[at]!),
    among,
    about,
  );
}

// ── capability ───────────────────────────────────────────────────────────────────────────────────────────────────────

function capabilityOf(
  { said, path }: PlacedMark,
  { u, offset }: Known,
  T: Quantity<'m'>,
  about: string,
): Value<Capability> {
  const limits = { U: T, L: lowerLimit({ T }, about), σ: u };
  // Without a spread there is none.
  const own = centredCapability({ ...limits, m: offset }, about);
  const { proves } = said;
  const asked = { own, cpk: proves?.cpk, confidence: proves?.confidence, n: proves?.pieces };
  return given(asked, (wanted): Capability => {
    const cpk = wanted.own;
    const provenCpk =
      wanted.cpk ??
      assumed(`${path}.proves.cpk`, 4 / 3, '1', {
        source: 'common-practice',
        because: 'four standard deviations to the nearer limit',
      }); // prettier-ignore
    const confidence =
      wanted.confidence ??
      assumed(`${path}.proves.confidence`, 0.95, '1', {
        source: 'common-practice',
        because: 'one proof in twenty may be luck',
        as: '%',
      }); // prettier-ignore
    const z = confidenceQuantile({ p: confidence }, about);
    const pieces = piecesToProve({ C: cpk, D: provenCpk, z }, about);
    const { n } = wanted;
    return {
      cp: capability(limits, about),
      cpk,
      outside: outsideLimits({ ...limits, m: offset }, about),
      provenCpk,
      confidence,
      pieces: Number.isFinite(pieces.value) ? pieces : undefined,
      measured: n && {
        n,
        cpk: provenCapability({ C: cpk, z, n }, about),
        sure: provenConfidence({ C: cpk, D: provenCpk, n }, about),
      },
    };
  });
}
