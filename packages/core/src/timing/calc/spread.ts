// How the delay of a chain spreads, exactly: a sum of independent delays, each even over a stretch or over several, has a
// distribution of polynomials between breakpoints. Each convolution integrates it once; narrow parts go first, so that the
// difference of two integrals is never small against them, and 16 parts keep twelve digits.
import { clockOf, type Link, lockedStages, partsOf } from './chain.ts';
import { type DelayStretch, stretchesOf } from './reaction.ts';

/** A delay, in whole picoseconds, that is even over each of its stretches; their shares make 1. */
export type DelayPart = readonly DelayStretch[];

export const constantDelay = (delay_ps: number): DelayPart => evenDelay(delay_ps, delay_ps);
export const evenDelay = (least_ps: number, most_ps: number): DelayPart => [{ least_ps, most_ps, share: 1 }];

/** The share of all delays up to a delay: 0 before the first breakpoint, 1 from the last on. */
export interface Spread {
  readonly breaks_ps: readonly number[];
  /** Between a breakpoint and the next, in powers of the time since the breakpoint. */
  readonly pieces: readonly (readonly number[])[];
}

/** Twice as many pieces as 16 parts of different widths have: our judgement, some tenths of a second. */
const mostPieces = 131_072;

/** The spread of a sum of independent parts; undefined where it would have more than 131 072 pieces. */
export function spreadOf(parts: readonly DelayPart[]): Spread | undefined {
  let spread: Spread | undefined = { breaks_ps: [0], pieces: [] };
  for (const part of parts.toSorted((a, b) => widthOf(a) - widthOf(b))) {
    spread = spread && convolved(spread, part);
  }
  return spread;
}

/**
 * The parts of the delay of a chain whose cause comes at any instant and whose free links have independent phases, all
 * equally likely; a link whose answer takes between least and most is taken to be even between them. Undefined where that
 * is not enough to know: a link with another clock between links that share one, a link whose jitter decides in which period the next
 * one looks, or a clock that repeats too late.
 */
export function delayPartsOf(links: readonly Link[]): readonly DelayPart[] | undefined {
  const parts = partsOf(links);
  const clocks = parts.flatMap((part) => ('run' in part ? [clockOf(part.run[0]!)] : []));
  if (new Set(clocks).size < clocks.length) return undefined;
  const delays: DelayPart[] = [];
  for (const part of parts) {
    if ('run' in part) {
      const looked = lookedThrough(part.run);
      if (looked === undefined) return undefined;
      delays.push(looked);
    } else if (part.kind === 'sampled') delays.push(evenDelay(0, part.period_ps));
    const { least_ps, most_ps } = 'run' in part ? part.run.at(-1)! : part;
    delays.push(evenDelay(least_ps, most_ps));
  }
  return delays;
}

/** The share of all delays up to this one. */
export function shareUpTo({ breaks_ps, pieces }: Spread, delay_ps: number): number {
  const at = placeIn(breaks_ps, delay_ps);
  if (at < 0) return 0;
  return at >= pieces.length ? 1 : valueAt(pieces[at]!, delay_ps - breaks_ps[at]!);
}

/** The least delay up to which this share of all is, from 0 to 1, to a picosecond or the last digit of the share. */
export function quantile_ps(spread: Spread, share: number): number {
  if (!(share >= 0 && share <= 1)) throw new RangeError(`a share of ${share}`);
  let [low, high] = [spread.breaks_ps[0]!, spread.breaks_ps.at(-1)!];
  if (share === 0) return low;
  if (shareUpTo(spread, low) >= share) return low;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    // Over 2^53 ps there is no whole picosecond between.
    if (middle <= low || middle >= high) break;
    if (shareUpTo(spread, middle) >= share) high = middle;
    else low = middle;
  }
  return high;
}

/** The share of the delays in each of so many bins of one width, between the least and the longest delay. */
export function delayHistogram(spread: Spread, bins: number): readonly number[] {
  const [low, high] = [spread.breaks_ps[0]!, spread.breaks_ps.at(-1)!];
  if (low === high) return Array.from({ length: bins }, (_, bin) => (bin === 0 ? 1 : 0));
  const upTo = Array.from({ length: bins + 1 }, (_, bin) =>
    bin === 0 ? 0 : shareUpTo(spread, low + ((high - low) * bin) / bins),
  );
  return upTo.slice(1).map((share, bin) => share - upTo[bin]!);
}

/**
 * From the cause to the last look of a run, as if that came in time; undefined where jitter, or a look that comes late,
 * decides in which period that is.
 */
function lookedThrough(run: readonly Link[]): DelayPart | undefined {
  const last = run.at(-1)!;
  const looks = { ...last, least_ps: 0, most_ps: 0 };
  // How late the only look comes is a part of what it takes.
  const bare = run.length === 1 ? [{ ...looks, late_ps: 0 }] : [...run.slice(0, -1), looks];
  const [quickest, slowest] = [lockedStages(bare, 'least_ps'), lockedStages(bare, 'most_ps')];
  if (quickest === undefined || slowest === undefined) return undefined;
  const part = stretchesOf(quickest.stages, quickest.period_ps);
  const other = stretchesOf(slowest.stages, slowest.period_ps);
  return part.every(({ least_ps }, at) => least_ps === other[at]!.least_ps) ? merged(part) : undefined;
}

/** Stretches that are the same become one, of the share of all. */
export function merged(part: DelayPart): DelayPart {
  const shares = new Map<string, DelayStretch>();
  for (const { least_ps, most_ps, share } of part) {
    const key = `${least_ps} ${most_ps}`;
    shares.set(key, { least_ps, most_ps, share: share + (shares.get(key)?.share ?? 0) });
  }
  return [...shares.values()];
}

const widthOf = (part: DelayPart): number =>
  Math.max(...part.map((stretch) => stretch.most_ps)) - Math.min(...part.map((stretch) => stretch.least_ps));

function convolved(spread: Spread, part: DelayPart): Spread | undefined {
  const shifts = [...new Set(part.flatMap(({ least_ps, most_ps }) => [least_ps, most_ps]))];
  if (spread.breaks_ps.length * shifts.length > 4 * mostPieces) return undefined;
  const breaks = [...new Set(spread.breaks_ps.flatMap((at) => shifts.map((shift) => at + shift)))].sort(
    (a, b) => a - b,
  );
  if (breaks.length > mostPieces + 1) return undefined;
  const integral = integralOf(spread);
  const pieces = breaks.slice(0, -1).map((from) => {
    const piece: number[] = [];
    for (const { least_ps, most_ps, share } of part) {
      if (least_ps === most_ps) addTo(piece, share, expandedAt(spread, from - least_ps, [1]));
      else {
        const density = share / (most_ps - least_ps);
        addTo(piece, density, expandedAt(integral, from - least_ps, [integral.after(from - least_ps), 1]));
        addTo(piece, -density, expandedAt(integral, from - most_ps, [integral.after(from - most_ps), 1]));
      }
    }
    return piece;
  });
  return { breaks_ps: breaks, pieces };
}

/** The integral of a spread from before its first breakpoint, and its value behind the last. */
function integralOf({ breaks_ps, pieces }: Spread): Spread & { readonly after: (at_ps: number) => number } {
  let sum = 0;
  const integrals = pieces.map((piece, at) => {
    const integral = [sum, ...piece.map((coefficient, power) => coefficient / (power + 1))];
    sum = valueAt(integral, breaks_ps[at + 1]! - breaks_ps[at]!);
    return integral;
  });
  const end = breaks_ps.at(-1)!;
  return { breaks_ps, pieces: integrals, after: (at_ps) => sum + (at_ps - end) };
}

/** The polynomial around an instant that goes on to the next breakpoint; `after` behind the last, nothing before the first. */
function expandedAt({ breaks_ps, pieces }: Spread, at_ps: number, after: readonly number[]): readonly number[] {
  const place = placeIn(breaks_ps, at_ps);
  if (place < 0) return [];
  if (place >= pieces.length) return after;
  const piece = [...pieces[place]!];
  const step = at_ps - breaks_ps[place]!;
  // Horner's scheme, once for each power.
  if (step > 0)
    for (let from = 0; from < piece.length - 1; from++)
      for (let power = piece.length - 2; power >= from; power--) piece[power]! += step * piece[power + 1]!;
  return piece;
}

function addTo(sum: number[], factor: number, piece: readonly number[]): void {
  piece.forEach((coefficient, power) => {
    sum[power] = (sum[power] ?? 0) + factor * coefficient;
  });
}

const valueAt = (piece: readonly number[], x: number): number =>
  piece.reduceRight((value, coefficient) => value * x + coefficient, 0);

/** The last breakpoint at or before an instant; −1 before the first. */
function placeIn(breaks: readonly number[], at: number): number {
  let [low, high] = [-1, breaks.length];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (breaks[middle]! <= at) low = middle;
    else high = middle;
  }
  return low;
}
