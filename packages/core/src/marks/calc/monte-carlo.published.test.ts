// Trials against the examples of the guide's supplement. Printed values that are not in our list of check values are from memory.
import { describe, expect, it } from 'vitest';
import type { Contribution, Distribution } from './budget.ts';
import { type ModelJob, mergeTrials, runModelTrials, runTrials, splitModelTrials, splitTrials } from './monte-carlo.ts';
import type { Model } from './second-order.ts';

const four = (spread: Distribution): readonly Contribution[] =>
  [1, 2, 3, 4].map((name) => ({ name: `${name}`, spread, sensitivity: 1 }));
const trials = 2_000_000;

describe('JCGM 101:2008, 9.2: the sum of four', () => {
  it.each([
    ['normal, u = 1: ± 3.92', { shape: 'normal', deviation: 1 }, 3.92, 2],
    ['rectangular, u = 1: ± 3.8794 = 2√3·(2 − (3/5)^¼)', { shape: 'rectangular', halfWidth: Math.sqrt(3) }, 3.8794, 4],
  ] as const)('%s', (_, spread, end, digits) => {
    const found = mergeTrials(splitTrials({ contributions: four(spread), trials, seed: 92 })!.map(runTrials), 0.95);
    expect(Math.abs(found.deviation.value - 2)).toBeLessThan(4 * found.deviation.error);
    expect(found.deviation.error).toBeLessThan(0.002);
    for (const ends of [found.symmetric!, found.shortest!]) {
      expect(Math.abs(ends.most.value - end)).toBeLessThan(4 * ends.most.error + 0.5 * 10 ** -digits);
      expect(Math.abs(ends.least.value + end)).toBeLessThan(4 * ends.least.error + 0.5 * 10 ** -digits);
    }
    expect(found.symmetric!.most.error).toBeLessThan(0.01);
    expect(2 * Math.sqrt(3) * (2 - (3 / 5) ** 0.25)).toBeCloseTo(3.8794, 4);
  });
});

const run = (job: Omit<ModelJob, 'trials'>, model: Model) => {
  const chunks = splitModelTrials({ ...job, trials }, model)!;
  return mergeTrials(
    chunks.map((chunk) => runModelTrials(chunk, model)),
    0.95,
  );
};

describe('JCGM 101:2008, 9.3: calibration of a mass', () => {
  it('1.234 mg, standard uncertainty 0.0755 mg, shortest interval 1.083 to 1.383 mg', () => {
    const rectangular = (low: number, high: number) =>
      ({ value: (low + high) / 2, spread: { shape: 'rectangular', halfWidth: (high - low) / 2 } }) as const;
    const found = run(
      {
        inputs: [
          { value: 100_000, spread: { shape: 'normal', deviation: 0.05 } },
          { value: 1.234, spread: { shape: 'normal', deviation: 0.02 } },
          rectangular(1.1, 1.3),
          rectangular(7000, 9000),
          rectangular(7950, 8050),
        ],
        seed: 93,
      },
      ([R, δR, air, W, ref]) => (R! + δR!) * (1 + (air! - 1.2) * (1 / W! - 1 / ref!)) - 100_000,
    );
    expect(found.mean.value).toBeCloseTo(1.234, 3);
    expect(Math.abs(found.deviation.value - 0.0755)).toBeLessThan(0.00005 + 4 * found.deviation.error);
    expect(found.shortest!.least.value).toBeCloseTo(1.083, 2);
    expect(found.shortest!.most.value).toBeCloseTo(1.383, 2);
  });
});

describe('JCGM 101:2008, 9.4: the sum of two squares', () => {
  it.each([
    ['at 0, not correlated', 0, 0, 50e-6, 50e-6],
    ['at 0, correlated by 0.9', 0, 0.9, 50e-6, 67e-6],
    ['at 0.010, correlated by 0.9', 0.01, 0.9, 150e-6, 121e-6],
  ])('%s', (_, x, r, mean, deviation) => {
    const spread = { shape: 'normal', deviation: 0.005 } as const;
    const correlation = [
      [1, r],
      [r, 1],
    ];
    const inputs = [
      { value: x, spread },
      { value: 0, spread },
    ];
    const found = run({ inputs, correlation, seed: 94 }, ([a, b]) => a! ** 2 + b! ** 2);
    expect(Math.abs(found.mean.value - mean)).toBeLessThan(0.5e-6);
    expect(Math.abs(found.deviation.value - deviation)).toBeLessThan(0.5e-6 + 4 * found.deviation.error);
    // Nothing can be less than nothing, and where it is most likely the shortest interval begins there.
    if (x === 0) expect(found.shortest!.least.value).toBeLessThan(2e-6);
  });
});
