// Mean loads against a published example.
import { expect, it } from 'vitest';
import { q } from '../../working/testing.support.ts';
import { lifeExponents, meanRadialLoad } from './gear-load.ts';

it('Mott, Machine Elements in Mechanical Design, example 14-6 (read): 650, 750 and 250 lb come to 597 lb', () => {
  // One newton stands for each pound. The speed stays, at 600 rpm.
  const F = [650, 750, 250].map((each) => q(each, 'N'));
  const t = [30, 10, 20].map((minutes) => q(60 * minutes, 's'));
  const n = t.map(() => q((600 * 2 * Math.PI) / 60, 'rad/s'));
  const found = meanRadialLoad({ F, n, t, p: q(lifeExponents.ball, '1') }, 'test').value;
  expect(Math.abs(found - 597)).toBeLessThan(0.5);
});
