// A varying speed against drawn speeds.
import { expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { normalQuantile } from './normal.ts';
import { plain } from './plain.support.ts';
import { shareOfSpeed, speedOffset } from './speed-spread.ts';

it('a delay at a speed that varies, drawn many times', () => {
  const random = seeded(8);
  const [speed, share, delay] = [5, 0.02, 50e-6];
  const drawn = Array.from(
    { length: 200_000 },
    () => plain(shareOfSpeed)(speed, 1 + share * normalQuantile(random())) * delay,
  );
  const mean = drawn.reduce((sum, each) => sum + each) / drawn.length;
  const deviation = Math.sqrt(drawn.reduce((sum, each) => sum + (each - mean) ** 2, 0) / drawn.length);
  expect(deviation / plain(speedOffset)(speed * delay, share)).toBeCloseTo(1, 2);
  expect(plain(speedOffset)(-speed * delay, share)).toBe(plain(speedOffset)(speed * delay, share));
});
