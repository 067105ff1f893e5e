// Losses, runs, bursts and counts against published values. 'Derived' says that a row is arithmetic on a source's formula
// and inputs: it checks the code, not the physics.
import { describe, expect, it } from 'vitest';
import { octets, q } from '../../working/testing.support.ts';
import { stepsUntil } from './absorbing.ts';
import { lossInterval } from './binomial.ts';
import { burstBridged } from './bursts.ts';
import { provenByCleanRun, provenByRuleOfThree } from './clean-run.ts';
import { chanceOfTrip, lossRuns, meanTimeToTrip, meanUpdatesToTrip, medianTimeToTrip } from './losses.ts';
import { frameErrorRatio, timeBetweenBitErrors, timeOpenToNoise } from './noise.ts';
import { burstOfPulses, fastTransients, frameMeetsPulse } from './pulse-pattern.ts';
import { lostWithOwnRepeats, sharedRepeats } from './repeats.ts';
import { allTriesLost, meanLossOfTwoStates, repeatLostToo, shareBad } from './two-state.ts';

const one = (value: number) => q(value, '1');
const s = (value: number) => q(value, 's');
const bit = q(1, 'bit');

describe('random bit errors', () => {
  it('N3: UCD COMP20320, problem set: 12,000 bits at 1e-6 are lost with 0.0119283 (prints 0.012)', () => {
    const lost = frameErrorRatio({ p: one(1e-6), L: q(12_000, 'bit'), b: bit }, 'test').value;
    expect(Math.abs(lost - 0.0119283)).toBeLessThan(1e-7);
    expect(lost.toFixed(3)).toBe('0.012');
  });
  it('E8, derived: IEEE 802.3, clause 40.6.1.3.1: 125 octets at 1e-10 are lost with 1.000e-7', () =>
    expect(frameErrorRatio({ p: one(1e-10), L: octets(125), b: bit }, 'test').value.toExponential(3)).toBe('1.000e-7'));
  it('E12, derived: 100 Mbit/s fully loaded at 1e-10 has one error each 100 s', () =>
    expect(timeBetweenBitErrors({ b: bit, p: one(1e-10), R: q(100e6, 'bit/s') }, 'test').value).toBeCloseTo(100, 12));
});

describe('losses in a row', () => {
  it.each([
    [2, 6],
    [5, 62],
  ])('N9: math.stackexchange 364038: mean trials to %i losses of ½ in a row are %i', (m, mean) =>
    expect(meanUpdatesToTrip({ q: one(0.5), m: one(m) }, 'test').value).toBe(mean),
  );
  it('N10: OEIS A115867: median trials to 1 to 6 sixes in a row are 4, 30, 180, 1078, 6468, 38808', () => {
    const medians = [1, 2, 3, 4, 5, 6].map((m) => stepsUntil(lossRuns(1 / 6, m), 0.5));
    expect(medians).toEqual([4, 30, 180, 1078, 6468, 38_808]);
    expect(medianTimeToTrip({ T: s(2), q: one(1 / 6), m: one(6) }, 'test').value).toBe(77_616);
  });
  it('run-length formula, derived: losses of 1e-3, 3 in a row, take 1 001 001 000 cycles, 278.06 h at 1 ms', () => {
    expect(meanUpdatesToTrip({ q: one(1e-3), m: one(3) }, 'test').value).toBeCloseTo(1_001_001_000, 3);
    const hours = meanTimeToTrip({ T: s(1e-3), q: one(1e-3), m: one(3) }, 'test').value / 3600;
    expect(hours.toFixed(2)).toBe('278.06');
    expect(meanUpdatesToTrip({ q: one(0.01), m: one(3) }, 'test').value).toBeCloseTo(1_010_100, 6);
    expect(meanTimeToTrip({ T: s(4e-4), q: one(1e-3), m: one(2) }, 'test').value.toFixed(1)).toBe('400.4');
  });
  it.each([
    [2, 0.859375],
    [3, 0.5078125],
  ])('exact run probabilities: %i heads in a row within 10 throws come with %f', (m, chance) =>
    expect(chanceOfTrip({ t: s(10), T: s(1), q: one(0.5), m: one(m) }, 'test').value).toBe(chance),
  );
  it('254 octets at 1e-12 and 1 kHz, derived: two losses in a row each 4.9 million years if ten code bits make an octet, 7.7 if eight', () => {
    const years = (b: number) => {
      const p = frameErrorRatio({ p: one(1e-12), L: octets(254), b: q(b, 'bit') }, 'test');
      return meanTimeToTrip({ T: s(1e-3), q: p, m: one(2) }, 'test').value / (365.25 * 86_400);
    };
    expect((years(0.8) / 1e6).toFixed(1)).toBe('4.9');
    expect((years(1) / 1e6).toFixed(1)).toBe('7.7');
  });
});

describe('repeats, derived', () => {
  const mean = (stations: number, repeats: number) => {
    const { unserved } = sharedRepeats(
      Array.from({ length: stations }, () => 1e-3),
      repeats,
    );
    return unserved.reduce((sum, share) => sum + share, 0) / stations;
  };
  it.each([
    [60, 2, '6.1e-7'],
    [14, 2, '4.0e-8'],
    [4, 1, '2.5e-6'],
  ])('%i stations of loss 1e-3 that share %i repeats lose %s of their updates each', (stations, repeats, share) =>
    expect(mean(stations, repeats).toExponential(1)).toBe(share),
  );
  it('and 1e-9 with two repeats of their own', () =>
    expect(lostWithOwnRepeats({ p: one(1e-3), n: one(2) }, 'test').value).toBeCloseTo(1e-9, 20));
});

describe('LNTwww, channel models: burst error channels', () => {
  const channel = { toBad: 0.01, toGood: 0.1, lossInGood: 0.001, lossInBad: 0.1 };
  const w = shareBad({ b: one(0.01), g: one(0.1) }, 'test');
  const p = meanLossOfTwoStates({ w, u: one(0.001), v: one(0.1) }, 'test');
  it('N6: exercise 5.7: 1/11 of the time is bad', () => expect(w.value).toBe(1 / 11));
  it('N7, derived: mean loss 0.01', () => expect(p.value).toBeCloseTo(0.01, 15));
  it.each([
    [1, 8.209e-4, '8.21'],
    [2, 7.416e-4, '7.42'],
    [5, 5.523e-4, '5.52'],
    [50, 1.024e-4, '1.02'],
  ])('N8, derived: %i steps apart both are lost with %f, given the first with %s %%', (k, both, percent) => {
    const given = repeatLostToo(
      { p, w, u: one(0.001), v: one(0.1), b: one(0.01), g: one(0.1), k: one(k) },
      'test',
    ).value;
    expect(Math.abs(given * p.value - both)).toBeLessThan(1e-7);
    expect((given * 100).toFixed(2)).toBe(percent);
    expect(Math.abs(allTriesLost(channel, [k]) - both)).toBeLessThan(1e-7);
  });
});

describe('bursts', () => {
  it.each([
    [fastTransients.pulseEvery_s[0], 15e-3],
    [fastTransients.pulseEvery_s[1], 0.75e-3],
  ])('N1: IEC 61000-4-4, tutorial: 75 pulses, one each %f s, last %f s', (every, burst) =>
    expect(burstOfPulses({ n: one(fastTransients.pulses), e: s(every) }, 'test').value).toBeCloseTo(burst, 15),
  );
  it('a pulse every 200 µs meets a minimum frame with 2.9 %, every 10 µs with 58 %, derived', () => {
    const L = timeOpenToNoise({ L: octets(64), w: octets(8), R: q(100e6, 'bit/s') }, 'test');
    expect(L.value).toBeCloseTo(5.76e-6, 15);
    const share = (every: number) =>
      frameMeetsPulse({ L, w: s(fastTransients.pulse_s), e: s(every) }, 'test').value.toFixed(3);
    expect(fastTransients.pulseEvery_s.map(share)).toEqual(['0.029', '0.581']);
  });
  it('m = 3, derived: a cycle of 1 ms bridges just under 2 ms, one of 250 µs just under 0.5 ms', () => {
    const ms = (T: number) => burstBridged({ m: one(3), T: s(T), L: s(5.76e-6) }, 'test').value * 1e3;
    expect(ms(1e-3)).toBeCloseTo(1.99424, 12);
    expect(ms(250e-6)).toBeCloseTo(0.49424, 12);
  });
});

describe('what counts prove', () => {
  it('rule of three, derived: 24 h at 1 kHz without a loss prove a loss under 3.5e-8', () => {
    const n = one(86_400 * 1000);
    const rough = provenByRuleOfThree({ n }, 'test').value;
    expect(rough).toBeLessThan(3.5e-8);
    expect(rough / provenByCleanRun({ c: one(0.95), n }, 'test').value).toBeCloseTo(3 / 2.9957, 4);
  });
  it('exact binomial limits at 95 %, tables from memory: 0, 1, 5 of 10 and 1 of 100', () => {
    const digits = (losses: number, frames: number) => {
      const { least, most } = lossInterval(losses, frames, 0.95);
      return [least.toFixed(4), most.toFixed(4)];
    };
    expect(digits(0, 10)).toEqual(['0.0000', '0.3085']);
    expect(digits(1, 10)).toEqual(['0.0025', '0.4450']);
    expect(digits(5, 10)).toEqual(['0.1871', '0.8129']);
    expect(digits(1, 100)).toEqual(['0.0003', '0.0545']);
  });
});
