// Repeats against every outcome of every try, a queue played with seeded numbers, and what must hold of any pool.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import { lossInterval } from './binomial.ts';
import {
  failuresInCycle,
  lostWithOwnRepeats,
  lostWithSharedRepeats,
  sharedRepeats,
  sharedRepeatsNeeded,
} from './repeats.ts';

type Order = 'again at once' | 'behind the others';

interface Played {
  readonly unserved: readonly number[];
  readonly used: number;
}

/** One cycle, tries in their real order: all stations once, then the repeats. `fails` says how a try goes. */
function played(stations: number, repeats: number, order: Order, fails: (station: number) => boolean): Played {
  const waiting = Array.from({ length: stations }, (_, station) => station).filter(fails);
  let used = 0;
  for (; used < repeats && waiting.length > 0; used++) {
    const station = waiting.shift()!;
    if (!fails(station)) continue;
    if (order === 'again at once') waiting.unshift(station);
    else waiting.push(station);
  }
  return { unserved: waiting, used };
}

/** The same exactly: every outcome of every try, by playing on with each outcome where a new one is asked for. */
function enumerated(lost: readonly number[], repeats: number, order: Order) {
  const unserved = lost.map(() => 0);
  const used = Array.from({ length: repeats + 1 }, () => 0);
  const left = Array.from({ length: lost.length + 1 }, () => 0);
  const branch = (outcomes: readonly boolean[]): void => {
    let [at, share] = [0, 1];
    let isOpen = false;
    const game = played(lost.length, repeats, order, (station) => {
      const outcome = outcomes[at++];
      if (outcome === undefined) isOpen = true;
      else share *= outcome ? lost[station]! : 1 - lost[station]!;
      return outcome ?? false;
    });
    if (isOpen) {
      branch([...outcomes, false]);
      branch([...outcomes, true]);
      return;
    }
    for (const station of game.unserved) unserved[station]! += share;
    used[game.used]! += share;
    left[game.unserved.length]! += share;
  };
  branch([]);
  return { unserved, used, left };
}

const near = (one: readonly number[], other: readonly number[]) => {
  expect(one).toHaveLength(other.length);
  for (const [at, value] of one.entries()) expect(Math.abs(value - other[at]!)).toBeLessThan(1e-13);
};

const cases = Array.from({ length: 24 }, (_, seed) => {
  const random = seeded(seed);
  const stations = 1 + Math.floor(5 * random());
  return { lost: Array.from({ length: stations }, () => random() ** 2), repeats: Math.floor(5 * random()) };
});

describe('repeats that all stations share', () => {
  it('every outcome of every try is counted once', () => {
    for (const { lost, repeats } of cases) {
      const found = sharedRepeats(lost, repeats);
      const expected = enumerated(lost, repeats, 'again at once');
      near(found.unserved, expected.unserved);
      near(found.used, expected.used);
      near(found.left, expected.left);
      const last = lost.at(-1)!;
      const o = lost.slice(0, -1).map((p) => q(p, '1'));
      const own = lostWithSharedRepeats({ o, p: q(last, '1'), n: q(repeats, '1') }, 'test').value;
      expect(own).toBeCloseTo(expected.unserved.at(-1)!, 13);
    }
  });

  it('leave as many unserved in either order where all stations are alike, and serve the early ones better', () => {
    const lost = [0.3, 0.3, 0.3, 0.3];
    const found = sharedRepeats(lost, 3);
    const queued = enumerated(lost, 3, 'behind the others');
    near(found.left, queued.left);
    near(found.used, queued.used);
    expect(found.unserved.toSorted((a, b) => a - b)).toEqual(found.unserved);
    expect(found.unserved[3]).toBeGreaterThan(queued.unserved[3]!);
  });

  it('of one station are its own: p^(n + 1)', () => {
    for (const p of [0, 1e-9, 0.2, 1])
      for (const n of [0, 1, 4]) {
        const own = lostWithOwnRepeats({ p: q(p, '1'), n: q(n, '1') }, 'test').value;
        expect(sharedRepeats([p], n).unserved[0]).toBeCloseTo(own, 15);
      }
  });

  it('are played 100 000 cycles of 48 stations: losses, repeats used and failures within 99.9 %', () => {
    const [stations, repeats, cycles, p] = [48, 2, 100_000, 0.01];
    const random = seeded(48);
    const counts = { late: 0, used2: 0, failed2: 0 };
    for (let cycle = 0; cycle < cycles; cycle++) {
      let [tries, failed] = [0, 0];
      const game = played(stations, repeats, 'again at once', () => {
        const fails = random() < p;
        if (tries++ < stations && fails) failed++;
        return fails;
      });
      counts.late += Number(game.unserved.includes(stations - 1));
      counts.used2 += Number(game.used === 2);
      counts.failed2 += Number(failed === 2);
    }
    const lost = Array.from({ length: stations }, () => p);
    const { unserved, used } = sharedRepeats(lost, repeats);
    const expected = { late: unserved.at(-1)!, used2: used[2]!, failed2: failuresInCycle(lost)[2]! };
    for (const [key, count] of Object.entries(counts)) {
      const { least, most } = lossInterval(count, cycles, 0.999);
      expect(expected[key as keyof typeof expected], key).toBeGreaterThan(least);
      expect(expected[key as keyof typeof expected], key).toBeLessThan(most);
    }
  });

  it('add up, for a thousand stations too', () => {
    const lost = Array.from({ length: 1000 }, (_, at) => 1e-3 * (1 + (at % 7)));
    const { unserved, used, left } = sharedRepeats(lost, 8);
    const total = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0);
    expect(total(used)).toBeCloseTo(1, 12);
    expect(total(left)).toBeCloseTo(1, 12);
    expect(total(left.map((share, count) => share * count)) / total(unserved)).toBeCloseTo(1, 12);
    expect(total(failuresInCycle(lost).map((share, count) => share * count)) / total(lost)).toBeCloseTo(1, 12);
  });

  it('are as few as will do', () => {
    const lost = Array.from({ length: 60 }, () => 1e-3);
    const needed = sharedRepeatsNeeded(lost, 1e-7, 9)!;
    expect(sharedRepeats(lost, needed).unserved.at(-1)).toBeLessThanOrEqual(1e-7);
    expect(sharedRepeats(lost, needed - 1).unserved.at(-1)).toBeGreaterThan(1e-7);
    expect(sharedRepeatsNeeded([1], 0.5, 9)).toBeUndefined();
    expect(sharedRepeatsNeeded([], 0, 9)).toBe(0);
  });

  it('are refused where they cannot be', () => {
    expect(() => sharedRepeats([0.1], 1.5)).toThrow('the number of repeats is whole and 0 or more, and here 1.5');
    expect(() => sharedRepeats([Number.NaN], 1)).toThrow('the loss of a try is a probability, and here NaN');
  });
});
