// The largest of many lines against looking at each.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { farthestOut, highestAt } from './outermost-lines.ts';

describe('outermost lines', () => {
  it('give the largest of all lines, whatever their signs', () => {
    const random = seeded(31);
    for (let round = 0; round < 300; round++) {
      const count = 1 + Math.floor(40 * random());
      const some = () =>
        Float64Array.from({ length: count }, () => (random() < 0.3 ? Math.round(3 * random()) : 2 * random() - 1));
      const [slopes, starts] = [some(), some()];
      const lines = farthestOut(slopes, starts);
      for (const x of [0, 1e-6, 0.3 * random(), random(), 10 * random(), 1e6]) {
        const due = Math.max(...Array.from(slopes, (slope, at) => Math.abs(starts[at]! + slope * x)));
        expect(highestAt(lines, x) / (due || 1)).toBeCloseTo(due === 0 ? 0 : 1, 12);
      }
    }
  });

  it('are few, and none where there is none', () => {
    const turns = Float64Array.from({ length: 1000 }, (_, at) => Math.sin(at));
    expect(farthestOut(turns, turns).slopes.length).toBeLessThan(4);
    expect(highestAt(farthestOut(new Float64Array(0), new Float64Array(0)), 1)).toBe(0);
  });
});
