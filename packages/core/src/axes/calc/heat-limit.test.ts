// The room of a winding, by hand.
import { expect, it } from 'vitest';
import { q } from '../../working/testing.support.ts';
import { riseLeft } from './heat-limit.ts';

it('a winding of 155 °C may warm up by 115 K at 40 °C', () => {
  expect(riseLeft({ W: q(428.15, 'K abs'), A: q(313.15, 'K abs') }, 'test').value).toBeCloseTo(115, 9);
  expect(riseLeft({ W: q(300, 'K abs'), A: q(313.15, 'K abs') }, 'test').value).toBe(0);
});
