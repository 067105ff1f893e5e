// Register control that corrects a share of the mean of the last n errors it has seen: u(k + 1) = u(k) − K/n·Σ e(k − d − j),
// j = 0 … n − 1. With n = 1 it is the control of `loop.ts`. The characteristic polynomial is z^(d + n − 1)·(z − 1)² + K/n·(z^n − 1),
// but for its root at 1.
import { formula, method } from '../../working/formula.ts';

const loop = {
  symbols: { d: '1', n: '1' },
  means: { d: 'dead time in repeats', n: 'repeats over which the mean is taken' },
} as const;

/** On the unit circle the polynomial has its first root at the angle π/(2·d + n). */
export const filteredLimit = formula({
  ...loop,
  id: 'marks.filter.limit',
  title: 'gain from which on a correction of means swings without end',
  text: '2*n*sin(pi/(2*(2*d + n)))*sin(pi/(2*(2*d + n)))/sin(n*pi/(2*(2*d + n)))',
  gives: '1',
  try: { d: [0, 12, 1], n: [1, 12, 1] },
  source: 'definition',
  proof: 'at the limit of gain the largest root of the filtered loop is on the unit circle',
  of: limitOf,
});

const gain = { K: 'gain', ...loop.means } as const;

/**
 * A mark that is missed with the chance q is one seen with the gain (1 − q)·K and a noise of its own, of the variance
 * q/(1 − q) of what would have been seen: S = M/(1 − q − q·M) for the M of that gain. Infinite beyond the limit.
 */
export const filteredNoise = method({
  id: 'marks.filter.noise',
  title: 'variance of a filtered correction for each of what goes in',
  prose:
    'the squares of the answer to one error, summed; a mark that is missed, each with the same chance, leaves the correction',
  gives: '1',
  symbols: { K: '1', ...loop.symbols, q: '1' },
  means: { ...gain, q: 'share of marks that are missed' },
  source: 'definition',
  proof: 'the filtered loop has the variance of a long run, and without a filter that of the closed form',
  of(K: number, d: number, n: number, q: number) {
    if (!(K >= 0 && d >= 0 && n >= 1 && q >= 0 && q <= 1)) return Number.NaN;
    const mean = K * (1 - q);
    if (mean >= limitOf(d, n)) return Infinity;
    let squares = 0;
    // A pulse of 1 in repeat 0 and nothing before.
    const done = answer({ K: mean, d, n, scatter: (repeat) => (repeat === 0 ? 1 : 0) }, (correction) => {
      squares += correction ** 2;
    });
    if (done === undefined) return Number.NaN;
    const left = 1 - q - q * squares;
    return squares === 0 ? 0 : left > 0 ? squares / left : Infinity;
  },
});

/** Not a number at or beyond the limit, and where more than a hundred thousand repeats would be needed (our judgement). */
export const filteredSettling = method({
  id: 'marks.filter.settling',
  title: 'repeats until a filtered correction has taken a step away',
  prose: 'the error after a step, repeat by repeat, until it stays within the share',
  gives: '1',
  symbols: { K: '1', ...loop.symbols, p: '1' },
  means: { ...gain, p: 'share of the step that may be left' },
  source: 'definition',
  proof: 'a filtered step is settled when all later errors of a long run are within',
  of(K: number, d: number, n: number, p: number) {
    if (!(K > 0 && K < limitOf(d, n) && p > 0)) return Number.NaN;
    let settled = 0;
    const done = answer({ K, d, n, scatter: () => 1 }, (correction, repeat) => {
      if (Math.abs(1 + correction) > p) settled = repeat + 1;
    });
    return done === undefined ? Number.NaN : settled;
  },
});

export interface FilteredRun {
  readonly K: number;
  readonly d: number;
  readonly n: number;
  /** The error of a repeat without correction; nothing before repeat 0. */
  readonly scatter: (repeat: number) => number;
  /** The repeats whose mark is missed: nothing is corrected for them. */
  readonly missed?: (repeat: number) => boolean;
}

/** The correction of each repeat, and how much it moves after it; what was before repeat 0 is nothing. */
export function* corrections({
  K,
  d,
  n,
  scatter,
  missed,
}: FilteredRun): Generator<readonly [correction: number, move: number]> {
  const length = d + n;
  const errors = new Float64Array(length);
  let correction = 0;
  for (let repeat = 0; ; repeat++) {
    errors[repeat % length] = missed?.(repeat) ? 0 : scatter(repeat) + correction;
    let seen = 0;
    for (let j = 0; j < n; j++) if (repeat - d - j >= 0) seen += errors[(repeat - d - j) % length]!;
    const move = (K / n) * seen;
    yield [correction, move];
    correction -= move;
  }
}

/** Takes correction after correction until no move of a whole turn of the memory is worth a billionth of a share; undefined if that does not come. */
function answer(run: FilteredRun, take: (correction: number, repeat: number) => void): true | undefined {
  let [repeat, still] = [0, 0];
  const quiet = 2 * (run.d + run.n);
  for (const [correction, move] of corrections(run)) {
    take(correction, repeat);
    still = Math.abs(move) < 1e-12 && repeat > quiet ? still + 1 : 0;
    if (still > quiet) return true;
    if (++repeat > 1e5) return undefined;
  }
  return undefined;
}

function limitOf(d: number, n: number): number {
  const half = Math.PI / (2 * (2 * d + n));
  return (2 * n * Math.sin(half) ** 2) / Math.sin(n * half);
}
