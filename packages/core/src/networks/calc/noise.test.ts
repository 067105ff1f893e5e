// Losses of frames by bits that fail: every combination counted, and from bits to frames and back.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import { anyLost, bitErrorRatio, frameErrorRatio } from './noise.ts';

const bit = q(1, 'bit');

describe('lost frames', () => {
  it('there and back again: the bit error ratio of a frame error ratio is the one it came from', () => {
    for (const p of [1e-15, 1e-12, 1e-6, 0.01, 0.3])
      for (const bits of [1, 64, 12_000]) {
        const f = frameErrorRatio({ p: q(p, '1'), L: q(bits, 'bit'), b: bit }, 'test');
        if (f.value < 0.999)
          expect(bitErrorRatio({ f, b: bit, L: q(bits, 'bit') }, 'test').value / p).toBeCloseTo(1, 10);
      }
  });

  it('keep their digits where a bit hardly ever fails', () => {
    const f = (p: number) => frameErrorRatio({ p: q(p, '1'), L: q(8000, 'bit'), b: bit }, 'test').value;
    expect(f(1e-18) / 8e-15).toBeCloseTo(1, 12);
    expect(f(0)).toBe(0);
    expect(f(1)).toBe(1);
  });

  it('every combination of losses but the one without any', () => {
    const random = seeded(10);
    for (let round = 0; round < 20; round++) {
      const p = Array.from({ length: 1 + Math.floor(6 * random()) }, () => random() ** 4);
      let lost = 0;
      for (let which = 1; which < 2 ** p.length; which++)
        lost += p.reduce((share, each, at) => share * ((which >> at) & 1 ? each : 1 - each), 1);
      expect(anyLost({ p: p.map((each) => q(each, '1')) }, 'test').value).toBeCloseTo(lost, 13);
    }
    expect(anyLost({ p: [q(1e-20, '1'), q(2e-20, '1')] }, 'test').value / 3e-20).toBeCloseTo(1, 14);
    expect(anyLost({ p: [] }, 'test').value).toBe(0);
    expect(() => anyLost({ p: [q(1.5, '1')] }, 'test')).toThrow('a loss is a probability, and here 1.5');
  });

  it('5 a minute at 1 kHz are 8.3e-5 of the frames: nothing that bits at 1e-10 do', () => {
    const share = 5 / 60_000;
    const p = bitErrorRatio({ f: q(share, '1'), b: bit, L: q(576, 'bit') }, 'test').value;
    expect(share).toBeCloseTo(8.3e-5, 6);
    expect(p / 1e-10).toBeGreaterThan(1000);
  });
});
