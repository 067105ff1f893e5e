// The channel of two states against every course of its states, seeded trials, and what it is where both states are alike.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { leftWithin, meanSteps, stepsUntil } from './absorbing.ts';
import { lossInterval } from './binomial.ts';
import { lossRuns } from './losses.ts';
import { allTriesLost, everySteps, type TwoStateChannel, twoStateRuns } from './two-state.ts';

const channels = Array.from({ length: 20 }, (_, seed): TwoStateChannel => {
  const random = seeded(seed);
  return { toBad: random() ** 2, toGood: random(), lossInGood: 0.2 * random(), lossInBad: random() };
});

/** Every course of states over so many steps, with its probability. */
function* courses({ toBad, toGood }: TwoStateChannel, steps: number) {
  const bad = toBad / (toBad + toGood);
  for (let which = 0; which < 2 ** steps; which++) {
    const states = Array.from({ length: steps }, (_, at) => ((which >> at) & 1) === 1);
    let share = states[0] ? bad : 1 - bad;
    for (let at = 1; at < steps; at++) {
      const change = states[at - 1] ? toGood : toBad;
      share *= states[at] === states[at - 1] ? 1 - change : change;
    }
    yield { states, share };
  }
}

describe('a channel of two states', () => {
  it('every course of its states: a try and its repeats are lost as often', () => {
    for (const channel of channels) {
      let [first, all] = [0, 0];
      for (const { states, share } of courses(channel, 8)) {
        const loss = (at: number) => (states[at] ? channel.lossInBad : channel.lossInGood);
        first += share * loss(0);
        all += share * loss(0) * loss(2) * loss(7);
      }
      expect(allTriesLost(channel, [])).toBeCloseTo(first, 13);
      expect(allTriesLost(channel, [2, 5])).toBeCloseTo(all, 13);
    }
  });

  it('every course of its states: as many trips within 7 updates', () => {
    for (const channel of channels.slice(0, 8))
      for (const m of [1, 2, 3]) {
        let trips = 0;
        for (const { states, share } of courses(channel, 7))
          for (let which = 0; which < 2 ** 7; which++) {
            if (!which.toString(2).includes('1'.repeat(m))) continue;
            trips += states.reduce((chance, bad, at) => {
              const loss = bad ? channel.lossInBad : channel.lossInGood;
              return chance * ((which >> at) & 1 ? loss : 1 - loss);
            }, share);
          }
        expect(leftWithin(twoStateRuns(channel, m), 7)).toBeCloseTo(trips, 12);
      }
  });

  it('seen at every fifth step is one that steps five times', () => {
    for (const channel of channels) {
      // From a good channel on, and from a bad one.
      let [bad, good] = [0, 0];
      for (let step = 0; step < 5; step++) {
        bad = bad * (1 - channel.toGood) + (1 - bad) * channel.toBad;
        good = good * (1 - channel.toBad) + (1 - good) * channel.toGood;
      }
      const seen = everySteps(channel, 5);
      expect(seen.toBad).toBeCloseTo(bad, 14);
      expect(seen.toGood).toBeCloseTo(good, 14);
    }
    const slow = everySteps({ toBad: 1e-12, toGood: 3e-12, lossInGood: 0, lossInBad: 1 }, 1000);
    expect(slow.toBad / 1e-9).toBeCloseTo(1, 8);
  });

  it('trips as one of random losses where both states lose alike, and sooner where they do not', () => {
    const alike = { toBad: 0.1, toGood: 0.3, lossInGood: 0.02, lossInBad: 0.02 };
    const random = lossRuns(0.02, 3);
    expect(meanSteps(twoStateRuns(alike, 3)) / meanSteps(random)).toBeCloseTo(1, 12);
    expect(stepsUntil(twoStateRuns(alike, 3), 0.5)).toBe(stepsUntil(random, 0.5));
    const bunched = { toBad: 0.002, toGood: 0.198, lossInGood: 0.0102, lossInBad: 0.99 };
    expect(allTriesLost(bunched, [])).toBeCloseTo(0.02, 4);
    expect(meanSteps(twoStateRuns(bunched, 3))).toBeLessThan(meanSteps(random) / 100);
  });

  it('seeded trials: 20 000 machines trip as often as they should, within 99.9 %', () => {
    const channel = { toBad: 0.02, toGood: 0.3, lossInGood: 0.01, lossInBad: 0.6 };
    const random = seeded(2);
    const [m, updates, machines] = [3, 50, 20_000];
    let tripped = 0;
    for (let machine = 0; machine < machines; machine++) {
      let bad = random() < 0.02 / 0.32;
      for (let [run, update] = [0, 0]; update < updates; update++) {
        run = random() < (bad ? channel.lossInBad : channel.lossInGood) ? run + 1 : 0;
        if (run === m) {
          tripped++;
          break;
        }
        if (random() < (bad ? channel.toGood : channel.toBad)) bad = !bad;
      }
    }
    const { least, most } = lossInterval(tripped, machines, 0.999);
    const exact = leftWithin(twoStateRuns(channel, m), updates);
    expect(exact).toBeGreaterThan(least);
    expect(exact).toBeLessThan(most);
  });

  it('that never changes is good, and what is no channel is refused', () => {
    const still = { toBad: 0, toGood: 0, lossInGood: 0.1, lossInBad: 1 };
    expect(allTriesLost(still, [3])).toBeCloseTo(0.01, 15);
    expect(meanSteps(twoStateRuns(still, 1))).toBeCloseTo(10, 12);
    expect(() => twoStateRuns({ ...still, toBad: 2 }, 1)).toThrow('to become bad is a probability, and here 2');
    expect(() => everySteps(still, 0)).toThrow('the distance in steps is whole and 1 or more, and here 0');
  });
});
