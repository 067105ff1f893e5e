// The cycle of a loop against the loop itself; pulses and watchdogs there and back.
import { expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import { cycleForBandwidth, sampledBandwidth } from './needed-rate.ts';
import { longestSilence, periodForWatchdog } from './signal-rate.ts';

const about = 'test';
const s = (value: number) => q(value, 's');

it('dead time: 1 ms leaves 125 Hz at 45°, 83.3 Hz at 60°, derived; in cycles and beside them alike', () => {
  const at = (degrees: number, n: number, T: number, d: number) =>
    sampledBandwidth({ φ: q((degrees * Math.PI) / 180, 'rad'), n: q(n, '1'), T: s(T), d: s(d) }, about).value;
  expect(at(45, 2, 0.5e-3, 0)).toBeCloseTo(125, 9);
  expect(at(60, 1.5, 0.5e-3, 0.25e-3)).toBeCloseTo(83.3, 1);
});

it('a cycle and a period that are allowed give back what they were asked for', () => {
  const random = seeded(63);
  const draw = (least: number, most: number): number => least + random() * (most - least);
  for (let at = 0; at < 50; at++) {
    const [T, d] = [s(draw(1e-4, 1e-2)), s(draw(0, 1e-3))];
    const [φ, n] = [q(draw(0.5, 1.2), 'rad'), q(1 + Math.floor(random() * 5), '1')];
    const cycle = cycleForBandwidth({ φ, f: sampledBandwidth({ φ, n, T, d }, about), n, d }, about);
    expect(cycle.value / T.value).toBeCloseTo(1, 12);
    const k = q(Math.floor(random() * 4), '1');
    const period = periodForWatchdog({ W: longestSilence({ k, T, j: d }, about), j: d, k }, about);
    expect(period.value / T.value).toBeCloseTo(1, 12);
  }
});
