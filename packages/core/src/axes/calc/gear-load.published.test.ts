// Mean loads against a published example.
import { expect, it } from 'vitest';
import { lifeExponents, wear } from './gear-load.ts';

it('Mott, Machine Elements in Mechanical Design, example 14-6 (read): 650, 750 and 250 lb come to 597 lb', () => {
  const worn = wear(lifeExponents.ball);
  // The speed stays, at 600 rpm, for 30, 10 and 20 minutes.
  for (const [load, minutes] of [
    [650, 30],
    [750, 10],
    [250, 20],
  ] as const)
    worn.add(load, 600 * 2 * Math.PI * minutes);
  expect(Math.abs(worn.mean() - 597)).toBeLessThan(0.5);
});
