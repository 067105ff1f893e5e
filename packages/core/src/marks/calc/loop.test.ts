// Register control: the limit against roots and runs, the spread against impulse responses, trials and missed marks.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import {
  addedSpread,
  correctedSpread,
  gainLimit,
  loopDelay,
  loopErrors,
  loopNoise,
  loopRoots,
  loopSettling,
  meanGain,
  settlingWeb,
  splicedShare,
} from './loop.ts';
import { plain } from './plain.support.ts';
import { rootsOf } from './roots.ts';

const delays = [0, 1, 2, 3, 4, 5, 6, 7, 8];
const step = (repeats: number) => new Float64Array(repeats).fill(1);
const largestRoot = (gain: number, delay: number) =>
  Math.max(...loopRoots({ gain, delay }).map(({ real, imaginary }) => Math.hypot(real, imaginary)));

describe('roots of a polynomial', () => {
  it('are those it was made of', () => {
    const random = seeded(5);
    for (let trial = 0; trial < 100; trial++) {
      const made = Array.from({ length: 1 + Math.floor(6 * random()) }, (_, at) => at - 3 + 0.6 * random());
      const coefficients = [2];
      for (const root of made) {
        coefficients.push(0);
        for (let at = coefficients.length - 1; at > 0; at--) coefficients[at]! -= root * coefficients[at - 1]!;
      }
      const found = rootsOf(coefficients).toSorted((a, b) => a.real - b.real);
      expect(found).toHaveLength(made.length);
      found.forEach(({ real, imaginary }, at) => {
        expect(real).toBeCloseTo(made[at]!, 7);
        expect(imaginary).toBeCloseTo(0, 7);
      });
    }
  });

  it('come in pairs where they are complex, and are found where they are double', () => {
    const pair = rootsOf([1, -2, 5]).toSorted((a, b) => a.imaginary - b.imaginary);
    expect(pair[0]!.real).toBeCloseTo(1, 12);
    expect(pair.map(({ imaginary }) => imaginary)).toEqual([expect.closeTo(-2, 12), expect.closeTo(2, 12)]);
    for (const { real, imaginary } of rootsOf([1, -1, 0.25])) {
      expect(real).toBeCloseTo(0.5, 6);
      expect(imaginary).toBeCloseTo(0, 6);
    }
  });

  it('are refused without a highest power', () => {
    expect(() => rootsOf([0, 1, 2])).toThrow(RangeError);
    expect(() => rootsOf([1, Number.NaN])).toThrow(RangeError);
  });
});

describe('the limit of gain', () => {
  it('is 2, 1 and 0.618 for no, one and two repeats of dead time', () => {
    expect(gainLimit({ d: q(0, '1') }, 'test').value).toBeCloseTo(2, 12);
    expect(plain(gainLimit)(1)).toBeCloseTo(1, 12);
    expect(plain(gainLimit)(2)).toBeCloseTo((Math.sqrt(5) - 1) / 2, 12);
  });

  it.each(delays)('at the limit of gain the largest root is on the unit circle: %d repeats', (delay) => {
    const limit = plain(gainLimit)(delay);
    expect(largestRoot(limit, delay)).toBeCloseTo(1, 9);
    expect(largestRoot(0.999 * limit, delay)).toBeLessThan(1);
    expect(largestRoot(1.001 * limit, delay)).toBeGreaterThan(1);
    for (const share of [0.1, 0.5, 0.9, 1.1]) {
      const coefficients = loopRoots({ gain: share * limit, delay });
      expect(coefficients).toHaveLength(delay + 1);
      for (const { real, imaginary } of coefficients) {
        // z^d·(z − 1) + K is nothing at a root.
        const [size, angle] = [Math.hypot(real, imaginary), Math.atan2(imaginary, real)];
        const [less, turn] = [Math.hypot(real - 1, imaginary), Math.atan2(imaginary, real - 1)];
        expect(size ** delay * less * Math.cos(delay * angle + turn)).toBeCloseTo(-share * limit, 9);
        expect(size ** delay * less * Math.sin(delay * angle + turn)).toBeCloseTo(0, 9);
      }
    }
  });

  it.each(delays)('a step dies out below it and grows above it in a run: %d repeats', (delay) => {
    const largest = (share: number) =>
      Math.max(
        ...loopErrors({ gain: share * plain(gainLimit)(delay), delay, scatter: step(20_000) })
          .slice(-100)
          .map(Math.abs),
      );
    expect(largest(0.99)).toBeLessThan(1e-3);
    expect(largest(1.01)).toBeGreaterThan(10);
  });
});

describe('the spread of what is corrected', () => {
  const gains = (delay: number) => [0.05, 0.3, 0.7, 0.95].map((share) => share * plain(gainLimit)(delay));

  it('the variance in closed form is that of the impulse response, of a trial and of a run with missed marks: impulse', () => {
    for (const delay of delays)
      for (const gain of gains(delay)) {
        const impulse = new Float64Array(40_000);
        impulse[0] = 1;
        const answer = loopErrors({ gain, delay, scatter: impulse });
        const sum = answer.reduce((all, each) => all + each ** 2, 0);
        expect(1 + plain(loopNoise)(gain, delay, 0)).toBeCloseTo(sum, 9);
        const heard = loopErrors({ gain, delay, scatter: new Float64Array(40_000), noise: impulse });
        expect(plain(loopNoise)(gain, delay, 0)).toBeCloseTo(
          heard.reduce((all, each) => all + each ** 2, 0),
          9,
        );
      }
  });

  it('is K/(2 − K) without dead time and K(1 + K)/((1 − K)(2 + K)) with one repeat', () => {
    for (const K of [0.1, 0.5, 0.9]) {
      expect(plain(loopNoise)(K, 0, 0)).toBeCloseTo(K / (2 - K), 12);
      expect(plain(loopNoise)(K, 1, 0)).toBeCloseTo((K * (1 + K)) / ((1 - K) * (2 + K)), 12);
    }
  });

  it('is infinite from the limit of gain on, and nothing without gain or with every mark missed', () => {
    expect([plain(loopNoise)(2, 0, 0), plain(loopNoise)(1.01, 1, 0), plain(loopNoise)(0.62, 2, 0)]).toEqual(
      Array(3).fill(Infinity),
    );
    expect([plain(loopNoise)(0, 3, 0), plain(loopNoise)(0.2, 3, 1)]).toEqual([0, 0]);
    expect([plain(loopNoise)(-0.1, 3, 0), plain(loopNoise)(0.1, 3, 1.1)]).toEqual([Number.NaN, Number.NaN]);
  });

  it.each([
    [0.3, 3, 0],
    [0.3, 3, 0.2],
    [0.6, 0, 0.5],
    [0.5, 1, 0.1],
  ])(
    'is that of a run of a million repeats: gain %f, %d repeats of dead time, %f of the marks missed',
    (gain, delay, q) => {
      const random = seeded(31);
      const repeats = 1_000_000;
      // Of variance 1: a sum of three even values, from −3 to 3.
      const even = () => 2 * (random() + random() + random()) - 3;
      const scatter = Float64Array.from({ length: repeats }, even);
      const noise = Float64Array.from({ length: repeats }, () => 0.5 * even());
      const lost = Uint8Array.from({ length: repeats }, () => Number(random() < q));
      const errors = loopErrors({ gain, delay, scatter, noise, missed: (repeat) => lost[repeat] === 1 });
      const variance = errors.reduce((sum, each) => sum + each ** 2, 0) / repeats;
      expect(Math.sqrt(variance) / plain(correctedSpread)(1, plain(loopNoise)(gain, delay, q), 0.5)).toBeCloseTo(1, 2);
    },
  );
});

it('what a correction adds is what its spread has more than the product', () => {
  const S = plain(loopNoise)(0.3, 3, 0);
  expect(Math.hypot(40e-6, plain(addedSpread)(S, 40e-6))).toBeCloseTo(plain(correctedSpread)(40e-6, S, 0), 15);
  // A splice of 4 mm is within 0.2 mm when a twentieth of it is left.
  const repeats = plain(loopSettling)(0.3, 3, plain(splicedShare)(0.2e-3, 4e-3));
  const errors = loopErrors({ gain: 0.3, delay: 3, scatter: new Float64Array(200).fill(4e-3) });
  expect(errors.findLastIndex((error) => Math.abs(error) > 0.2e-3) + 1).toBe(repeats);
  expect(plain(settlingWeb)(repeats, 0.5)).toBe(repeats / 2);
});

describe('settling', () => {
  it('a step is settled when all later errors of a long run are within', () => {
    for (const delay of delays)
      for (const share of [0.05, 0.2, 0.5, 0.9])
        for (const left of [0.5, 0.05, 1e-3]) {
          const gain = share * plain(gainLimit)(delay);
          const errors = loopErrors({ gain, delay, scatter: step(5000) });
          const last = errors.findLastIndex((error) => Math.abs(error) > left);
          expect(plain(loopSettling)(gain, delay, left)).toBe(last + 1);
        }
  });

  it('takes one repeat without dead time and with the whole error corrected', () => {
    expect(plain(loopSettling)(1, 0, 0.01)).toBe(1);
    expect(plain(loopSettling)(0.5, 0, 0.26)).toBe(2);
    expect(plain(loopSettling)(0.3, 3, 1)).toBe(0);
  });

  it('has no end at the limit of gain, and none without gain', () => {
    expect([plain(loopSettling)(1, 1, 0.1), plain(loopSettling)(0, 1, 0.1), plain(loopSettling)(0.1, 1, 0)]).toEqual(
      Array(3).fill(Number.NaN),
    );
  });

  it('missed marks leave the correction as it is and only cost their repeats without dead time', () => {
    const whole = loopErrors({ gain: 0.5, delay: 0, scatter: step(12) });
    const held = loopErrors({ gain: 0.5, delay: 0, scatter: step(12), missed: (repeat) => repeat >= 2 && repeat < 5 });
    expect([...held]).toEqual([...whole.slice(0, 3), ...Array(3).fill(whole[2]), ...whole.slice(3, 9)]);
  });

  it('in the mean missed marks settle as a gain that is smaller by their share', () => {
    const random = seeded(77);
    const [gain, delay, share, runs] = [0.4, 2, 0.3, 20_000];
    const mean = new Float64Array(20);
    for (let run = 0; run < runs; run++) {
      const missed = Array.from({ length: 20 }, () => random() < share);
      loopErrors({ gain, delay, scatter: step(20), missed: (repeat) => missed[repeat]! }).forEach((error, at) => {
        mean[at]! += error / runs;
      });
    }
    const smaller = loopErrors({ gain: plain(meanGain)(gain, share), delay, scatter: step(20) });
    mean.forEach((error, at) => {
      expect(Math.abs(error - smaller[at]!)).toBeLessThan(0.01);
    });
  });
});

describe('dead time', () => {
  it('the first mark that a correction reaches, mark by mark', () => {
    const random = seeded(12);
    for (let trial = 0; trial < 500; trial++) {
      const [way, v, t, s] = [3 * random(), 0.1 + 10 * random(), 0.2 * random(), 0.1 + random()];
      // Mark k is at the eye when the web has run k·s; the mark that was under the tool when the correction came follows later.
      let reached = 1;
      while (reached * s - way < v * t) reached++;
      expect(plain(loopDelay)(way, v, t, s)).toBe(reached - 1);
    }
  });

  it('of a whole number of repeats is one less, however the division rounds', () => {
    for (const repeat_mm of [50, 300, 350, 600, 635, 700, 1105])
      for (let repeats = 1; repeats <= 60; repeats++)
        expect(plain(loopDelay)((repeats * repeat_mm) / 1000, 1, 0, repeat_mm / 1000)).toBe(repeats - 1);
    expect(plain(loopDelay)(0, 2, 0.525, 0.35)).toBe(2);
  });
});
