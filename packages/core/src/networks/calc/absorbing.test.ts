// Chains that are left against the same chains walked step by step, and in exact fractions.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { type AbsorbingChain, leftWithin, meanSteps, stepsUntil } from './absorbing.ts';

function randomChain(seed: number): AbsorbingChain {
  const random = seeded(seed);
  const size = 1 + Math.floor(5 * random());
  const shares = (count: number): number[] => {
    const weights = Array.from({ length: count }, () => 0.03 + random() ** 3);
    const all = weights.reduce((sum, weight) => sum + weight, 0);
    return weights.map((weight) => weight / all);
  };
  const rows = Array.from({ length: size }, () => shares(size + 1));
  return { start: shares(size), stays: rows.map((row) => row.slice(0, size)), leaves: rows.map((row) => row[size]!) };
}

/** Share that has left by each step, one vector times the matrix after another. */
function* walked({ start, stays, leaves }: AbsorbingChain): Generator<number> {
  let here = start;
  for (let left = 0; ; ) {
    yield left;
    left += here.reduce((sum, share, state) => sum + share * leaves[state]!, 0);
    here = here.map((_, to) => here.reduce((sum, share, from) => sum + share * stays[from]![to]!, 0));
  }
}

const chains = Array.from({ length: 40 }, (_, seed) => randomChain(seed));

describe('a chain that is left', () => {
  it('step by step: as likely within any number of steps, and as late', () => {
    for (const chain of chains) {
      let [mean, step, until] = [0, 0, 0];
      for (const left of walked(chain)) {
        if (step < 40) expect(leftWithin(chain, step)).toBeCloseTo(left, 13);
        if (left < 0.3) until = step + 1;
        if (left > 1 - 1e-14) break;
        step++;
        mean += 1 - left;
      }
      expect(stepsUntil(chain, 0.3)).toBe(until);
      expect(meanSteps(chain) / mean).toBeCloseTo(1, 9);
    }
  });

  it('keeps its digits after a billion steps with a chance of 1e-30 each', () => {
    const rare = (leave: number): AbsorbingChain => ({
      start: [1, 0],
      stays: [
        [0.3, 0.7],
        [0.6 - leave, 0.4],
      ],
      leaves: [0, leave],
    });
    // Of the long run 7/13 are in the second state; the first steps from the start on are fewer there by 0.7/1.3².
    expect(leftWithin(rare(1e-30), 1e9) / ((7 / 13) * 1e-21)).toBeCloseTo(1, 8);
    expect(meanSteps(rare(1e-30)) / ((13 / 7) * 1e30)).toBeCloseTo(1, 12);
    expect(stepsUntil(rare(1e-12), 0.5) / ((13 / 7) * 1e12 * Math.LN2)).toBeCloseTo(1, 9);
  });

  it('is not left where nothing leaves', () => {
    const closed: AbsorbingChain = { start: [1], stays: [[1]], leaves: [0] };
    expect(leftWithin(closed, 1e12)).toBe(0);
    expect(meanSteps(closed)).toBe(Infinity);
    expect(stepsUntil(closed, 0.5)).toBe(Infinity);
    expect(() => leftWithin(closed, 0.5)).toThrow('0.5 steps');
    expect(() => stepsUntil(closed, 1)).toThrow('a share of 1');
  });
});
