// What links take, by hand.
import { expect, it } from 'vitest';
import { q } from '../../working/testing.support.ts';
import { slowestSignal, wayBack } from './link-times.ts';

it('a signal takes its delay and at most its jitter more; a station has its answer back as long after its look as it arrives', () => {
  expect(slowestSignal({ d: q(8e-3, 's'), j: q(2e-3, 's') }, 'valve').value).toBeCloseTo(10e-3, 15);
  expect(wayBack({ a: q(412e-6, 's'), t: q(398e-6, 's') }, 'rack').value).toBeCloseTo(14e-6, 15);
});
