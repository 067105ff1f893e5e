// Counters of a line against lines with a known fault, played with seeded numbers.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { burstiness, firstDefect, readCounters } from './counters.ts';

type Passing = 'all frames' | 'whole frames';

/** Frames down a line; each cable spoils its share of those that are still whole. */
function counted(shares: readonly number[], frames: number, passesOn: Passing, random: () => number) {
  const ports = shares.map(() => ({ frames: 0, spoilt: 0 }));
  for (let frame = 0; frame < frames; frame++) {
    let isSpoilt = false;
    for (const [at, share] of shares.entries()) {
      isSpoilt ||= random() < share;
      ports[at]!.frames++;
      if (!isSpoilt) continue;
      ports[at]!.spoilt++;
      if (passesOn === 'whole frames') break;
    }
  }
  return ports;
}

describe('error counters along a line', () => {
  it.each<Passing>(['all frames', 'whole frames'])('find the bad cable where devices pass on %s', (passesOn) => {
    const random = seeded(4);
    const expected = 1e-3;
    for (let bad = 0; bad < 5; bad++) {
      const shares = Array.from({ length: 5 }, (_, at) => (at === bad ? 8 * expected : expected));
      const ports = counted(shares, 20_000, passesOn, random).map((port) => ({ ...port, expected }));
      const readings = readCounters(ports, passesOn, 0.99);
      expect(firstDefect(readings)).toBe(bad);
      expect(readings.filter(({ isDefect }) => isDefect)).toHaveLength(1);
      expect(readings[bad]!.loss.least).toBeLessThan(8 * expected);
      expect(readings[bad]!.loss.most).toBeGreaterThan(8 * expected);
    }
  });

  it('blame no cable of a sound line, but for 1 of 100 lines and a few by chance', () => {
    const random = seeded(5);
    const shares = Array.from({ length: 12 }, (_, at) => 0.01 * (1 + (at % 3)));
    let blamed = 0;
    for (let line = 0; line < 400; line++) {
      const ports = counted(shares, 1000, 'all frames', random);
      const readings = readCounters(
        ports.map((port, at) => ({ ...port, expected: shares[at]! })),
        'all frames',
        0.99,
      );
      blamed += Number(firstDefect(readings) !== undefined);
    }
    // 4 expected at most; more than 12 come with a chance of 3e-4, and some 40 if each port were given the whole 1 %.
    expect(blamed).toBeLessThan(13);
  });

  it('let a later port be behind, and call what grows first the place of the fault', () => {
    const ports = [0, 0, 310, 309, 310].map((spoilt) => ({ frames: 86_400_000, spoilt, expected: 6e-8 }));
    const readings = readCounters(ports, 'all frames', 0.95);
    expect(readings.map(({ own }) => own)).toEqual([0, 0, 310, 0, 1]);
    expect(firstDefect(readings)).toBe(2);
    expect(readings[0]!.chance).toBe(1);
  });

  it('are refused where they cannot be', () => {
    expect(() => readCounters([{ frames: 1, spoilt: 2, expected: 0 }], 'all frames', 0.9)).toThrow(
      '2 spoilt frames among 1',
    );
    expect(() => readCounters([{ frames: 0, spoilt: 0, expected: 0 }], 'all frames', 0.9)).toThrow('number of frames');
  });
});

describe('losses in bursts', () => {
  const thrown = (losses: number, intervals: number, random: () => number) => {
    const counts = Array.from({ length: intervals }, () => 0);
    for (let loss = 0; loss < losses; loss++) counts[Math.floor(random() * intervals)]!++;
    return counts;
  };

  it('are not seen in losses that come one by one, but by chance', () => {
    const random = seeded(6);
    const found = Array.from({ length: 500 }, () => burstiness(thrown(40, 24, random))!.chance);
    for (const level of [0.2, 0.05, 0.01]) {
      const share = found.filter((chance) => chance < level).length / found.length;
      // 4 standard deviations above the level.
      expect(share).toBeLessThan(level + 4 * Math.sqrt((level * (1 - level)) / found.length));
    }
  });

  it('are seen where the same number comes in two of the intervals', () => {
    const counts = thrown(20, 24, seeded(7)).map((count, at) => (at === 3 || at === 17 ? count + 10 : count));
    expect(burstiness(counts)!.chance).toBeLessThan(1e-4);
  });

  it('cannot be told without losses or from one interval', () => {
    expect(burstiness([0, 0])).toBeUndefined();
    expect(burstiness([5])).toBeUndefined();
    expect(() => burstiness([1, 0.5])).toThrow('a count of losses is whole');
  });
});
