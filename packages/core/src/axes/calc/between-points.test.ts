// What a curve does between the points at which it is known, against the curve itself at many points.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { betweenPoints } from './between-points.ts';
import { gaussLegendre } from './integral.ts';

const valueAt = (coefficients: readonly number[], x: number): number =>
  coefficients.reduceRight((value, each) => value * x + each, 0);

describe.each([3, 5, 7])('a polynomial through the points of a rule of %d', (count) => {
  const { points, swelling, mayFall } = betweenPoints(gaussLegendre(count));
  const random = seeded(count);
  const some = () => points.map(() => 2 * random() - 1);
  const fine = Array.from({ length: 2001 }, (_, at) => at / 1000 - 1);

  it('never falls below 0 where it is said not to, and is said to where it does', () => {
    const seen = { said: 0, not: 0 };
    for (let run = 0; run < 3000; run++) {
      const curve = some();
      // Lifted until it stands on or a little over its lowest point that is met.
      const lowest = Math.min(...points.map((x) => valueAt(curve, x)));
      const lifted = curve.map((each, power) => (power === 0 ? each - lowest + random() * 0.3 : each));
      const falls = Math.min(...fine.map((x) => valueAt(lifted, x))) < -1e-9;
      const said = mayFall(
        points.map((x) => valueAt(lifted, x)),
        1e-9,
      );
      if (falls) expect(said, `run ${run}`).toBe(true);
      seen[said ? 'said' : 'not']++;
    }
    expect(Math.min(seen.said, seen.not)).toBeGreaterThan(100);
  });

  it('leaves the middle of its values by no more than is said', () => {
    for (let run = 0; run < 1000; run++) {
      const curve = some();
      const values = points.map((x) => valueAt(curve, x));
      const [least, most] = [Math.min(...values), Math.max(...values)];
      const highest = Math.max(...fine.map((x) => Math.abs(valueAt(curve, x) - (least + most) / 2)));
      expect(highest).toBeLessThanOrEqual((swelling * (most - least)) / 2);
    }
  });
});
