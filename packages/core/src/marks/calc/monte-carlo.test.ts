// Trials against closed values, and the promise that threads change nothing.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { type Contribution, combined, type Distribution, worstCase } from './budget.ts';
import { shortestInterval, symmetricInterval } from './histogram.ts';
import {
  confidenceLimits,
  mergeTrials,
  runModelTrials,
  runTrials,
  shareOutside,
  splitModelTrials,
  splitTrials,
  type TrialJob,
} from './monte-carlo.ts';
import { normalTail } from './normal.ts';
import { studentQuantile } from './student.ts';

const one = (spread: Distribution, more: Partial<Contribution> = {}): Contribution => ({
  name: 'one',
  spread,
  sensitivity: 1,
  ...more,
});
const normal = (deviation: number, more: Partial<Contribution> = {}) => one({ shape: 'normal', deviation }, more);
const outcome = (job: TrialJob, coverage = 0.95) => mergeTrials(splitTrials(job)!.map(runTrials), coverage);

/** A budget of two to seven contributions of all shapes. */
function randomBudget(random: () => number): readonly Contribution[] {
  return Array.from({ length: 2 + Math.floor(6 * random()) }, () => {
    const size = 10 ** (-5 * random());
    const shapes: readonly Distribution[] = [
      { shape: 'normal', deviation: size },
      { shape: 'rectangular', halfWidth: size },
      { shape: 'triangular', halfWidth: size },
      { shape: 'arcsine', halfWidth: size },
      {
        shape: 'sample',
        values: Array.from({ length: 2 + Math.floor(19 * random()) }, () => size * random()),
        of: 'one',
      },
    ];
    return one(shapes[Math.floor(shapes.length * random())]!, { sensitivity: 4 * random() - 2 });
  });
}

it('the standard deviation of 200 seeded budgets is covered by its 99 % interval', () => {
  const random = seeded(200);
  let covered = 0;
  let meansCovered = 0;
  for (let seed = 0; seed < 200; seed++) {
    const contributions = randomBudget(random);
    const closed = combined(contributions, { coverage: 0.95 })!;
    const { mean, deviation } = outcome({ contributions, trials: 350_000, seed });
    const limits = confidenceLimits(deviation, 0.99);
    expect(limits.most - limits.least).toBeLessThan(0.01 * closed.standard);
    if (limits.least <= closed.standard && closed.standard <= limits.most) covered++;
    const meanLimits = confidenceLimits(mean, 0.99);
    if (meanLimits.least <= closed.offset && closed.offset <= meanLimits.most) meansCovered++;
  }
  expect(covered).toBeGreaterThanOrEqual(190);
  expect(meansCovered).toBeGreaterThanOrEqual(190);
});

it('the worst case bounds every trial', () => {
  const random = seeded(9);
  for (let seed = 0; seed < 20; seed++) {
    const contributions = randomBudget(random).filter(({ spread }) => spread.shape !== 'normal');
    if (contributions.length === 0) continue;
    // A value drawn of a sample is off by more than the farthest measured one, as far as so few values tell a deviation.
    const worst = contributions.reduce((sum, each) => {
      const { spread } = each;
      const wider = spread.shape === 'sample' ? Math.sqrt(spread.values.length / (spread.values.length - 1)) : 1;
      return sum + wider * worstCase([each], { deviations: 0 });
    }, 0);
    const offset = combined(contributions, { coverage: 0.95 })!.offset;
    const results = splitTrials({ contributions, trials: 50_000, seed })!.map(runTrials);
    for (const { counts, least, most, below, above } of results) {
      expect([below, above]).toEqual([0, 0]);
      const width = (most - least) / counts.length;
      expect(least + counts.findIndex((count) => count > 0) * width).toBeGreaterThanOrEqual(offset - worst - width);
      expect(least + counts.findLastIndex((count) => count > 0) * width).toBeLessThanOrEqual(offset + worst);
    }
  }
});

describe('chunks', () => {
  const job: TrialJob = {
    contributions: [normal(1, { degrees: 5 }), one({ shape: 'sample', values: [1, 2, 4], of: 'one' }), normal(2)],
    trials: 100_000,
    seed: 42,
  };

  it('are plain data that give the same bits in any order, anywhere', () => {
    const chunks = splitTrials(job)!;
    const here = chunks.map(runTrials);
    const elsewhere = structuredClone(chunks)
      .toReversed()
      .map((chunk) => structuredClone(runTrials(chunk)))
      .toReversed();
    expect(elsewhere).toEqual(here);
    expect(mergeTrials(elsewhere, 0.95)).toEqual(mergeTrials(here, 0.95));
    expect(mergeTrials(splitTrials({ ...job, seed: 43 })!.map(runTrials), 0.95)).not.toEqual(mergeTrials(here, 0.95));
  });

  it('are fifty at least and of a million trials at most, and have all trials', () => {
    for (const trials of [1, 100_000, 50_000_000, 123_456_789]) {
      const chunks = splitTrials({ ...job, trials })!;
      expect(chunks.length).toBeGreaterThanOrEqual(50);
      expect(Math.max(...chunks.map((chunk) => chunk.trials))).toBeLessThanOrEqual(1_000_000);
      const all = chunks.reduce((sum, chunk) => sum + chunk.trials, 0);
      expect(all).toBeGreaterThanOrEqual(trials);
      expect(all).toBeLessThan(trials + chunks.length);
    }
  });

  it('of a constant have no spread', () => {
    const { mean, deviation, shortest } = outcome({ contributions: [normal(0, { offset: 3 })], trials: 1000, seed: 1 });
    expect([mean.value, deviation.value]).toEqual([3, 0]);
    expect([shortest!.least.value, shortest!.most.value]).toEqual([3, 3]);
    const nothing = outcome({ contributions: [normal(0)], trials: 1000, seed: 1 });
    expect([nothing.symmetric!.least.value, nothing.symmetric!.most.value]).toEqual([0, 0]);
  });
});

describe('distributions', () => {
  it('a known number of degrees of freedom widens the normal one to that of Student', () => {
    const { symmetric, shortest } = outcome(
      { contributions: [normal(2, { degrees: 4 })], trials: 2_000_000, seed: 5 },
      0.95,
    );
    const end = 2 * studentQuantile(0.975, 4);
    for (const ends of [symmetric!, shortest!]) {
      expect(Math.abs(ends.most.value / end - 1)).toBeLessThan(0.01);
      expect(Math.abs(ends.least.value / end + 1)).toBeLessThan(0.01);
    }
    expect(
      outcome({ contributions: [normal(1, { degrees: 1 })], trials: 10_000, seed: 5 }, 0.9999).symmetric,
    ).toBeUndefined();
  });

  it('the mean of a sample has the distribution of Student about it', () => {
    const values = [9, 10, 14];
    const { mean, symmetric } = outcome(
      { contributions: [one({ shape: 'sample', values, of: 'mean' })], trials: 2_000_000, seed: 6 },
      0.9,
    );
    const reach = studentQuantile(0.95, 2) * Math.sqrt(7 / 3);
    expect(Math.abs(mean.value - 11)).toBeLessThan(0.05);
    expect(Math.abs((symmetric!.most.value - symmetric!.least.value) / (2 * reach) - 1)).toBeLessThan(0.01);
  });

  it.each([2, 3, 8])('a sample of %d is drawn with the standard deviation that it tells of one value more', (size) => {
    const values = [3, 5, 4, 9, 2, 2, 7, 1].slice(0, size);
    const contributions = [one({ shape: 'sample', values, of: 'one' }, { sensitivity: -2 })];
    const closed = combined(contributions, { coverage: 0.95 })!;
    const { mean, deviation } = outcome({ contributions, trials: 400_000, seed: 9 });
    expect(Math.abs(deviation.value / closed.standard - 1)).toBeLessThan(0.004);
    expect(Math.abs(mean.value - closed.offset)).toBeLessThan(5 * mean.error);
  });

  it('correlated normal contributions are drawn as the one that they are together', () => {
    const contributions = [normal(3), one({ shape: 'rectangular', halfWidth: 1 }), normal(4, { sensitivity: -1 })];
    const correlation = [
      [1, 0, 0.8],
      [0, 1, 0],
      [0.8, 0, 1],
    ];
    const chunks = splitTrials({ contributions, correlation, trials: 500_000, seed: 2 })!;
    expect(chunks[0]!.draws).toHaveLength(2);
    const { deviation } = mergeTrials(chunks.map(runTrials), 0.95);
    expect(
      Math.abs(deviation.value / combined(contributions, { coverage: 0.95, correlation })!.standard - 1),
    ).toBeLessThan(0.005);
  });

  it.each([
    ['of what is not normal', [one({ shape: 'arcsine', halfWidth: 1 }), normal(1)], 0.5],
    ['of finite degrees of freedom', [normal(1, { degrees: 5 }), normal(1)], 0.5],
    ['that cannot be', [normal(1), normal(1)], 1.5],
  ])('refuse a correlation %s', (_, contributions, r) => {
    const correlation = [
      [1, r],
      [r, 1],
    ];
    expect(splitTrials({ contributions, correlation, trials: 1000, seed: 1 })).toBeUndefined();
    const inputs = contributions.map(({ spread, degrees }) => ({ value: 0, spread, ...(degrees && { degrees }) }));
    expect(splitModelTrials({ inputs, correlation, trials: 1000, seed: 1 }, ([x]) => x!)).toBeUndefined();
  });

  it('a model that is a sum is off like the sum', () => {
    const contributions = [
      normal(1, { sensitivity: 3 }),
      one({ shape: 'triangular', halfWidth: 2 }, { sensitivity: -2 }),
    ];
    const inputs = contributions.map(({ spread }) => ({ value: 10, spread }));
    const model = ([x, y]: readonly number[]) => 3 * x! - 2 * y!;
    const chunks = splitModelTrials({ inputs, trials: 500_000, seed: 8 }, model)!;
    const trials = mergeTrials(
      structuredClone(chunks).map((chunk) => runModelTrials(chunk, model)),
      0.95,
    );
    const sum = outcome({ contributions, trials: 500_000, seed: 8 });
    expect(Math.abs(trials.mean.value - 10)).toBeLessThan(5 * trials.mean.error);
    expect(Math.abs(trials.deviation.value / sum.deviation.value - 1)).toBeLessThan(0.01);
    expect(Math.abs(trials.symmetric!.most.value - 10 - sum.symmetric!.most.value)).toBeLessThan(0.03);
    // Where the shortest interval of a symmetric distribution lies is less sure than how long it is.
    const length = ({ shortest }: typeof sum) => shortest!.most.value - shortest!.least.value;
    expect(Math.abs(length(trials) / length(sum) - 1)).toBeLessThan(0.01);
  });
});

describe('the share of trials outside limits is that of the distribution', () => {
  const results = (spread: Distribution, trials = 400_000) =>
    splitTrials({ contributions: [one(spread, { offset: 0.1 })], trials, seed: 12 })!.map(runTrials);

  it.each([
    ['rectangular', { shape: 'rectangular', halfWidth: 1 }, 0.5, (0.6 + 0.4) / 2],
    ['rectangular, all within', { shape: 'rectangular', halfWidth: 1 }, 1.2, 0],
    ['normal', { shape: 'normal', deviation: 1 }, 2, normalTail(1.9) + normalTail(2.1)],
    ['normal, far', { shape: 'normal', deviation: 1 }, 3.9, normalTail(3.8) + normalTail(4)],
  ] as const)('%s', (_, spread, T, due) => {
    const found = shareOutside(results(spread), { least: -T, most: T })!;
    expect(Math.abs(found.value - due)).toBeLessThan(4 * found.error + 1e-4 * due);
    expect(found.error / Math.sqrt(Math.max(due * (1 - due), 1 / 400_000) / 400_000)).toBeCloseTo(1, 0);
  });

  it('none outside leaves a chance of about one in as many as there are', () => {
    const { value, error } = shareOutside(results({ shape: 'rectangular', halfWidth: 1 }), { least: -9, most: 9 })!;
    expect([value, error * 400_000]).toEqual([0, expect.closeTo(1, 3)]);
  });

  it('is not known where tails have left the bins and the limit as well', () => {
    const wide = splitTrials({ contributions: [normal(1, { degrees: 1 })], trials: 50_000, seed: 1 })!.map(runTrials);
    expect(wide.some(({ above }) => above > 0)).toBe(true);
    expect(shareOutside(wide, { least: -1e9, most: 1e9 })).toBeUndefined();
    expect(shareOutside(wide, { least: -1, most: 1 })!.value).toBeCloseTo(0.5, 1);
  });
});

describe('intervals of a histogram', () => {
  const random = seeded(4);
  const values = Float64Array.from({ length: 200_000 }, () => -Math.log(1 - random())).sort();
  const histogram = {
    least: 0,
    most: 12,
    counts: new Int32Array(4096),
    below: 0,
    above: values.filter((value) => value >= 12).length,
  };
  for (const value of values) if (value < 12) histogram.counts[Math.floor((value * 4096) / 12)]!++;

  it('are those of the sorted values', () => {
    const at = (share: number) => values[Math.round(share * values.length)]!;
    for (const coverage of [0.5, 0.9, 0.95, 0.99]) {
      const symmetric = symmetricInterval(histogram, coverage)!;
      expect(symmetric.least).toBeCloseTo(at((1 - coverage) / 2), 2);
      expect(symmetric.most).toBeCloseTo(at((1 + coverage) / 2), 2);
      const inside = Math.round(coverage * values.length);
      let shortest = Infinity;
      for (let low = 0; low + inside < values.length; low++)
        shortest = Math.min(shortest, values[low + inside]! - values[low]!);
      const found = shortestInterval(histogram, coverage)!;
      expect(found.most - found.least).toBeCloseTo(shortest, 2);
      // That of an exponential distribution begins at nothing.
      expect(found.least).toBeLessThan(0.03);
      expect(found.most).toBeCloseTo(-Math.log(1 - coverage), 1);
    }
  });

  it('are not known where an end is outside the bins', () => {
    const cut = {
      ...histogram,
      most: 12 / 4096,
      counts: histogram.counts.slice(0, 1),
      above: values.length - histogram.counts[0]!,
    };
    expect([symmetricInterval(cut, 0.95), shortestInterval(cut, 0.95)]).toEqual([undefined, undefined]);
    const low = { least: 1, most: 2, counts: Int32Array.from([10]), below: 1, above: 0 };
    expect(symmetricInterval(low, 0.9)).toBeUndefined();
  });
});
