// Student's t distribution for any number of degrees of freedom, whole or not: its tail and its quantiles.
import { normalQuantile, normalTail } from './normal.ts';
import { exp, log1p } from './same-bits.ts';

/** How much a share from 0 to 1 stays below; relative error under 1e-9. Infinitely many degrees give the normal one. */
export function studentQuantile(share: number, degrees: number): number {
  if (!(share > 0 && share < 1 && degrees > 0)) return Number.NaN;
  if (degrees === Infinity) return normalQuantile(share);
  if (share < 0.5) return -studentQuantile(1 - share, degrees);
  if (degrees > 1e5) return nearlyNormal(normalQuantile(share), degrees);
  const above = 1 - share;
  let [low, high] = [0, 1];
  while (studentTail(high, degrees) > above) [low, high] = [high, 2 * high];
  for (let middle = (low + high) / 2; low < middle && middle < high; middle = (low + high) / 2) {
    if (studentTail(middle, degrees) > above) low = middle;
    else high = middle;
  }
  return high;
}

/** Abramowitz and Stegun, 26.7.5, two terms: what is left out is under 1e-12 from 1e5 degrees on, for up to 8 deviations. */
const nearlyNormal = (z: number, degrees: number): number =>
  z + (z * (z * z + 1)) / (4 * degrees) + (z * ((5 * z * z + 16) * z * z + 3)) / (96 * degrees * degrees);

/** The share above a value that is not negative. */
export function studentTail(t: number, degrees: number): number {
  if (degrees === Infinity) return normalTail(t);
  const a = degrees / 2;
  const [inside, outside] = [degrees / (degrees + t * t), (t * t) / (degrees + t * t)];
  // The power of what is inside, times the root of what is outside, over the beta function of a and one half.
  const scale = exp(-a * log1p((t * t) / degrees)) * Math.sqrt(outside / Math.PI) * gammaRatio(a);
  return t * t > 3 ? (scale * betaFraction(inside, a, 0.5)) / (2 * a) : 0.5 - scale * betaFraction(outside, 0.5, a);
}

/** Γ(a + ½)/Γ(a) without a difference of large numbers: its asymptotic series beyond 50, reached by the recurrence of Γ. */
function gammaRatio(a: number): number {
  let [ratio, x] = [1, a];
  for (; x < 50; x++) ratio *= x / (x + 0.5);
  const series = [1, -1 / 8, 1 / 128, 5 / 1024, -21 / 32768, -399 / 262144];
  return ratio * Math.sqrt(x) * series.reduceRight((sum, coefficient) => sum / x + coefficient, 0);
}

/** The continued fraction of the incomplete beta function (Abramowitz and Stegun 26.5.8), by Lentz's method. */
function betaFraction(x: number, a: number, b: number): number {
  let [c, d] = [1, 1 / (1 - ((a + b) * x) / (a + 1))];
  let value = d;
  for (let m = 1; m < 10_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / (1 + even * d);
    c = 1 + even / c;
    value *= c * d;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / (1 + odd * d);
    c = 1 + odd / c;
    value *= c * d;
    if (Math.abs(c * d - 1) < 1e-15) return value;
  }
  return Number.NaN;
}
