// Patterns of pulses against pulses walked through every phase, one by one, and against what is known of the test generator.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import { framesSpoilt } from './bursts.ts';
import {
  type FrameOpen,
  frameMeetsPulse,
  inARowToPattern,
  longestWalk,
  lostToPattern,
  type PulsePattern,
  patternLosses,
  pulsesInBursts,
  tripsEachUpdate,
} from './pulse-pattern.ts';

/** Updates from each phase on, each looked at frame by frame and pulse by pulse, in whole picoseconds. */
function walked(pattern: PulsePattern, tries: readonly (readonly FrameOpen[])[], update_ps: number) {
  const { starts_ps, pulse_ps, period_ps } = pattern;
  const isLost = Array.from({ length: period_ps }, (_, phase) =>
    tries.every((frames) =>
      frames.some(({ from_ps, lasts_ps }) =>
        starts_ps.some((start) => {
          for (let ps = -lasts_ps; ps < pulse_ps; ps++)
            if ((((start + ps - from_ps - phase) % period_ps) + period_ps) % period_ps === 0) return true;
          return false;
        }),
      ),
    ),
  );
  const runs = isLost.map((_, phase) => {
    let run = 0;
    while (run <= period_ps && isLost[(phase + run * update_ps) % period_ps]) run++;
    return run;
  });
  const longest = Math.max(...runs);
  const begins = (least: number) =>
    runs.filter((run, phase) => run >= least && !isLost[(phase - (update_ps % period_ps) + period_ps) % period_ps])
      .length / period_ps;
  return {
    share: isLost.filter(Boolean).length / period_ps,
    longest: longest > period_ps ? Infinity : longest,
    atLeast: (row: number) => runs.filter((run) => run >= row).length / period_ps,
    begins,
  };
}

describe('a pattern of pulses', () => {
  it('pulses walked picosecond by picosecond: share, runs and trips of 200 patterns', () => {
    let endless = 0;
    for (let seed = 0; seed < 200; seed++) {
      const random = seeded(seed);
      const whole = (least: number, most: number) => least + Math.floor(random() * (most - least + 1));
      const period_ps = whole(20, 120);
      const pattern: PulsePattern = {
        starts_ps: Array.from({ length: whole(0, 6) }, () => whole(0, period_ps - 1)),
        pulse_ps: whole(1, 4),
        period_ps,
      };
      const tries = Array.from({ length: whole(1, 2) }, () =>
        Array.from({ length: whole(1, 2) }, () => ({ from_ps: whole(0, 40), lasts_ps: whole(1, 9) })),
      );
      const update_ps = whole(5, 90);
      const found = patternLosses(pattern, tries, update_ps);
      const expected = walked(pattern, tries, update_ps);
      expect(found.share).toBeCloseTo(expected.share, 13);
      expect(found.longest).toBe(expected.longest);
      found.inARow.forEach((share, at) => {
        expect(share).toBeCloseTo(expected.atLeast(at + 1), 13);
        if (found.longest < Infinity) expect(tripsEachUpdate(found, at + 1)).toBeCloseTo(expected.begins(at + 1), 13);
      });
      endless += Number(found.longest === Infinity);
    }
    expect(endless).toBeGreaterThan(0);
    expect(endless).toBeLessThan(100);
  });

  const open_ps = 5_760_000;
  const generator = (every_ps: number, burst_ps: number) => pulsesInBursts(50_000, every_ps, burst_ps, 3e11);

  it.each([
    ['5 kHz', 2e8, 15e9],
    ['100 kHz', 1e7, 75e7],
  ])('of the test generator at %s has 75 pulses and costs the share of a burst in its period', (_, every, burst) => {
    const pattern = generator(every, burst);
    expect(pattern.starts_ps).toHaveLength(75);
    const { share } = patternLosses(pattern, [[{ from_ps: 0, lasts_ps: open_ps }]], 1e9);
    const during = frameMeetsPulse({ L: q(5.76e-6, 's'), w: q(50e-9, 's'), e: q(every * 1e-12, 's') }, 'test').value;
    expect(share).toBeCloseTo((during * burst) / 3e11, 12);
  });

  it('hits every frame of a cycle that is a multiple of its pulses, and few of any other', () => {
    const frame = [[{ from_ps: 0, lasts_ps: open_ps }]];
    const tied = patternLosses(generator(2e8, 15e9), frame, 1e9);
    const loose = patternLosses(generator(2e8, 15e9), frame, 1_013_000_000);
    // 15 frames at 1 ms meet every fifth pulse of 75; moved on by 13 µs the next frame already misses.
    expect(tied.longest).toBe(15);
    expect(loose.longest).toBe(1);
    expect(loose.share).toBeCloseTo(tied.share, 12);
  });

  it('is one burst where its pulses leave no gap', () => {
    const [burst_ps, update_ps] = [3_300_000_000, 1e9];
    const dropout: PulsePattern = { starts_ps: [0], pulse_ps: burst_ps, period_ps: 1e12 };
    const { longest } = patternLosses(dropout, [[{ from_ps: 0, lasts_ps: open_ps }]], update_ps);
    const B = q(burst_ps * 1e-12, 's');
    const most = framesSpoilt({ B, L: q(5.76e-6, 's'), T: q(1e-3, 's') }, 'test').value;
    expect(longest).toBe(most);
  });

  it('costs less with a repeat in the same cycle, unless pulse and repeat go together', () => {
    const twice = (after_ps: number) =>
      patternLosses(
        generator(2e8, 15e9),
        [[{ from_ps: 0, lasts_ps: open_ps }], [{ from_ps: after_ps, lasts_ps: open_ps }]],
        1e9,
      );
    expect(twice(1e8).share).toBe(0);
    const together = twice(2e8);
    expect(together.longest).toBe(15);
    expect(
      together.share / patternLosses(generator(2e8, 15e9), [[{ from_ps: 0, lasts_ps: open_ps }]], 1e9).share,
    ).toBeCloseTo(74 / 75, 9);
  });

  it('as quantities: command and answer of two tries', () => {
    const s = (value: number) => q(value, 's');
    const inputs = {
      w: s(50e-9),
      e: s(2e-4),
      B: s(15e-3),
      P: s(0.3),
      T: s(1e-3),
      o: [s(0), s(7e-6), s(2e-4), s(2.07e-4)],
      L: [5.76e-6, 5.76e-6, 5.76e-6, 5.76e-6].map(s),
      a: [1, 1, 2, 2].map((value) => q(value, '1')),
    };
    const tries = [0, 2e8].map((from) => [0, 7e6].map((at) => ({ from_ps: from + at, lasts_ps: open_ps })));
    const plain = patternLosses(generator(2e8, 15e9), tries, 1e9);
    expect(lostToPattern(inputs, 'test').value).toBe(plain.share);
    expect(inARowToPattern(inputs, 'test').value).toBe(plain.longest);
    expect(plain.longest).toBe(15);
  });

  it('ends the walk where a run goes on for ever, or as good as that', () => {
    const frame = [[{ from_ps: 0, lasts_ps: 10 }]];
    const one: PulsePattern = { starts_ps: [0], pulse_ps: 5, period_ps: 1e9 };
    expect(patternLosses(one, frame, 1e9)).toEqual({ share: 15e-9, inARow: [15e-9], longest: Infinity });
    const slow: PulsePattern = { starts_ps: [0], pulse_ps: 3 * longestWalk, period_ps: 1e9 };
    expect(patternLosses(slow, frame, 1e9 + 1).longest).toBe(Infinity);
    expect(patternLosses({ ...one, starts_ps: [] }, frame, 7)).toEqual({ share: 0, inARow: [], longest: 0 });
    expect(() => patternLosses(one, frame, 0.5)).toThrow('the period of the updates, in ps, is whole and 1 or more');
    expect(() => pulsesInBursts(1, 0, 1, 1)).toThrow(
      'a time of the pattern, in ps, is whole and 1 or more, and here 0',
    );
  });
});
