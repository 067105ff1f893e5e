// Register control that corrects a share of what it measures, one repeat after another. With the correction u, the error of
// repeat k is e(k) = w(k) + u(k), and u(k + 1) = u(k) − K·(e(k − d) + n(k − d)): w is the scatter of the product, n the noise
// of measuring, K the gain, d the dead time in repeats. The characteristic polynomial is z^(d + 1) − z^d + K.
import { formula, method } from '../../working/formula.ts';
import { type Root, rootsOf } from './roots.ts';

export interface Loop {
  /** The share of an error that is corrected in each repeat. */
  readonly gain: number;
  /** Repeats of dead time; 0 where the very next repeat is corrected. */
  readonly delay: number;
}

/**
 * The way from the tool to the eye and that in the delays, in repeats; the correction of the very next one is no dead time.
 * A whole number of repeats may come out of the division with a last digit more, which begins no other repeat.
 */
export const loopDelay = method({
  id: 'marks.loop.delay',
  title: 'dead time of a correction, in repeats',
  prose:
    'the way and what the web runs in the time, in repeats begun, less one; what is over by a billionth is rounding',
  gives: '1',
  symbols: { l: 'm', v: 'm/s', t: 's', s: 'm' },
  means: {
    l: 'way from where the correction acts to the eye',
    v: 'speed of the web',
    t: 'time from the eye until the correction acts',
    s: 'repeat',
  },
  source: 'definition',
  proof: 'the first mark that a correction reaches, mark by mark',
  of: (l: number, v: number, t: number, s: number) => Math.max(0, Math.ceil(((l + v * t) / s) * (1 - 1e-9)) - 1),
});

export const gainLimit = formula({
  id: 'marks.loop.limit',
  title: 'gain from which on a correction swings without end',
  text: '2*sin(pi/(2*(2*d + 1)))',
  gives: '1',
  symbols: { d: '1' },
  means: { d: 'dead time in repeats' },
  try: { d: [0, 12, 1] },
  source: 'levin-may',
  proof: 'at the limit of gain the largest root is on the unit circle',
  of: limitOf,
});

/**
 * S = K/(2·ρ − K) with sin(θ/2) = (1 − q)·K/2 and ρ = sin(π/4 − (2d − 1)·θ/4)/sin(π/4 + (2d + 1)·θ/4), the correlation of
 * the correction with itself d repeats before. It follows from the autocovariances r of u, which obey
 * r(j) = r(j − 1) − (1 − q)·K·r(d + 1 − j) and 2·r(d) = K·(r(0) + variance in). Infinite beyond the limit of gain.
 */
export const loopNoise = method({
  id: 'marks.loop.noise',
  title: 'variance of the correction for each of what goes in',
  prose:
    'closed form of white noise through the loop; a mark that is missed, each with the same chance, leaves the correction',
  gives: '1',
  symbols: { K: '1', d: '1', q: '1' },
  means: { K: 'gain', d: 'dead time in repeats', q: 'share of marks that are missed' },
  source: 'definition',
  proof: 'the variance in closed form is that of the impulse response, of a trial and of a run with missed marks',
  of(K: number, d: number, q: number) {
    if (!(K >= 0 && d >= 0 && q >= 0 && q <= 1)) return Number.NaN;
    const mean = K * (1 - q);
    if (mean === 0) return 0;
    if (mean >= limitOf(d)) return Infinity;
    const quarter = Math.asin(mean / 2) / 2;
    const own = Math.sin(Math.PI / 4 - (2 * d - 1) * quarter) / Math.sin(Math.PI / 4 + (2 * d + 1) * quarter);
    return 2 * own > K ? K / (2 * own - K) : Infinity;
  },
});

/** Scatter that is new in each repeat no correction takes away: it only adds to it. */
export const correctedSpread = formula({
  id: 'marks.loop.spread',
  title: 'standard deviation of the corrected error',
  text: 'sqrt(w^2*(1 + S) + n^2*S)',
  gives: 'm',
  symbols: { w: 'm', S: '1', n: 'm' },
  means: {
    w: 'standard deviation of the product from repeat to repeat',
    S: 'variance of the correction for each of what goes in',
    n: 'standard deviation of measuring',
  },
  try: { w: [1e-6, 1e-3], S: [0.01, 5], n: [1e-6, 1e-3] },
  source: 'definition',
  proof: 'the variance in closed form is that of the impulse response, of a trial and of a run with missed marks',
  of: (w: number, S: number, n: number) => Math.sqrt(w ** 2 * (1 + S) + n ** 2 * S),
});

/** Taken of all that scatters from repeat to repeat, as if each of it were both measured and of the product. */
export const addedSpread = formula({
  id: 'marks.loop.added',
  title: 'standard deviation that a correction adds',
  text: 'sqrt(S)*u',
  gives: 'm',
  symbols: { S: '1', u: 'm' },
  means: {
    S: 'variance of the correction for each of what goes in',
    u: 'standard deviation of all that scatters from repeat to repeat',
  },
  try: { S: [0.01, 5], u: [1e-6, 1e-3] },
  source: 'definition',
  proof: 'what a correction adds is what its spread has more than the product',
  of: (S: number, u: number) => Math.sqrt(S) * u,
});

/** What the web needs. */
export const settlingWeb = formula({
  id: 'marks.loop.web',
  title: 'web that runs until a splice is corrected',
  text: 'k*s',
  gives: 'm',
  symbols: { k: '1', s: 'm' },
  means: { k: 'repeats until it is corrected', s: 'repeat' },
  try: { k: [1, 100, 1], s: [0.05, 2] },
  source: 'definition',
  proof: 'what a correction adds is what its spread has more than the product',
  of: (k: number, s: number) => k * s,
});

export const splicedShare = formula({
  id: 'marks.loop.left',
  title: 'share of a splice that the tolerance leaves',
  text: 'T/e',
  gives: '1',
  symbols: { T: 'm', e: 'm' },
  means: { T: 'tolerance to either side', e: 'error that the splice brings' },
  try: { T: [1e-5, 1e-3], e: [1e-3, 1e-2] },
  source: 'definition',
  proof: 'what a correction adds is what its spread has more than the product',
  of: (T: number, e: number) => T / e,
});

/** Missed marks leave the correction as it is: in the mean they make the gain smaller. */
export const meanGain = formula({
  id: 'marks.loop.mean_gain',
  title: 'gain in the mean where marks are missed',
  text: 'K*(1 - q)',
  gives: '1',
  symbols: { K: '1', q: '1' },
  means: { K: 'gain', q: 'share of marks that are missed' },
  try: { K: [0.05, 1.5], q: [0.01, 0.5] },
  source: 'definition',
  proof: 'in the mean missed marks settle as a gain that is smaller by their share',
  of: (K: number, q: number) => K * (1 - q),
});

/**
 * With a share q of missed marks the mean settles as with the gain (1 − q)·K. Not a number at or beyond the limit of gain, and
 * where more than a million repeats would be needed (our judgement).
 */
export const loopSettling = method({
  id: 'marks.loop.settling',
  title: 'repeats until a step is corrected',
  prose: 'the error after a step, repeat by repeat, until it stays within the share',
  gives: '1',
  symbols: { K: '1', d: '1', p: '1' },
  means: { K: 'gain', d: 'dead time in repeats', p: 'share of the step that may be left' },
  source: 'definition',
  proof: 'a step is settled when all later errors of a long run are within',
  of(K: number, d: number, p: number) {
    if (!(K > 0 && K < limitOf(d) && p > 0)) return Number.NaN;
    // Before the step nothing is measured; from then on the error is e(k + 1) = e(k) − K·e(k − d).
    const last: number[] = Array(d + 1).fill(0);
    let [error, peak, settled] = [1, 1, 0];
    for (let repeat = 0; repeat < 1e6; repeat++) {
      peak = Math.max(peak, Math.abs(error));
      if (Math.abs(error) > p) settled = repeat + 1;
      last[repeat % (d + 1)] = error;
      // No later error is larger than the largest of the last d + 1, times the peak of the answer, times 1 + K·d.
      if (Math.max(...last.map(Math.abs)) * peak * (1 + K * d) <= p) return settled;
      error -= K * last[(repeat + 1) % (d + 1)]!;
    }
    return Number.NaN;
  },
});

/** The roots of the characteristic polynomial; the largest in size is what an error keeps of itself in each repeat. */
export function loopRoots({ gain, delay }: Loop): readonly Root[] {
  const coefficients = [1, -1, ...Array<number>(delay).fill(0)];
  coefficients[delay + 1]! += gain;
  return rootsOf(coefficients);
}

export interface LoopRun extends Loop {
  /** The error of each repeat without correction. */
  readonly scatter: ArrayLike<number>;
  /** What each measurement is off by. */
  readonly noise?: ArrayLike<number>;
  /** The repeats whose mark is missed: the correction stays as it is. */
  readonly missed?: (repeat: number) => boolean;
}

/** The error of each repeat of a run that starts without correction. */
export function loopErrors({ gain, delay, scatter, noise, missed }: LoopRun): Float64Array {
  const errors = new Float64Array(scatter.length);
  let correction = 0;
  for (let repeat = 0; repeat < errors.length; repeat++) {
    errors[repeat] = scatter[repeat]! + correction;
    const seen = repeat - delay;
    if (seen >= 0 && !missed?.(seen)) correction -= gain * (errors[seen]! + (noise?.[seen] ?? 0));
  }
  return errors;
}

function limitOf(d: number): number {
  return 2 * Math.sin(Math.PI / (2 * (2 * d + 1)));
}
