// The interval of a simulated share: against known shares, drawn as a simulation draws them, and against Student's t in full.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { studentQuantile } from '../../marks/calc/student.ts';
import type { SimulationCounts } from './simulate/plan.ts';
import { simulatedTime } from './simulated.ts';
import { shareBetween, simulatedConfidence, studentAtLeast } from './simulated-share.ts';

const parts = 64;

/** Parts of a simulation in which bunches of so many losses begin with a chance at each of so many updates. */
function drawn(random: () => number, updates: number, chance: number, bunch: number): readonly SimulationCounts[] {
  return Array.from({ length: parts }, () => {
    let lost = 0;
    for (let at = 0; at < updates; at++) if (random() < chance) lost += bunch;
    const station = { updates, lost, runs: [], repeats: 0, late: 0, trips: 0 };
    return { cycles: updates, events: 0, stations: [station], traces: [] };
  });
}

describe('a simulated share', () => {
  it('the interval of a simulated share covers it as often as it promises', () => {
    const cases = 400;
    for (const [updates, chance, bunch] of [
      [40, 2e-4, 1],
      [40, 4e-3, 1],
      [60, 0.3, 1],
      [60, 0.05, 4],
    ] as const) {
      const random = seeded(updates + 1000 * bunch + chance);
      let [covered, falsified] = [0, 0];
      for (let at = 0; at < cases; at++) {
        const { least, most } = shareBetween(drawn(random, updates, chance, bunch), 0)!;
        const is = chance * bunch;
        if (least <= is && is <= most) covered++;
        if (least <= 2 * is && 2 * is <= most) falsified++;
      }
      expect(covered / cases, `${chance}`).toBeGreaterThan(0.98);
      // So few losses that nothing is told apart are there, too.
      if (chance > 0.01) expect(falsified).toBe(0);
    }
  });

  it('is at most what no loss at all allows, and not known from one part', () => {
    const none = drawn(() => 1, 100, 0, 1);
    const { least, most } = shareBetween(none, 0)!;
    const allowed = 1 - ((1 - simulatedConfidence) / 2) ** (1 / (100 * parts));
    expect(least).toBe(0);
    expect(most).toBeCloseTo(allowed, 12);
    expect(shareBetween(none.slice(0, 1), 0)).toBeUndefined();
  });

  it('takes a quantile of Student’s t that is never too small, and right where a table has it', () => {
    for (let degrees = 1; degrees <= 400; degrees++) {
      const exact = studentQuantile(0.995, degrees);
      expect(studentAtLeast(degrees), `${degrees}`).toBeGreaterThan(exact - 6e-4);
      if (degrees > 10) expect(studentAtLeast(degrees)).toBeLessThan(exact * 1.09);
      else expect(studentAtLeast(degrees)).toBeCloseTo(exact, 2);
    }
  });
});

describe('beside it', () => {
  it('cycles one behind another', () => {
    let time = 0;
    for (let cycle = 0; cycle < 1000; cycle++) time += 5e-4;
    expect(simulatedTime.of(...([1000, 5e-4] as never[]))).toBeCloseTo(time, 9);
  });
});
