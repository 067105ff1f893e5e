// Estimates of executions by hand.
import { expect, it } from 'vitest';
import { q } from '../../working/testing.support.ts';
import { estimatedTime, loadReserve, scaledTime, timeForOneMore } from './estimate.ts';
import { responseTime } from './response.ts';
import { utilisation } from './utilisation.ts';

const us = (value: number) => q(value * 1e-6, 's');
const about = 'test';

it('a task estimated by hand: 20 µs, 12 axes and 40 blocks, at least, likely and at most; what it leaves of 1 ms', () => {
  const n = [q(12, '1'), q(40, '1')];
  const [least, likely, most] = [
    [4, 0.5],
    [6, 0.8],
    [10, 1.5],
  ].map((costs) => estimatedTime({ b: us(20), n, c: costs.map(us) }, about));
  expect([least, likely, most].map((each) => each!.value * 1e6)).toEqual([
    expect.closeTo(20 + 48 + 20, 9),
    expect.closeTo(20 + 72 + 32, 9),
    expect.closeTo(20 + 120 + 60, 9),
  ]);
  expect(scaledTime({ C: most!, s: q(2, '1') }, about).value).toBeCloseTo(100e-6, 12);
  const U = utilisation({ C: [most!], T: [us(1000)] }, about);
  expect(loadReserve({ U }, about).value).toBeCloseTo(0.8, 12);
  const C = timeForOneMore({ U, q: q(0.3, '1'), T: us(4000) }, about);
  expect(C.value).toBeCloseTo(2000e-6, 12);
  const both = utilisation({ C: [most!, C], T: [us(1000), us(4000)] }, about);
  expect(loadReserve({ U: both }, about).value).toBeCloseTo(0.3, 12);
  // It keeps its period as well: 2 ms of its own, and three calls of the more urgent.
  const none = us(0);
  const R = responseTime({ C, T: us(4000), J: none, B: none, c: [most!], t: [us(1000)], j: [none] }, about);
  expect(R.value * 1e6).toBeCloseTo(2600, 6);
});
