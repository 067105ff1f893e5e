// Critical speeds against printed ones.
import { expect, it } from 'vitest';
import { q } from '../../working/testing.support.ts';
import { criticalScrewSpeed, type EndFixing, endFixings, usableScrewShare, usableScrewSpeed } from './screw-speed.ts';

const about = 'test';
/** Steel by usual figures, from memory; neither source says which it takes. */
const steel = { E: q(206e9, 'Pa'), ρ: q(7850, 'kg/m³') };
const critical = (fixing: EndFixing, d: number, l: number) =>
  criticalScrewSpeed({ λ: q(endFixings[fixing], '1'), d: q(d, 'm'), l: q(l, 'm'), ...steel }, about);

it('Thomson, Theory of Vibration with Applications, appendix D (read): 4.7300, 1.8751 and their squares', () => {
  expect(endFixings.fixed_fixed).toBeCloseTo(4.73, 4);
  expect(endFixings.fixed_fixed ** 2).toBeCloseTo(22.3733, 4);
  expect(endFixings.fixed_free).toBeCloseTo(1.8751, 4);
  expect(endFixings.fixed_free ** 2).toBeCloseTo(3.516, 4);
});

it('a trade table of factors for screws, 80 % counted in (read): 3.4, 9.7, 15.1 and 21.9', () => {
  // Usable speed in rpm = factor · root diameter/length² · 10⁷, both in mm.
  const table: readonly (readonly [EndFixing, number])[] = [
    ['fixed_free', 3.4],
    ['supported_supported', 9.7],
    ['fixed_supported', 15.1],
    ['fixed_fixed', 21.9],
  ];
  for (const [fixing, factor] of table) {
    const ω = critical(fixing, 0.02, 1.5);
    const usable = usableScrewSpeed({ s: q(usableScrewShare, '1'), ω }, about).value;
    const rpm = (usable * 60) / (2 * Math.PI);
    expect(Math.abs((rpm / 1e7 / 20) * 1500 ** 2 - factor)).toBeLessThan(0.05);
  }
});

it('a trade paper on screws (read): 1 in by 100 in swings at about 18 Hz fixed, at about 8 Hz supported', () => {
  const hertz = (fixing: EndFixing) => critical(fixing, 0.0254, 2.54).value / (2 * Math.PI);
  expect(Math.abs(hertz('fixed_fixed') - 18)).toBeLessThan(0.5);
  expect(Math.abs(hertz('supported_supported') - 8)).toBeLessThan(0.5);
});
