// Wires against Bird, Electrical Circuit Theory and Technology, chapter 3, and against worked drops.
import { describe, expect, it } from 'vitest';
import { q } from '../../working/testing.support.ts';
import { lostOnWire, warmResistance, wireResistance } from './wires.ts';

const resistance = (rho: number, length_m: number, area_m2: number) =>
  wireResistance({ ρ: q(rho, 'Ω·m'), l: q(length_m, 'm'), A: q(area_m2, 'm²') }, 'test');

describe('Bird, chapter 3: resistance of a wire', () => {
  it('2 km of 100 mm² of 0.03e-6 Ω·m: 0.6 Ω', () => {
    expect(resistance(0.03e-6, 2000, 100e-6).value).toBeCloseTo(0.6, 9);
  });

  it('1200 m of 12 mm across of 1.7e-8 Ω·m: 0.180 Ω', () => {
    expect(resistance(1.7e-8, 1200, Math.PI * 0.006 ** 2).value).toBeCloseTo(0.18, 3);
  });
});

it('Bird, chapter 3: resistance when warm: 10 Ω at 20 °C with 0.004 per kelvin are 13.2 Ω at 100 °C', () => {
  const warm = warmResistance(
    { R: q(10, 'Ω'), α: q(0.004, '1/K'), T: q(373.15, 'K abs'), K: q(293.15, 'K abs') },
    'test',
  );
  expect(warm.value).toBeCloseTo(13.2, 9);
});

// Derived with 0.0178 Ω·mm²/m, cold.
it.each([
  [50, 1.5, 2, 2.373],
  [30, 0.75, 1, 1.424],
])('%d m of %d mm² at %d A lose %d V', (length_m, area_mm2, current, lost) => {
  const R = resistance(0.0178e-6, length_m, area_mm2 * 1e-6);
  expect(lostOnWire({ R, i: q(current, 'A') }, 'test').value).toBeCloseTo(lost, 3);
});

// 40 m of 0.75 mm² at 2 A leave 20.2 V of 24 V.
it('what arrives of 24 V', () => {
  const R = resistance(0.0178e-6, 40, 0.75e-6);
  expect(24 - lostOnWire({ R, i: q(2, 'A') }, 'test').value).toBeCloseTo(20.2, 1);
});
