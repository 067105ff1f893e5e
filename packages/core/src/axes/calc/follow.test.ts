// Followers and their masters: times and speeds by hand, and a ramp of the master by differentiating twice.
import { expect, it } from 'vitest';
import type { FormulaRecord } from '../../working/formula.ts';
import {
  anglesTime,
  fallingFollower,
  fallingTurning,
  gearedSpeed,
  gearedTurning,
  positionsTime,
  productsTime,
  restOfCycle,
  risingFollower,
  risingTurning,
  shareTime,
  strokesTime,
  strokesTurningTime,
  timeTaken,
  turnsEverySpeed,
} from './follow.ts';

const plain = ({ of }: FormulaRecord, ...values: readonly unknown[]): number =>
  (of as (...all: readonly unknown[]) => number)(...values);

it('cycle of a follower by hand', () => {
  // A master of 150 m/min with a repeat of 250 mm makes ten products a second.
  expect(plain(productsTime, 4, 0.1)).toBeCloseTo(0.4, 12);
  expect(plain(timeTaken, [0.18, 0.05])).toBeCloseTo(0.23, 12);
  expect(plain(restOfCycle, 0.4, 0.23)).toBeCloseTo(0.17, 12);
  expect(plain(shareTime, 0.25, 0.4)).toBeCloseTo(0.1, 12);
  // Three for two: at 2.5 m/s, 3.75 m/s; on a shaft of 10 rad/s, 15 rad/s.
  expect(plain(gearedSpeed, 2.5, 3, 2)).toBeCloseTo(3.75, 12);
  expect(plain(gearedTurning, 10, 3, 2)).toBeCloseTo(15, 12);
  // One turn in half a metre is five turns a second.
  expect(plain(turnsEverySpeed, 2.5, 0.5) / (2 * Math.PI)).toBeCloseTo(5, 12);
  expect(plain(strokesTime, 1, 2.5)).toBeCloseTo(0.8, 12);
  expect(plain(strokesTurningTime, 5, 10)).toBeCloseTo(1, 12);
  expect(plain(positionsTime, 0.5, 3, 2.5)).toBeCloseTo(1, 12);
  expect(plain(anglesTime, 1, 6, 10)).toBeCloseTo(0.5, 12);
});

it('a follower behind a master on its ramp, differentiated twice', () => {
  // A follower at sin(k·x) of a master that has speed V now and gains or loses it all in t.
  const [k, V, t, x0] = [7, 2.5, 1.2, 0.3];
  const h = 1e-4;
  for (const sign of [1, -1]) {
    const master = (s: number): number => x0 + V * s + (sign * V * s * s) / (2 * t);
    const follower = (s: number): number => Math.sin(k * master(s));
    const twice = (follower(h) - 2 * follower(0) + follower(-h)) / h ** 2;
    const speed = k * V * Math.cos(k * x0);
    const steady = -((k * V) ** 2) * Math.sin(k * x0);
    for (const rule of sign === 1 ? [risingFollower, risingTurning] : [fallingFollower, fallingTurning])
      expect(plain(rule, steady, speed, t)).toBeCloseTo(twice, 2);
  }
});
