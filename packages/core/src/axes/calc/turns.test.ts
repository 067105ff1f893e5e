// Turning points against pieces that are made of them, and against signs of the speed at many points.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { type LawName, lawNames, lawPieces } from './motion-law.ts';
import { rootBetween } from './root.ts';
import { chain, type Piece, stateOf } from './segment.ts';
import { turnsOf } from './turns.ts';

/** The way whose speed is 0 at these times, and nowhere else. */
function turningAt(times: readonly number[], duration_s: number): Piece {
  let speed = [1];
  for (const time of times) speed = [0, ...speed].map((each, power) => each - time * (speed[power] ?? 0));
  return { duration_s, polynomial: [0, ...speed.map((each, power) => each / (power + 1))] };
}

describe('turning points', () => {
  it('are all that there are, however close together: up to six on a piece', () => {
    const random = seeded(3);
    for (let run = 0; run < 500; run++) {
      const times = Array.from({ length: 1 + (run % 6) }, () => 0.01 + 0.98 * random()).toSorted((a, b) => a - b);
      if (times.some((time, at) => at > 0 && time - times[at - 1]! < 0.01)) continue;
      const found = turnsOf(turningAt(times, 1));
      expect(found.length, `run ${run}: ${times}`).toBe(times.length);
      for (const [at, time] of times.entries()) expect(found[at]).toBeCloseTo(time, 8);
    }
  });

  it('are where the speed of a sine on a slope changes its sign', () => {
    const random = seeded(4);
    for (let run = 0; run < 300; run++) {
      const sine = {
        amplitude: 2 * random() - 1,
        rate_rad_per_s: 1 + 20 * random(),
        phase_rad: 7 * random(),
      };
      const piece: Piece = { duration_s: 1, polynomial: [0, 4 * random() - 2, 4 * random() - 2, random()], sine };
      const points = Array.from({ length: 20_001 }, (_, at) => at / 20_000);
      const signs = points.map((t) => Math.sign(stateOf(piece, t).velocity));
      const due = points.filter((_, at) => at > 0 && signs[at] !== signs[at - 1]);
      const found = turnsOf(piece);
      expect(found.length, `run ${run}`).toBe(due.length);
      for (const [at, time] of due.entries()) expect(Math.abs(found[at]! - time)).toBeLessThan(6e-5);
    }
  });

  it.each(lawNames)('are none on a stroke by a law, whatever rounding leaves at its ends: %s', (law: LawName) => {
    for (let seed = 1; seed <= 100; seed++)
      for (const piece of chain(lawPieces(law, (seed % 2 === 0 ? -seed : seed) / 7, Math.sqrt(seed) / 3)))
        expect(turnsOf(piece)).toEqual([]);
  });
});

it('a root is told with as many digits as numbers have, and lies beyond', () => {
  const random = seeded(6);
  for (let run = 0; run < 1000; run++) {
    const root = random();
    const power = 1 + 2 * Math.floor(3 * random());
    let calls = 0;
    const of = (t: number): number => {
      calls++;
      return (t - root) ** power * (1 + random());
    };
    const found = rootBetween(of, [0, 1], [of(0), of(1)]);
    expect(found).toBeGreaterThanOrEqual(root);
    expect(found - root).toBeLessThanOrEqual(2 * Number.EPSILON);
    expect(calls).toBeLessThan(180);
  }
});
