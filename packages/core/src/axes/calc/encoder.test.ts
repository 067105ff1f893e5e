// Encoders against counting, sampling and filtering step by step.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import {
  countedAcceleration,
  countedSpeedStep,
  countedTurningAcceleration,
  countedTurningStep,
  countFrequency,
  encoderAngle,
  encoderCounts,
  encoderWay,
  filterAngleLag,
  filteredSpeedStep,
  filteredTurningStep,
  filterLeaves,
  filterWayLag,
  followerRipple,
  longestCable,
  speedRipple,
  trackFrequency,
  turningCountFrequency,
} from './encoder.ts';
import { accelerationTorque } from './load.ts';

const about = 'test';
const n = encoderCounts({ z: q(2500, '1'), q: q(4, '1') }, about);
const T = q(1e-3, 's');

/** The counts in each sample at a constant speed, which is given in counts for each sample. */
const countsAt = (speed: number, samples: number) =>
  Array.from({ length: samples }, (_, at) => Math.floor(speed * (at + 1)) - Math.floor(speed * at));

const differences = (values: readonly number[]) => values.slice(1).map((value, at) => value - values[at]!);
const swing = (values: readonly number[]) => Math.max(...values) - Math.min(...values);

/** The filter of the model, settled at the mean and then run in for 40 time constants. */
function filtered(input: readonly number[], share: number, mean: number): readonly number[] {
  let state = mean;
  return input
    .map((each) => {
      state += share * (each - state);
      return state;
    })
    .slice(Math.ceil(40 / share));
}

it('a turn is counted whole: 2500 lines, four counts each, on a wheel of 500 mm or a shaft, in a second', () => {
  expect(n.value).toBe(10_000);
  const way = encoderWay({ W: q(0.5, 'm'), n }, about);
  const angle = encoderAngle({ W: q(2 * Math.PI, 'rad'), n }, about);
  // At three turns a second.
  const lines = 3 * 2500;
  for (const f of [
    countFrequency({ v: q(1.5, 'm/s'), w: way }, about),
    turningCountFrequency({ v: q(6 * Math.PI, 'rad/s'), w: angle }, about),
  ]) {
    expect(f.value).toBeCloseTo(4 * lines, 6);
    expect(trackFrequency({ f, q: q(4, '1') }, about).value).toBeCloseTo(lines, 6);
  }
});

describe('a speed that is counted', () => {
  it('a counted speed has two values one step apart', () => {
    for (const speed of [0.3, Math.SQRT2, 7.77, 123.4567]) {
      const seen = countsAt(speed, 5000);
      expect(new Set(seen)).toEqual(new Set([Math.floor(speed), Math.ceil(speed)]));
      const w = encoderWay({ W: q(0.5, 'm'), n }, about);
      const speeds = seen.map((count) => (count * w.value) / T.value);
      expect(countedSpeedStep({ w, T }, about).value).toBeCloseTo(swing(speeds), 12);
    }
  });

  it.each([
    [10_000, 1e-3],
    [4096, 4e-3],
    [20_000, 2.5e-4],
  ])('derived: steps by 60/(N·T) rpm: %i counts, %f s', (counts, period) => {
    const w = encoderAngle({ W: q(2 * Math.PI, 'rad'), n: q(counts, '1') }, about);
    const step = countedTurningStep({ w, T: q(period, 's') }, about).value;
    expect((step * 30) / Math.PI).toBeCloseTo(60 / (counts * period), 9);
  });

  it('at constant speed a count seen twice differentiated is an acceleration of one way per count over T²', () => {
    const w = encoderAngle({ W: q(2 * Math.PI, 'rad'), n }, about);
    const α = countedTurningAcceleration({ s: countedTurningStep({ w, T }, about), T }, about);
    const changes = differences(countsAt(Math.SQRT2, 5000));
    expect(new Set(changes)).toEqual(new Set([-1, 0, 1]));
    expect(α.value).toBeCloseTo((Math.max(...changes) * w.value) / T.value ** 2, 9);
    // 628.3 rad/s² at a wheel of 0.01 kg·m² that has nothing to accelerate.
    expect(accelerationTorque({ J: q(0.01, 'kg·m²'), α }, about).value).toBeCloseTo(2 * Math.PI, 9);
  });

  it('followers of every ratio have the ripple of their master', () => {
    for (const ratio of [0.25, 1, 3.7]) {
      const speeds = countsAt(12.34, 5000).map((count) => (ratio * count * 0.05) / 1e-3);
      const inputs = { s: q(swing(speeds), 'm/s'), v: q((ratio * 12.34 * 0.05) / 1e-3, 'm/s') };
      const r = speedRipple(inputs, about);
      expect(r.value).toBeCloseTo(1 / 12.34, 9);
      const ω = q(ratio * 12.34, 'rad/s');
      expect(followerRipple({ r, ω }, about).value).toBeCloseTo(ratio, 9);
    }
  });
});

describe('a filter', () => {
  const τ = q(9e-3, 's');
  const share = 0.1;
  const step = { s: q(0.05, 'm/s'), T, τ };
  const predicted = filteredSpeedStep(step, about).value;

  it('a filtered count swings by its share of the step: all of it where the pattern of counts never repeats', () => {
    expect(filteredTurningStep({ s: q(0.05, 'rad/s'), T, τ }, about).value).toBe(predicted);
    expect(filteredSpeedStep({ ...step, τ: q(0, 's') }, about).value).toBe(0.05);
    for (const speed of [Math.SQRT2, Math.PI, Math.E, (1 + Math.sqrt(5)) / 2]) {
      const met = 0.05 * swing(filtered(countsAt(speed, 60_000), share, speed));
      expect(Math.abs(met / predicted - 1)).toBeLessThan(1e-3);
    }
  });

  it('and by less, never by more, where it repeats: seeded random speeds and time constants', () => {
    const random = seeded(8);
    for (let round = 0; round < 200; round++) {
      const repeats = 1 + Math.floor(50 * random());
      // The pattern of counts repeats after so many samples; the little more keeps rounding from breaking it.
      const speed = Math.floor(4 * repeats * random()) / repeats + 1e-9;
      const part = 0.02 + 0.9 * random();
      const allowed = filteredSpeedStep({ s: q(1, 'm/s'), T, τ: q((T.value * (1 - part)) / part, 's') }, about).value;
      const met = swing(filtered(countsAt(speed, Math.ceil(40 / part) + 200), part, speed));
      expect(met).toBeLessThanOrEqual(allowed * (1 + 1e-9));
    }
    // Every other sample has a count: the two values that a filter then takes are share/(2 − share) apart.
    expect(swing(filtered(countsAt(0.5, 2000), share, 0.5))).toBeCloseTo(share / (2 - share), 9);
  });

  it('leaves of the acceleration at most what its swing looks like, and all of it of a lone count', () => {
    const most = countedAcceleration({ s: filteredSpeedStep(step, about), T }, about).value;
    const largest = (speed: number) =>
      (0.05 * Math.max(...differences(filtered(countsAt(speed, 5000), share, speed)))) / T.value;
    for (const speed of [Math.SQRT2, 0.37, 12.8]) expect(largest(speed)).toBeLessThan(most);
    expect(largest(0.005)).toBeCloseTo(most, 6);
  });

  it('a filter that is integrated lags and settles: fourth-order Runge and Kutta', () => {
    const tau = 0.02;
    const run = (input: (t: number) => number, end: number) => {
      const h = end / 2000;
      const slope = (t: number, y: number) => (input(t) - y) / tau;
      let y = 0;
      for (let at = 0; at < 2000; at++) {
        const t = at * h;
        const k1 = slope(t, y);
        const k2 = slope(t + h / 2, y + (h / 2) * k1);
        const k3 = slope(t + h / 2, y + (h / 2) * k2);
        const k4 = slope(t + h, y + h * k3);
        y += (h / 6) * (k1 + 2 * k2 + 2 * k3 + k4);
      }
      return y;
    };
    const lag = 3 * 1 - run((t) => 3 * t, 1);
    expect(filterWayLag({ v: q(3, 'm/s'), τ: q(tau, 's') }, about).value).toBeCloseTo(lag, 9);
    expect(filterAngleLag({ v: q(3, 'rad/s'), τ: q(tau, 's') }, about).value).toBeCloseTo(lag, 9);
    for (const t of [0.005, 0.02, 0.1])
      expect(filterLeaves({ t: q(t, 's'), τ: q(tau, 's') }, about).value).toBeCloseTo(1 - run(() => 1, t), 9);
  });
});

it('a differential line of 1200 m carries 100 kbit/s, one of 12 m carries 10 Mbit/s', () => {
  // TIA-422, guideline on the length of cables, from memory: two changes of the signal for each period of a track.
  const reach = (track_Hz: number): number =>
    longestCable({ L: q(1200, 'm'), r: q(100e3, 'Hz'), f: q(track_Hz, 'Hz') }, about).value;
  expect(reach(50e3)).toBe(1200);
  expect(reach(5e6)).toBeCloseTo(12, 9);
  expect(reach(1e3)).toBe(1200);
});
