// How many of many frames are lost by chance, and what a count of them proves: tails of the binomial distribution, all of
// them sums of positive terms, and the interval of Clopper and Pearson.
import { method } from '../../working/formula.ts';
import { mustBeCount, mustBeProbability } from './probability.ts';

export const lossAtLeast = method({
  id: 'networks.count.loss_at_least',
  title: 'smallest loss that a count of losses allows',
  prose: 'the probability with which as many losses or more come up with a chance of (1 − c)/2',
  gives: '1',
  symbols: { k: '1', n: '1', c: '1' },
  means: { k: 'losses counted', n: 'frames counted', c: 'confidence' },
  source: 'clopper-pearson',
  proof: 'tails in exact fractions',
  of: (k: number, n: number, c: number) => lossInterval(k, n, c).least,
});

export const lossAtMost = method({
  id: 'networks.count.loss_at_most',
  title: 'largest loss that a count of losses allows',
  prose: 'the probability with which as many losses or fewer come up with a chance of (1 − c)/2',
  gives: '1',
  symbols: { k: '1', n: '1', c: '1' },
  means: { k: 'losses counted', n: 'frames counted', c: 'confidence' },
  source: 'clopper-pearson',
  proof: 'tails in exact fractions',
  of: (k: number, n: number, c: number) => lossInterval(k, n, c).most,
});

export interface LossInterval {
  readonly least: number;
  readonly most: number;
}

/**
 * The interval of Clopper and Pearson: it covers the true loss with the confidence or more, whatever that loss is. Throws a
 * RangeError for counts that cannot be and a confidence that is not between 0 and 1.
 */
export function lossInterval(losses: number, frames: number, confidence: number): LossInterval {
  mustBeCounts(losses, frames);
  if (!(confidence > 0 && confidence < 1)) throw new RangeError(`a confidence of ${confidence}`);
  const tail = (1 - confidence) / 2;
  const counted = losses / frames;
  return {
    least: losses === 0 ? 0 : between(0, counted, (loss) => chanceOfAtLeast(losses, frames, loss) < tail),
    most: losses === frames ? 1 : between(counted, 1, (loss) => chanceOfAtMost(losses, frames, loss) > tail),
  };
}

/** Probability of so many losses or more among so many frames. */
export function chanceOfAtLeast(losses: number, frames: number, loss: number): number {
  mustBeCounts(losses, frames);
  mustBeProbability(loss, 'a loss');
  if (losses === 0) return 1;
  if (losses <= frames * loss) return 1 - chanceOfAtMost(losses - 1, frames, loss);
  return tailFrom(losses, frames, loss, 1 - loss);
}

/** Probability of so many losses or fewer among so many frames. */
export function chanceOfAtMost(losses: number, frames: number, loss: number): number {
  mustBeCounts(losses, frames);
  mustBeProbability(loss, 'a loss');
  if (losses === frames) return 1;
  if (losses < frames * loss) return tailFrom(frames - losses, frames, 1 - loss, loss);
  return 1 - chanceOfAtLeast(losses + 1, frames, loss);
}

/** Of what has the chance p, and else q, so many or more: terms beyond the mean, each smaller than the one before. */
function tailFrom(count: number, of: number, p: number, q: number): number {
  let [sum, term] = [1, 1];
  for (let each = count; each < of && term > sum * 1e-17; each++) {
    term *= ((of - each) * p) / ((each + 1) * q);
    sum += term;
  }
  return chanceOf(count, of, p, q) * sum;
}

/** Probability of just so many, without factorials that cancel (Loader 2000, from memory). */
function chanceOf(count: number, of: number, p: number, q: number): number {
  if (p === 0) return Number(count === 0);
  const rest = of - count;
  if (rest === 0) return p < q ? p ** of : Math.exp(of * Math.log1p(-q));
  const deviance = farFrom(count, of * p) + farFrom(rest, of * q);
  const series = stirlingRest(of) - stirlingRest(count) - stirlingRest(rest);
  return Math.exp(series - deviance) * Math.sqrt(of / (2 * Math.PI * count * rest));
}

/** x·ln(x/m) + m − x, by its series where x is near to m. */
function farFrom(x: number, m: number): number {
  const v = (x - m) / (x + m);
  if (Math.abs(v) > 0.1) return x * Math.log(x / m) + m - x;
  let [sum, power] = [(x - m) * v, 2 * x * v];
  for (let odd = 3; ; odd += 2) {
    power *= v * v;
    const next = sum + power / odd;
    if (next === sum) return sum;
    sum = next;
  }
}

/** ln n! less n·ln n − n + ½·ln(2πn): by its series, below 16 from the terms themselves. */
function stirlingRest(n: number): number {
  if (n < 16) {
    let logarithm = 0;
    for (let each = 2; each <= n; each++) logarithm += Math.log(each);
    return logarithm - (n + 0.5) * Math.log(n) + n - 0.5 * Math.log(2 * Math.PI);
  }
  const square = n * n;
  return (1 / 12 - (1 / 360 - (1 / 1260 - (1 / 1680 - 1 / 1188 / square) / square) / square) / square) / n;
}

/** Where what is true below is no longer so, to the last digit but a few. */
function between(low: number, high: number, isBelow: (at: number) => boolean): number {
  for (;;) {
    const middle = low > 0 ? Math.sqrt(low) * Math.sqrt(high) : high / 1024;
    if (low > 0 && high / low < 1 + 1e-14) return middle;
    if (middle === 0) return 0;
    if (isBelow(middle)) low = middle;
    else high = middle;
  }
}

function mustBeCounts(losses: number, frames: number): void {
  mustBeCount(frames, 1, 'the number of frames');
  mustBeCount(losses, 0, 'the number of losses');
  if (losses > frames) throw new RangeError(`${losses} losses among ${frames} frames`);
}
