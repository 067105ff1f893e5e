// Lags against buffers that are filled and loops that are integrated; and there and back.
import { expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import type { Unit } from '../../units/si.ts';
import type { Quantity } from '../../working/quantity.ts';
import { q } from '../../working/testing.support.ts';
import {
  angleLag,
  arrivalsApart,
  carriedAngleLag,
  carriedTimeLeftInAngle,
  carriedTimeLeftOnWay,
  carriedWayLag,
  cycleInTime,
  cyclesApart,
  cyclesTogether,
  delaysTogether,
  gainsApart,
  timeLeftInAngle,
  timeLeftOnWay,
  wayLag,
} from './lag.ts';

const about = 'test';
const s = (value: number) => q(value, 's');

/** A master, then buffers that each hold a value for a cycle; what comes out right after the last of them changes. */
function behindBuffers(n: number, T: number, position: (t: number) => number): { lag: number; carried: number } {
  const buffers: number[] = [];
  const speeds: number[] = [];
  let last = { lag: 0, carried: 0 };
  for (let cycle = 1; cycle <= 20; cycle++) {
    const now = cycle * T;
    buffers.unshift(position(now));
    // The exact speed at the instant of the value.
    speeds.unshift((position(now + 1e-6) - position(now - 1e-6)) / 2e-6);
    if (buffers.length <= n) continue;
    const lag = position(now) - buffers[n]!;
    last = { lag, carried: lag - speeds[n]! * n * T };
  }
  return last;
}

it('a follower behind buffers lags by what they hold: one cycle of 1 ms at 5 m/s is 5 mm', () => {
  const one = { n: q(1, '1'), T: s(1e-3), d: s(0) };
  expect(wayLag({ v: q(5, 'm/s'), ...one }, about).value).toBeCloseTo(5e-3, 12);
  for (const n of [1, 2, 5]) {
    // One number of cycles, or one for each buffer.
    const held = { n: cyclesTogether({ n: Array.from({ length: n }, () => q(1, '1')) }, about), T: s(2e-3), d: s(0) };
    const steady = behindBuffers(n, 2e-3, (t) => 3 * t);
    expect(wayLag({ v: q(3, 'm/s'), ...held }, about).value).toBeCloseTo(steady.lag, 12);
    expect(angleLag({ v: q(3, 'rad/s'), ...held }, about).value).toBeCloseTo(steady.lag, 12);
    // What is beside the cycles delays just the same.
    const beside = { n: q(n - 1, '1'), T: s(2e-3), d: delaysTogether({ d: [s(0.5e-3), s(1.5e-3)] }, about) };
    expect(wayLag({ v: q(3, 'm/s'), ...beside }, about).value).toBeCloseTo(steady.lag, 12);
    const ramp = behindBuffers(n, 2e-3, (t) => 4 * t ** 2);
    expect(carriedWayLag({ a: q(8, 'm/s²'), ...held }, about).value).toBeCloseTo(ramp.carried, 8);
    expect(carriedAngleLag({ a: q(8, 'rad/s²'), ...beside }, about).value).toBeCloseTo(ramp.carried, 8);
  }
});

it('two axes behind buffers of their own are apart by what the longer line holds, and by when their commands arrive', () => {
  for (const [n, T, m, S] of [
    [1, 2e-3, 3, 2e-3],
    [2, 1e-3, 1, 4e-3],
    [3, 4e-3, 2, 1e-3],
  ] as const) {
    const apart = behindBuffers(n, T, (t) => 3 * t).lag - behindBuffers(m, S, (t) => 3 * t).lag;
    const cycles = cyclesApart({ n: q(n, '1'), m: q(m, '1'), S: s(S), T: s(T) }, about);
    expect(wayLag({ v: q(3, 'm/s'), n: cycles, T: s(T), d: s(0) }, about).value).toBeCloseTo(Math.abs(apart), 12);
  }
  // A tool is behind by its speed times the arrival.
  const [t, u] = [40e-6, 190e-6];
  const skew = arrivalsApart({ t: s(t), u: s(u) }, about);
  expect(5 * skew.value).toBeCloseTo(Math.abs(5 * (1 - t) - 5 * (1 - u)), 12);
});

it('two position loops that are integrated part by their gains', () => {
  const v = 2;
  const behind = (gain: number, fed: number): number => {
    let position = 0;
    const dt = 1e-4;
    for (let step = 0; step < 20_000; step++) position += dt * (fed * v + gain * (v * step * dt - position));
    return v * 20_000 * dt - position;
  };
  for (const [k, f, l, g] of [
    [40, 0, 90, 0],
    [90, 0, 40, 0],
    [40, 0.9, 50, 0.5],
  ] as const) {
    const loops = { f: q(f, '1'), k: q(k, '1/s'), g: q(g, '1'), l: q(l, '1/s') };
    // An Euler step lags by what one step moves; the same of both, but for what is fed forward.
    const parted = Math.abs(behind(k, f) - behind(l, g));
    expect(v * gainsApart(loops, about).value).toBeCloseTo(parted, 6);
  }
});

it('what is allowed gives back what it was asked for', () => {
  const random = seeded(62);
  const draw = <U extends Unit>(least: number, most: number, unit: U): Quantity<U> =>
    q(least + random() * (most - least), unit);
  const near = (found: Quantity, expected: Quantity): void => {
    expect(found.unit).toBe(expected.unit);
    expect(found.value / expected.value).toBeCloseTo(1, 10);
  };
  for (let at = 0; at < 50; at++) {
    const T = draw(1e-4, 1e-2, 's');
    const [a, α] = [draw(0.1, 100, 'm/s²'), draw(0.1, 100, 'rad/s²')];
    const [v, ω] = [draw(0.1, 10, 'm/s'), draw(1, 100, 'rad/s')];
    const [n, d] = [q(1 + Math.floor(random() * 5), '1'), draw(0, 1e-3, 's')];
    const lag = { n, T, d };
    for (const t of [
      timeLeftOnWay({ e: wayLag({ v, ...lag }, about), v, d }, about),
      timeLeftInAngle({ e: angleLag({ v: ω, ...lag }, about), v: ω, d }, about),
      carriedTimeLeftOnWay({ e: carriedWayLag({ a, ...lag }, about), a, d }, about),
      carriedTimeLeftInAngle({ e: carriedAngleLag({ a: α, ...lag }, about), a: α, d }, about),
    ])
      near(cycleInTime({ t, n }, about), T);
  }
});
