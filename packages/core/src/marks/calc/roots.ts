// All roots of a polynomial at once.

export interface Root {
  readonly real: number;
  readonly imaginary: number;
}

/**
 * The roots of a polynomial with real coefficients, highest power first, by the method of Weierstrass (Durand and Kerner):
 * single roots to the last digits, double ones to about half of them. Throws where the first coefficient is 0, and where the
 * roots do not settle.
 */
export function rootsOf(coefficients: readonly number[]): readonly Root[] {
  const [first = 0, ...rest] = coefficients;
  if (!(Math.abs(first) > 0 && rest.every(Number.isFinite)))
    throw new RangeError('a polynomial without a highest power');
  const monic = rest.map((each) => each / first);
  const bound = 1 + Math.max(0, ...monic.map(Math.abs));
  const real = monic.map((_, at) => bound * Math.cos((2 * Math.PI * at) / monic.length + 0.4));
  const imaginary = monic.map((_, at) => bound * Math.sin((2 * Math.PI * at) / monic.length + 0.4));
  for (let round = 0; round < 1000; round++) {
    let moved = 0;
    for (let at = 0; at < monic.length; at++) {
      const [x, y] = [real[at]!, imaginary[at]!];
      let [a, b] = [1, 0];
      for (const coefficient of monic) [a, b] = [a * x - b * y + coefficient, a * y + b * x];
      for (let other = 0; other < monic.length; other++) {
        if (other === at) continue;
        const [p, q] = [x - real[other]!, y - imaginary[other]!];
        const size = p * p + q * q;
        if (size > 0) [a, b] = [(a * p + b * q) / size, (b * p - a * q) / size];
      }
      real[at] = x - a;
      imaginary[at] = y - b;
      moved = Math.max(moved, Math.hypot(a, b) / Math.max(1e-3, Math.hypot(x, y)));
    }
    if (moved < 1e-14) return real.map((x, at) => ({ real: x, imaginary: imaginary[at]! }));
    // Double roots wander in their last digits.
    if (round > 300 && moved < 1e-6) return real.map((x, at) => ({ real: x, imaginary: imaginary[at]! }));
  }
  throw new RangeError('roots that do not settle');
}
