// Pulses that are scanned, setpoints that come late, watchdogs that run out.
import { expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import {
  betweenLooks,
  jitterTorque,
  longestSilence,
  periodForWatchdog,
  practicalScan,
  pulsePeriod,
  pulsePeriodTurning,
  shortestPhase,
  shortestSeen,
} from './signal-rate.ts';

const s = (value: number) => q(value, 's');

it('pulses of 1 per inch at 243 ft/min ask for a scan under 10.3 ms; by the rules of practice 2 to 4 ms', () => {
  const P = pulsePeriod({ l: q(0.0254, 'm'), v: q((243 * 0.3048) / 60, 'm/s') }, 'test');
  expect(P.value).toBeCloseTo(20.6e-3, 4);
  expect(pulsePeriodTurning({ l: q(0.1, 'rad'), v: q(20, 'rad/s') }, 'test').value).toBe(5e-3);
  expect(shortestPhase({ P, d: q(0.5, '1') }, 'test').value).toBeCloseTo(10.3e-3, 4);
  const [often, rare] = [10, 5].map((n) => practicalScan({ P, n: q(n, '1') }, 'test').value * 1000);
  expect(often).toBeCloseTo(2.06, 2);
  expect(rare).toBeCloseTo(4.12, 2);
});

it('a scan shorter than the shortest phase sees every pulse, and most that are longer miss some', () => {
  const random = seeded(70);
  /** Changes that a scan sees in so many pulses, from any phase on. */
  const changes = (period: number, share: number, scan: number, pulses: number): number => {
    let [seen, before] = [0, -1];
    for (let at = random() * scan; at < pulses * period; at += scan) {
      const level = at % period < share * period ? 1 : 0;
      if (before >= 0 && level !== before) seen++;
      before = level;
    }
    return seen;
  };
  let missing = 0;
  for (let at = 0; at < 50; at++) {
    const [period, share] = [1 + random(), 0.1 + 0.8 * random()];
    const phase = shortestPhase({ P: s(period), d: q(share, '1') }, 'test').value;
    // Of the changes the first may be missed, and the last.
    expect(changes(period, share, 0.999 * phase, 200)).toBeGreaterThanOrEqual(2 * 200 - 2);
    if (changes(period, share, 1.1 * phase, 200) < 2 * 200 - 2) missing++;
  }
  // A scan that goes evenly into the period may go on seeing them.
  expect(missing).toBeGreaterThan(40);
});

it('pulses that are longer than the time between looks are all seen, through a network and a task that begins late, and no shorter ones are for sure', () => {
  const random = seeded(71);
  let missing = 0;
  for (let at = 0; at < 200; at++) {
    const [cycle, period, late, start] = [0.2 + random(), 0.5 + random(), 0.4 * random(), 0.1 * random()];
    const looks = betweenLooks({ T: [s(cycle), s(period)], l: [s(start), s(late)] }, 'test').value;
    /** Whether the task sees the signal at all that is there once for so long. */
    const isSeen = (length: number): boolean => {
      const [from, phases] = [10 + 5 * random(), [cycle * random(), period * random()]];
      const samples = Array.from({ length: 200 }, (_, sample) => phases[0]! + sample * cycle + start * random());
      const reads = Array.from({ length: 60 }, (_, job) => phases[1]! + job * period + late * random());
      return reads.some((read) => {
        const last = samples.findLast((sample) => sample <= read);
        return last !== undefined && last >= from && last < from + length;
      });
    };
    for (let pulse = 0; pulse < 20; pulse++) {
      expect(isSeen(1.0001 * looks)).toBe(true);
      if (!isSeen(0.5 * looks)) missing++;
    }
  }
  expect(missing).toBeGreaterThan(100);
  expect(shortestSeen({ f: s(3e-3), g: s(2e-3) }, 'test').value).toBe(3e-3);
});

it('a late setpoint, differentiated twice, is the torque of its jitter', () => {
  const [J, ω, T, j] = [2e-3, 50, 1e-3, 20e-6];
  const positions = [0, 1, 2, 3, 4].map((cycle) => ω * cycle * T);
  // The third was taken later than it was meant for.
  positions[3]! += ω * j;
  const speeds = positions.slice(1).map((each, at) => (each - positions[at]!) / T);
  const [, , acceleration] = speeds.slice(1).map((each, at) => (each - speeds[at]!) / T);
  // Back again it takes twice as much, since the speed turns from too high to too low.
  expect(Math.abs(acceleration!)).toBeCloseTo((2 * ω * j) / T ** 2, 6);
  const torque = jitterTorque({ J: [q(J, 'kg·m²')], ω: q(ω, 'rad/s'), j: s(j), T: s(T) }, 'test').value;
  expect(torque).toBeCloseTo((J * Math.abs(acceleration!)) / 2, 9);
});

it('a watchdog just bears the longest silence: writing every 0.5 s, one lost, needs more than 1 s', () => {
  const k = q(1, '1');
  const silence = longestSilence({ k, T: s(0.5), j: s(0.01) }, 'test');
  expect(silence.value).toBeCloseTo(1.01, 12);
  // Values at 0, 0.5, 1 s; the second is lost, the third late.
  expect(1 + 0.01 - 0).toBeCloseTo(silence.value, 12);
  expect(periodForWatchdog({ W: s(0.5), j: s(0.01), k }, 'test').value).toBeCloseTo(0.245, 12);
});
