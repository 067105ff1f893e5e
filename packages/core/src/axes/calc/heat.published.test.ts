// The heating of a motor against a published example.
import { expect, it } from 'vitest';
import { settledRise } from './heat.ts';

it('R3 (read): Dubey, Fundamentals of Electrical Drives, ex. 4.1: 10 s on, 20 s off, 60 s: 49.9 and 104.4 °C', () => {
  const body = { windingShare: 0, winding_s: 1, frame_s: 60 };
  const cycle = (on: number, off: number) => [
    { lasts_s: 10, torque: on },
    { lasts_s: 20, torque: off },
  ];
  // Over the 15 °C that the machine has when it stays off, each degree that it would have for good when it stays on
  // counts the same.
  const { start_K, highest_K } = settledRise({ ...body, rise_K: 1 }, cycle(1, 0));
  const on = 15 + (40 - 15) / start_K;
  expect(Math.abs(on - 104.4)).toBeLessThan(0.05);
  expect(Math.abs(15 + (on - 15) * highest_K - 49.9)).toBeLessThan(0.05);
  // And the other way: with those losses the cycle begins at 40 °C and peaks as it goes off.
  const found = settledRise({ ...body, rise_K: on }, cycle(1, Math.sqrt(15 / on)));
  expect(found.start_K).toBeCloseTo(40, 9);
  expect(Math.abs(found.highest_K - 49.9)).toBeLessThan(0.05);
  expect(found.highestAt_s).toBe(10);
});
