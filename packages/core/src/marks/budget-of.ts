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
  neededTolerance,
  outsideLimits,
  piecesToProve,
} from './calc/capability.ts';
import { sumOfOffsets } from './calc/contribution.ts';
import { triangleOf } from './calc/correlation.ts';
import { addedSpread } from './calc/loop.ts';
import { meaninglessFrom } from './calc/second-order.ts';
import { firstOrderSpread, secondOrderShare, secondOrderSpread } from './calc/skew.ts';
import { speedOffset } from './calc/speed-spread.ts';
import { type LoopOf, loopOf } from './loop-of.ts';
import { noneOf, type PlacedMark } from './mark.ts';
import { normalPart, type Part } from './part.ts';
import { type Offset, partsOf } from './parts-of.ts';

/** A part with its share of the variance. */
export interface SharedPart extends Part {
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
  /** What the mark needs of its tolerance. */
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
}

export interface BudgetOf {
  readonly mark: PlacedMark;
  readonly speed: Value<Quantity<'m/s'>>;
  readonly known: Value<Known>;
  readonly capability: Value<Capability>;
  readonly loop: LoopOf | undefined;
}

/** The budget at a speed; `about` names the mark, and the speed where it is not that of the file. */
export function budgetOf(mark: PlacedMark, speed: Value<Quantity<'m/s'>>, about: string): BudgetOf {
  const loop = mark.said.correct && loopOf(mark, mark.said.correct, speed, about);
  const known = knownOf(mark, speed, about, loop);
  const capability = given({ known, T: mark.said.tolerance }, (all) => capabilityOf(mark, all.known, all.T, about));
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
    return given({ correlation, added: loop?.noise }, (all): Value<Known> => {
      const before = spreadOf(varied, all.correlation as Correlations | undefined, `${about}${loop ? '.before' : ''}`);
      const parts = all.added === undefined ? varied : [...varied, corrected(mark, all.added, before, about)];
      const matrix = all.correlation && widened(all.correlation as Correlations, parts.length);
      const u = loop === undefined ? before : spreadOf(parts, matrix, about);
      return given({ u }, (last) => wholeOf(mark, parts, offsets, last.u, matrix, about));
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

type Correlations = readonly Quantity<'1'>[];

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
): Known {
  const { said, path } = mark;
  const offset =
    offsets.length === 0
      ? noneOf(`${path}.offset`, 'm', 'nothing is known to be off on average unless said')
      : sumOfOffsets({ b: offsets.map(({ b }) => b) }, about);
  const coverage =
    said.coverage ??
    assumed(`${path}.coverage`, 0.95, '1', { source: 'common-practice', because: 'what most budgets state', as: '%' });
  const degrees = degreesOfParts(parts, u, correlation, about);
  const orders = ordersOf(parts, about);
  const factor = coverage instanceof Missing ? undefined : factorOf(coverage, degrees, about);
  const { length } = parts;
  return {
    parts: parts.map((part, at) => ({
      ...part,
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
    worst: worstSum({ a: parts.map(({ limit }) => limit) }, about),
    degrees,
    coverage,
    factor,
    expanded:
      factor === undefined || orders?.meaningless === true ? undefined : expandedSpread({ k: factor, u }, about),
    orders,
    correlation,
    needed: neededTolerance({ b: offset, u }, about),
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
  const tied = finite.some((part) => {
    const row = parts.indexOf(part) * parts.length;
    return correlation?.some(
      (r, at) => r.value !== 0 && at >= row && at < row + parts.length && at - row !== parts.indexOf(part),
    );
  });
  if (tied) return 'unknown';
  return effectiveDegrees({ U, u: finite.map(({ u }) => u), n: finite.map(({ degrees }) => degrees!) }, about);
}

function ordersOf(parts: readonly Part[], about: string): Orders | undefined {
  const askew = parts.find(({ skew }) => skew !== undefined);
  if (askew === undefined) return undefined;
  const linear = parts.filter((part) => part !== askew).map(({ u }) => u);
  const u = combinedSpread({ u: linear }, `${about}.linear`);
  const values = { u, ...askew.skew! };
  const share = secondOrderShare(values, about);
  return {
    first: firstOrderSpread(values, about),
    second: secondOrderSpread(values, about),
    share,
    meaningless: share.value > meaninglessFrom,
  };
}

// ── correlation ──────────────────────────────────────────────────────────────────────────────────────────────────────

const none = assumed('marks.not_correlated', 0, '1', {
  source: 'judgement',
  because: 'contributions are independent unless said',
});
const itself = assumed('marks.itself', 1, '1', { source: 'definition', because: 'a contribution goes with itself' });

/** A budget with more contributions than this nobody has correlated by hand (our judgement). */
const mostCorrelated = 200;

/** The correlations of the parts, row after row; nothing where the file tells none. */
function correlationsOf({ said, path }: PlacedMark, parts: readonly Part[]): Value<Correlations> | undefined {
  const { correlation } = said;
  if (correlation === undefined || correlation instanceof Missing) return correlation;
  if (parts.length > mostCorrelated)
    return missing(`${path}.correlation`, 'problem', `correlations among ${mostCorrelated} contributions at most`, '');
  return given({ correlation }, (known): Value<Correlations> => {
    const rows = parts.map((_, row) => parts.map((__, column): Quantity<'1'> => (row === column ? itself : none)));
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

/** The same with contributions behind it that go with none. */
function widened(correlations: Correlations, size: number): Correlations {
  const before = Math.round(Math.sqrt(correlations.length));
  return Array.from({ length: size ** 2 }, (_, at) => {
    const [row, column] = [Math.floor(at / size), at % size];
    if (row < before && column < before) return correlations[row * before + column]!;
    return row === column ? itself : none;
  });
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
  return given({ own, cpk: said.proves?.cpk, confidence: said.proves?.confidence }, (wanted): Capability => {
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
    const pieces = piecesToProve({ C: cpk, D: provenCpk, z: confidenceQuantile({ p: confidence }, about) }, about);
    return {
      cp: capability(limits, about),
      cpk,
      outside: outsideLimits({ ...limits, m: offset }, about),
      provenCpk,
      confidence,
      pieces: Number.isFinite(pieces.value) ? pieces : undefined,
    };
  });
}
