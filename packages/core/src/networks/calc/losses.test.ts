// Trips by random losses against every sequence of losses, a recursion over runs in exact whole numbers, and seeded trials.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import { type AbsorbingChain, leftWithin, meanSteps } from './absorbing.ts';
import { chanceOfAtLeast, lossInterval } from './binomial.ts';
import {
  chanceOfTrip,
  lossRuns,
  meanTimeToTrip,
  meanTimeToTripAtLeast,
  meanTimeToTripOfAny,
  meanUpdatesToTrip,
  noTripOfAny,
  updatesIn,
} from './losses.ts';

const chance = (loss: number, m: number, n: number) =>
  chanceOfTrip({ t: q(n, 's'), T: q(1, 's'), q: q(loss, '1'), m: q(m, '1') }, 'test').value;
const mean = (loss: number, m: number) => meanUpdatesToTrip({ q: q(loss, '1'), m: q(m, '1') }, 'test').value;

describe('a trip by random losses', () => {
  it('every sequence of 12 updates is counted once', () => {
    for (const loss of [0.03, 0.4, 0.9])
      for (const m of [1, 2, 3, 5]) {
        let trips = 0;
        for (let which = 0; which < 2 ** 12; which++) {
          const sequence = which.toString(2).padStart(12, '0');
          if (!sequence.includes('1'.repeat(m))) continue;
          const lost = sequence.replaceAll('0', '').length;
          trips += loss ** lost * (1 - loss) ** (12 - lost);
        }
        expect(chance(loss, m, 12)).toBeCloseTo(trips, 13);
      }
  });

  /**
   * The first run of m ends at update n with q^m·(1 − q)·(no run within the n − m − 1 before). With q = 1/d all is whole
   * numbers over d^n.
   */
  it('recursion over runs of losses, in whole numbers of any size', () => {
    for (const d of [2n, 10n, 1000n])
      for (const m of [2, 4]) {
        const sequences: bigint[] = [];
        for (let n = 0; n <= 300; n++) {
          const before = sequences[n - 1] ?? 1n;
          const ending = n < m ? 0n : n === m ? 1n : (d - 1n) * (d ** BigInt(n - m - 1) - sequences[n - m - 1]!);
          sequences.push(n === 0 ? 0n : before * d + ending);
        }
        for (const n of [m, 17, 120, 300]) {
          const scaled = (sequences[n]! * 10n ** 30n) / d ** BigInt(n);
          expect(chance(1 / Number(d), m, n) / (Number(scaled) / 1e30)).toBeCloseTo(1, 12);
        }
      }
  });

  it('keeps its digits over a year of updates', () => {
    // Runs that begin are rare and so independent: 1 − exp(−n·(1 − q)·q^m) but for the share m·q^m.
    const year = updatesIn(365.25 * 86_400, 250e-6);
    expect(chance(1e-4, 3, year) / -Math.expm1(-year * (1 - 1e-4) * 1e-12)).toBeCloseTo(1, 9);
    expect(chance(1e-9, 3, year) / (year * (1 - 1e-9) * 1e-27)).toBeCloseTo(1, 9);
  });

  it('the mean is that of the chain, from hardly any loss to nothing but losses', () => {
    for (const loss of [1e-9, 1e-3, 0.5, 0.999999, 1])
      for (const m of [1, 2, 7]) expect(mean(loss, m) / meanSteps(lossRuns(loss, m))).toBeCloseTo(1, 12);
    expect(mean(1, 7)).toBe(7);
    expect(mean(0, 3)).toBe(Infinity);
  });

  it('no loss at all, and losses too rare for any number, take at least what can be told', () => {
    const asked = (loss: number) => ({ T: q(1e-3, 's'), q: q(loss, '1'), m: q(3, '1') });
    for (const loss of [0, 5e-324, 1e-104])
      expect(meanTimeToTripAtLeast({ ...asked(loss), t: q(1e300, 's') }, 'test').value).toBe(1e300);
    for (const loss of [1e-90, 0.5, 1]) {
      const told = meanTimeToTripAtLeast({ ...asked(loss), t: q(1e300, 's') }, 'test').value;
      expect(told).toBe(meanTimeToTrip(asked(loss), 'test').value);
    }
  });

  it('seeded trials: 20 000 machines trip as often as they should, within 99.9 %', () => {
    const random = seeded(1);
    const [loss, m, updates, machines] = [0.2, 3, 60, 20_000];
    let tripped = 0;
    for (let machine = 0; machine < machines; machine++)
      for (let [run, update] = [0, 0]; update < updates; update++) {
        run = random() < loss ? run + 1 : 0;
        if (run < m) continue;
        tripped++;
        break;
      }
    const { least, most } = lossInterval(tripped, machines, 0.999);
    const exact = leftWithin(lossRuns(loss, m), updates);
    expect(exact).toBeGreaterThan(least);
    expect(exact).toBeLessThan(most);
    // The trials are enough to find a loss that is wrong by 5 %.
    const wrong = leftWithin(lossRuns(1.05 * loss, m), updates);
    expect(1 - chanceOfAtLeast(tripped + 1, machines, wrong)).toBeLessThan(1e-6);
  });

  it('counts the whole updates of a time, without losing one to rounding', () => {
    expect(updatesIn(0.3, 0.1)).toBe(3);
    expect(updatesIn(86_400, 1e-3)).toBe(86_400_000);
    expect(updatesIn(0.99, 1)).toBe(0);
  });

  it('refuses what cannot be', () => {
    expect(() => lossRuns(-0.1, 2)).toThrow('the loss of an update is a probability, and here -0.1');
    expect(() => lossRuns(0.1, 0)).toThrow('the number of losses in a row is whole and 1 or more, and here 0');
  });
});

describe('trips of several stations, state by state', () => {
  /** How likely each of them loses its update or not, all together. */
  type Together = readonly { readonly lost: readonly boolean[]; readonly chance: number }[];

  /** All states of all their runs at once; the first trip leaves the chain. */
  function together(cycle: Together, inARow: readonly number[]): AbsorbingChain {
    const states = inARow.reduce<readonly (readonly number[])[]>(
      (all, m) => all.flatMap((state) => Array.from({ length: m }, (_, run) => [...state, run])),
      [[]],
    );
    const places = new Map(states.map((state, at) => [state.join(), at]));
    const stays = states.map(() => states.map(() => 0));
    const leaves = states.map(() => 0);
    for (const [at, state] of states.entries())
      for (const { lost, chance } of cycle) {
        const next = state.map((run, station) => (lost[station] ? run + 1 : 0));
        const to = places.get(next.join());
        if (to === undefined) leaves[at]! += chance;
        else stays[at]![to]! += chance;
      }
    return { start: states.map((_, at) => Number(at === 0)), stays, leaves };
  }

  /** Every outcome of every try; whoever failed first is tried again. */
  function outcomes(tries: readonly number[], repeats: number): Together {
    const found: { lost: readonly boolean[]; chance: number }[] = [];
    const again = (left: readonly number[], spare: number, chance: number): void => {
      const [first, ...others] = left;
      if (first === undefined || spare === 0) found.push({ lost: tries.map((_, at) => left.includes(at)), chance });
      else {
        again(others, spare - 1, chance * (1 - tries[first]!));
        again(left, spare - 1, chance * tries[first]!);
      }
    };
    for (let which = 0; which < 2 ** tries.length; which++) {
      const failed = tries.flatMap((_, at) => ((which >> at) % 2 === 1 ? [at] : []));
      again(
        failed,
        repeats,
        tries.reduce((all, p, at) => all * (failed.includes(at) ? p : 1 - p), 1),
      );
    }
    return found;
  }

  it('come no sooner than what is told of any of them, and as soon where nothing is shared and one loss trips', () => {
    const random = seeded(23);
    for (let made = 0; made < 60; made++) {
      const count = 2 + Math.floor(random() * 2);
      const tries = Array.from({ length: count }, () => 0.02 + 0.7 * random());
      const inARow = tries.map(() => 1 + Math.floor(random() * 3));
      for (const repeats of [0, 1, 2]) {
        const cycle = outcomes(tries, repeats);
        const losses = tries.map((_, station) =>
          cycle.reduce((sum, { lost, chance }) => sum + (lost[station] ? chance : 0), 0),
        );
        const chain = together(cycle, inARow);
        const t = losses.map((loss, at) => q(mean(loss, inARow[at]!), 's'));
        const told = meanTimeToTripOfAny({ t }, 'test').value;
        expect(meanSteps(chain) / told).toBeGreaterThan(1 - 1e-9);
        expect(meanSteps(chain)).toBeLessThanOrEqual(Math.min(...t.map(({ value }) => value)) * (1 + 1e-9));
        for (const updates of [3, 10, 40]) {
          const n = losses.map((loss, at) => q(1 - chance(loss, inARow[at]!, updates), '1'));
          const none = noTripOfAny({ n }, 'test').value;
          const exact = 1 - leftWithin(chain, updates);
          if (repeats === 0) expect(exact).toBeCloseTo(none, 12);
          else expect(exact).toBeGreaterThanOrEqual(none - 1e-12);
        }
      }
    }
  });

  it('come nearly as soon as told where losses are rare', () => {
    const tries = [1e-3, 2e-3];
    const chain = together(outcomes(tries, 0), [2, 3]);
    const t = [q(mean(1e-3, 2), 's'), q(mean(2e-3, 3), 's')];
    expect(meanSteps(chain) / meanTimeToTripOfAny({ t }, 'test').value).toBeCloseTo(1, 2);
  });
});
