// A stop against the energy that is there when it begins, and against a constant deceleration in closed form.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import type { PlainLine, PlainStage } from './drive-line.ts';
import { lawNames, lawPieces } from './motion-law.ts';
import { chain, dwell, type Motion, stateAt } from './segment.ts';
import { stopPieces } from './stop-course.ts';

const stage = (more: Partial<PlainStage>): PlainStage => ({
  ratio: 1,
  inertia: 0,
  constant: 0,
  coulomb: 0,
  viscous: 0,
  breakaway: 0,
  placed: [],
  pass: 1,
  driving: 1,
  driven: 1,
  ...more,
});
const line = (more: Partial<PlainStage>): PlainLine => ({ stages: [stage(more)], lossOnInertia: true });
const course = (motion: Motion, of: PlainLine) => ({
  stretches: [{ motion, from: 0, start_s: 0, rising_per_s: 0 }],
  line: of,
});
const energy = (pieces: readonly { energy_J: number }[]): number =>
  pieces.reduce((sum, { energy_J }) => sum + energy_J, 0);

describe('a stop', () => {
  it('gives back what turns at its beginning, at any place of any law, also over several cycles', () => {
    const random = seeded(8);
    for (const law of lawNames) {
      const [T, h, J] = [0.1 + random(), 1 + random(), 0.01 + random()];
      const motion = chain([...lawPieces(law, h, T), dwell(0.3 * T, h)]);
      for (const stop_s of [0.3 * T, 2 * T, 9 * T]) {
        const begins_s = random() * T;
        const { velocity } = stateAt(motion, begins_s);
        const found = energy(stopPieces(course(motion, line({ inertia: J })), { stop_s, begins_s }));
        const most = (J * (2.2 * (h / T)) ** 2) / 2;
        expect(Math.abs(found + (J * velocity ** 2) / 2) / most, law).toBeLessThan(2e-3);
      }
    }
  });

  it('is a constant deceleration at constant speed: inertia, friction, a load and a gear in closed form', () => {
    const motion = chain([{ duration_s: 0.4, polynomial: [0, 20] }]);
    const of = line({ inertia: 3, coulomb: 5, constant: 7 });
    const pieces = stopPieces(course(motion, of), { stop_s: 2, begins_s: 0.1 });
    // 20 rad/s at 10 rad/s²: 20 rad; friction and load by the way, less the energy that turns.
    expect(energy(pieces)).toBeCloseTo((5 + 7) * 20 - (3 * 20 ** 2) / 2, 6);
    expect(pieces[0]!.start_W).toBeCloseTo((5 + 7 - 30) * 20, 6);
    expect(pieces.at(-1)!.end_W).toBeCloseTo(0, 6);
    const lossy = line({ inertia: 3, coulomb: 5, constant: 7, driven: 0.8, driving: 0.8 });
    expect(energy(stopPieces(course(motion, lossy), { stop_s: 2, begins_s: 0 }))).toBeCloseTo(0.8 * (240 - 600), 6);
  });

  it('is refused where nothing moves for any time', () => {
    expect(() => stopPieces(course([], line({})), { stop_s: 1, begins_s: 0 })).toThrow(RangeError);
  });
});
