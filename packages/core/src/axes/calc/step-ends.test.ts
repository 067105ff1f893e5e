// Where a piece is cut: every edge that the tool passes and every turn of it, each told from its closed form.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { PlacedLoad, PlainLine } from './drive-line.ts';
import { lawPieces } from './motion-law.ts';
import { phaseDemand } from './phase-torque.ts';
import { chain, type Segment } from './segment.ts';
import { cuttingOf, stepEnds } from './step-ends.ts';

const none = { against: 0, friction: 0, inertia: 0, swing: 0 };

/** A load between two edges on each pitch. */
const notched = (pitch: number, over: number, friction_Nm: number): PlacedLoad => ({
  at: (position) =>
    position - pitch * Math.floor(position / pitch) < over ? { ...none, friction: friction_Nm } : none,
  bends: false,
  edges: (low, high) => {
    const found: number[] = [];
    for (let at = Math.floor(low / pitch); at * pitch < high; at++)
      found.push(...[at * pitch, at * pitch + over].filter((edge) => edge > low && edge < high));
    return found;
  },
});

const lineWith = (placed: readonly PlacedLoad[], ratio = 1): PlainLine => ({
  stages: [
    {
      ratio,
      inertia: 0,
      constant: 0,
      coulomb: 0,
      viscous: 0,
      breakaway: 0,
      placed,
      pass: 1,
      driving: 1,
      driven: 1,
    },
  ],
  lossOnInertia: true,
});

const grid = { from: 0, begun_s: 0, bent: 4, straight: 1 };
const only = (pieces: Parameters<typeof chain>[0]): Segment => chain(pieces)[0]!;

describe('where a piece is cut', () => {
  it('at every edge that is passed, however many stand between two even steps', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 3, noNaN: true }),
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        fc.double({ min: 0.1, max: 4, noNaN: true }),
        fc.double({ min: -5, max: 5, noNaN: true }),
        (pitch, part, speed, from) => {
          const load = notched(pitch, part * pitch, 1);
          const piece = only([{ duration_s: 2, polynomial: [0, speed] }]);
          const ends = stepEnds(piece, cuttingOf(lineWith([load], 3)), { ...grid, from });
          const due = load.edges!(3 * from, 3 * (from + 2 * speed)).map((edge) => (edge / 3 - from) / speed);
          expect(ends.length).toBe(due.length + 2);
          const off = due.reduce((most, t, at) => Math.max(most, Math.abs(ends[at + 1]! - t)), 0);
          expect(off).toBeLessThan(1e-12 * (10 / speed));
        },
      ),
      { seed: 8, numRuns: 300 },
    );
  });

  it('at the times of a load in the cycle, and not at those of other pieces', () => {
    const load: PlacedLoad = { at: () => none, bends: false, times: [0.5, 1.25, 1.5, 7] };
    const piece = only([{ duration_s: 1, polynomial: [0, 1] }]);
    expect(stepEnds(piece, cuttingOf(lineWith([load])), { ...grid, begun_s: 1 })).toEqual([0, 0.25, 0.5, 1]);
  });

  it('where the tool turns round, and at an edge both on its way there and back', () => {
    const piece = only([{ duration_s: 3, polynomial: [0, 1, -0.5] }]);
    const [start, there, turn, back, past, end] = stepEnds(piece, cuttingOf(lineWith([notched(10, 0.25, 1)])), grid);
    expect([start, end]).toEqual([0, 3]);
    // s(t) = t − t²/2 is 0.25 at 1 ± √½, has its top at 1, and is 0 again at 2.
    expect(there).toBeCloseTo(1 - Math.SQRT1_2, 12);
    expect(turn).toBeCloseTo(1, 12);
    expect(back).toBeCloseTo(1 + Math.SQRT1_2, 12);
    expect(past).toBeCloseTo(2, 12);
  });

  it.each(['polynomial_345', 'polynomial_4567', 'cycloidal', 'modified_sine'] as const)(
    'not where the rounding of a speed at rest has another sign: %s',
    (law) => {
      for (let seed = 1; seed <= 200; seed++) {
        for (const piece of chain(lawPieces(law, seed / 7, Math.sqrt(seed) / 3))) {
          const ends = stepEnds(piece, cuttingOf(lineWith([])), grid);
          const widths = ends.slice(1).map((to, at) => to - ends[at]!);
          expect(Math.min(...widths)).toBeGreaterThan(0.1 * Math.max(...widths));
        }
      }
    },
  );
});

describe('the effective torque of a knife', () => {
  it.each([1, 2, 7, 8, 9, 12, 24, 60, 400])('is exact with %d blades', (blades) => {
    const pitch = (2 * Math.PI) / blades;
    const load = notched(pitch, 0.3 * pitch, 12);
    const motion = chain([{ duration_s: 1, polynomial: [0, 2 * Math.PI] }]);
    const { squared, given_J } = phaseDemand(lineWith([load]), { motion, from: 0, start_s: 0, rising_per_s: 0 });
    expect(squared / (0.3 * 144)).toBeCloseTo(1, 9);
    expect(given_J / (0.3 * 12 * 2 * Math.PI)).toBeCloseTo(1, 9);
  });
});

describe('what is given and what is taken back', () => {
  it('are both told where the torque changes its sign twice between the points that are met', () => {
    // ω = 1, T = (t − ½)² − d: from −√d to √d around ½ it is below 0, and takes back 4/3·d^1.5.
    for (const d of [0.02, 0.004, 1e-4, 1e-6]) {
      const motion = chain([{ duration_s: 1, polynomial: [0, 1] }]);
      const load: PlacedLoad = { at: (s) => ({ ...none, against: (s - 0.5137) ** 2 - d }), bends: true };
      const { returned_J } = phaseDemand(lineWith([load]), { motion, from: 0, start_s: 0, rising_per_s: 0 });
      expect(returned_J / ((4 / 3) * d ** 1.5)).toBeCloseTo(1, 6);
    }
  });
});
