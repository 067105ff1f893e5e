// One burst against every phase between burst and frames, in whole microseconds.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import { burstBridged, burstBridgedWithRepeats, framesSpoilt, tripAfterForBurst } from './bursts.ts';

const us = (value: number) => q(value * 1e-6, 's');

/** The most updates in a row that a burst costs; one is lost when first try and repeat both touch the burst. */
function worst(burst: number, open: number, period: number, repeatAfter: number): number {
  let most = 0;
  for (let begin = 0; begin < period; begin++) {
    let lost = 0;
    // A burst that ends just as a frame begins, or begins just as it ends, is taken to spoil it.
    for (let at = -period; at <= begin + burst; at += period)
      if (at + open >= begin && at + repeatAfter <= begin + burst) lost++;
    most = Math.max(most, lost);
  }
  return most;
}

describe('a burst walked through all phases', () => {
  const random = seeded(7);
  const whole = (least: number, most: number) => least + Math.floor(random() * (most - least + 1));
  const cases = Array.from({ length: 300 }, () => {
    const period = whole(10, 400);
    return { period, burst: whole(0, 2500), open: whole(1, period - 1), repeatAfter: whole(0, period - 1) };
  });

  it('spoils so many frames', () => {
    for (const { period, burst, open } of cases) {
      // Half a microsecond more keeps a sum of seconds away from the step that the floor makes.
      const B = us(burst + 0.5);
      const found = framesSpoilt({ B, L: us(open), T: us(period) }, 'test').value;
      expect(found).toBe(worst(burst, open, period, 0));
      expect(tripAfterForBurst({ B, L: us(open), T: us(period) }, 'test').value).toBe(found + 1);
    }
  });

  it('is bridged while it is shorter than this, and no longer', () => {
    for (const m of [1, 2, 3, 5])
      for (const { period, open, repeatAfter } of cases) {
        const bridged = burstBridged({ m: q(m, '1'), T: us(period), L: us(open) }, 'test').value * 1e6;
        const repeated =
          burstBridgedWithRepeats({ m: q(m, '1'), T: us(period), D: us(repeatAfter), L: us(open) }, 'test').value * 1e6;
        for (const [limit, after] of [
          [Math.round(bridged), 0],
          [Math.round(repeated), repeatAfter],
        ] as const) {
          if (limit > 0) expect(worst(limit - 1, open, period, after)).toBeLessThan(m);
          if (limit >= 0) expect(worst(limit, open, period, after)).toBe(m);
        }
      }
  });
});
