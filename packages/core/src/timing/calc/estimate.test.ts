// Estimates of executions by hand.
import { expect, it } from 'vitest';
import { q } from '../../working/testing.support.ts';
import { estimatedTime, loadReserve } from './estimate.ts';
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
  const U = utilisation({ C: [most!], T: [us(1000)] }, about);
  expect(loadReserve({ U }, about).value).toBeCloseTo(0.8, 12);
});
