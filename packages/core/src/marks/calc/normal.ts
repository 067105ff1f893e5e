// The normal distribution: the share beyond a limit, and the limit of a share, without tables.
import { exp, log } from './same-bits.ts';

/**
 * The complementary error function, relative error under 1e-12: near zero by the series of erf whose terms all have one sign
 * (Abramowitz and Stegun, Handbook of Mathematical Functions, 7.1.6), beyond 2 by its continued fraction (7.1.14).
 */
export function erfc(x: number): number {
  if (Number.isNaN(x)) return Number.NaN;
  if (x < 0) return 2 - erfc(-x);
  if (x > 27) return 0;
  const scale = exp(-x * x) / Math.sqrt(Math.PI);
  if (x < 2) {
    let [term, sum] = [x, x];
    for (let n = 1; term > 1e-17 * sum; n++) {
      term *= (2 * x * x) / (2 * n + 1);
      sum += term;
    }
    return 1 - 2 * scale * sum;
  }
  let fraction = x;
  for (let n = 80; n > 0; n--) fraction = x + n / 2 / fraction;
  return scale / fraction;
}

/** The share of a normal distribution above so many standard deviations. */
export const normalTail = (deviations: number): number => erfc(deviations / Math.SQRT2) / 2;

/**
 * How many standard deviations a share from 0 to 1 stays below; −∞ and ∞ at the ends, not a number outside them. The first
 * guess is Abramowitz and Stegun 26.2.23, good to 4.5e-4; Halley's method then takes it to 1e-14 of its size.
 */
export function normalQuantile(share: number): number {
  if (!(share >= 0 && share <= 1)) return Number.NaN;
  if (share === 0 || share === 1) return share === 0 ? -Infinity : Infinity;
  if (share > 0.5) return -normalQuantile(1 - share);
  const r = Math.sqrt(-2 * log(share));
  let z = r - (2.515517 + r * (0.802853 + r * 0.010328)) / (1 + r * (1.432788 + r * (0.189269 + r * 0.001308)));
  for (let step = 0; step < 3; step++) {
    const off = (normalTail(z) - share) * Math.sqrt(2 * Math.PI) * exp((z * z) / 2);
    z += off / (1 + (z * off) / 2);
  }
  return -z;
}
