// The speeds of a rotary knife where they must agree.
import { expect, it } from 'vitest';
import { q } from '../../working/testing.support.ts';
import { knifeMeanSpeed, synchronousLength } from './cutter.ts';
import { wayTime } from './follow.ts';
import { wheelSpeed } from './transform.ts';

const about = 'test';

it.each([1, 2, 3])(
  'at the synchronous length a knife keeps the speed of the cut, and turns twice as fast for half of it: %i blades',
  (blades) => {
    const D = q(0.16, 'm');
    const v = q(1.5, 'm/s');
    const n = q(blades, '1');
    const l = synchronousLength({ D, n }, about);
    const inTheCut = wheelSpeed({ v, D }, about).value;
    const mean = (part: number) =>
      knifeMeanSpeed({ n, t: wayTime({ l: q(part * l.value, 'm'), v }, about) }, about).value;
    expect(mean(1)).toBeCloseTo(inTheCut, 9);
    expect(mean(0.5)).toBeCloseTo(2 * inTheCut, 9);
  },
);
