// The spellings that are read, and that no text at all makes the reader throw or slow.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readQuantity } from './read-quantity.ts';
import { siUnits, type Unit } from './si.ts';
import { symbols } from './symbols.ts';
import { unitProblemCodes } from './unit-problems.ts';
import { usual } from './usual-units.ts';

describe('spellings', () => {
  it.each<[text: string, due: Unit, value: number, written?: string]>([
    ['300 m/min', 'm/s', 5],
    ['300m/min', 'm/s', 5, '300 m/min'],
    ['  0.1   mm ', 'm', 1e-4, '0.1 mm'],
    ['.5 mm', 'm', 5e-4],
    ['5. mm', 'm', 5e-3],
    ['2 in', 'm', 0.0508],
    ['2 ft', 'm', 0.6096],
    ['5 mil', 'm', 127e-6],
    ['12 in/s', 'm/s', 0.3048],
    ['60 ft/min', 'm/s', 0.3048],
    ['+5 mm', 'm', 5e-3],
    ['\u22125 mm', 'm', -5e-3, '-5 mm'],
    ['\u20135 mm', 'm', -5e-3, '-5 mm'],
    ['5\u00a0mm', 'm', 5e-3, '5 mm'],
    ['250 \u00b5s', 's', 250e-6],
    ['250 \u03bcs', 's', 250e-6, '250 \u00b5s'],
    ['250 us', 's', 250e-6],
    ['24 V', 'V', 24],
    ['24V', 'V', 24, '24 V'],
    ['10 \u2126', 'Ω', 10, '10 Ω'],
    ['1e-10', '1', 1e-10],
    ['2.5E-4 m', 'm', 2.5e-4],
    ['20 %', '1', 0.2],
    ['20%', '1', 0.2, '20 %'],
    ['50 ppm', '1', 5e-5],
    ['5 mm/m', '1', 5e-3],
    ['1.2 kg·cm²', 'kg·m²', 1.2e-4],
    ['1.2 kg.cm2', 'kg·m²', 1.2e-4],
    ['1.2 kg*cm^2', 'kg·m²', 1.2e-4],
    ['1.2 kgcm2', 'kg·m²', 1.2e-4],
    ['1.2 kg-cm²', 'kg·m²', 1.2e-4],
    ['1.2 kg  cm²', 'kg·m²', 1.2e-4, '1.2 kg cm²'],
    ['12 Nm', 'N·m', 12],
    ['12 mNm', 'N·m', 0.012],
    ['12 N.m', 'N·m', 12],
    ['12 N-m', 'N·m', 12],
    ['40°', 'rad', (40 * Math.PI) / 180],
    ['40 °', 'rad', (40 * Math.PI) / 180, '40°'],
    ['40 deg', 'rad', (40 * Math.PI) / 180],
    ['40\u00ba', 'rad', (40 * Math.PI) / 180, '40°'],
    ['6 arcmin', 'rad', Math.PI / 1800],
    ['36 arcsec', 'rad', Math.PI / 18000],
    ['1 rev', 'rad', 2 * Math.PI],
    ['3 mrad', 'rad', 3e-3],
    ['3000 rpm', 'rad/s', 100 * Math.PI],
    ['3000 1/min', 'rad/s', 100 * Math.PI],
    ['3000 min⁻¹', 'rad/s', 100 * Math.PI],
    ['3000 min-1', 'rad/s', 100 * Math.PI],
    ['3000 rev/min', 'rad/s', 100 * Math.PI],
    ['50 rps', 'rad/s', 100 * Math.PI],
    ['90 °/s', 'rad/s', Math.PI / 2],
    ['30 1/min', '1/s', 0.5],
    ['60 1/s', '1/s', 60],
    ['3 1/min/s', 'rad/s²', Math.PI / 10],
    ['5 kHz', 'Hz', 5000],
    ['72 octets', 'bit', 576],
    ['1 octet', 'bit', 8],
    ['72 bytes', 'bit', 576],
    ['72 B', 'bit', 576],
    ['12 bit', 'bit', 12],
    ['64 koctet', 'bit', 512000],
    ['2 KiB', 'bit', 16384],
    ['100 Mbit/s', 'bit/s', 1e8],
    ['100 Mbps', 'bit/s', 1e8],
    ['5 ns/m', 's/m', 5e-9],
    ['1 h', 's', 3600],
    ['2 minutes', 's', 120],
    ['2 seconds', 's', 2],
    ['5 a', 's', 5 * 365.25 * 86400],
    ['1.5 kWh', 'J', 5.4e6],
    ['85 V/krpm', 'V·s/rad', (0.085 * 60) / (2 * Math.PI)],
    ['85 V/(1000 rpm)', 'V·s/rad', (0.085 * 60) / (2 * Math.PI)],
    ['85 V/(1000 min⁻¹)', 'V·s/rad', (0.085 * 60) / (2 * Math.PI)],
    ['20 dB/(100 m)', 'dB/m', 0.2],
    ['20 dB/100m', 'dB/m', 0.2],
    ['35 °C', 'K abs', 308.15],
    ['300 K', 'K abs', 300],
    ['0 K', 'K abs', 0],
    ['300 K abs', 'K abs', 300],
    ['-40 °F', 'K abs', 233.15],
    ['35 degC', 'K abs', 308.15],
    ['-40 degF', 'K abs', 233.15],
    ['20 °C', 'K', 20],
    ['18 °F', 'K', 10],
    ['0.8 °C/W', 'K/W', 0.8],
    ['10 lb', 'kg', 4.5359237],
    ['10 lbf', 'N', 10 * 0.45359237 * 9.80665],
    ['1 kgf', 'N', 9.80665],
    ['10 lb·in', 'N·m', 10 * 0.45359237 * 9.80665 * 0.0254],
    ['10 lb-in', 'N·m', 10 * 0.45359237 * 9.80665 * 0.0254],
    ['10 in-lbs', 'N·m', 10 * 0.45359237 * 9.80665 * 0.0254],
    ['10 ft·lb', 'N·m', 10 * 0.45359237 * 9.80665 * 0.3048],
    ['16 oz-in', 'N·m', 0.45359237 * 9.80665 * 0.0254],
    ['16 oz·in', 'N·m', 0.45359237 * 9.80665 * 0.0254],
    ['16 ozin', 'N·m', 0.45359237 * 9.80665 * 0.0254],
    ['10 lbf·in', 'N·m', 10 * 0.45359237 * 9.80665 * 0.0254],
    ['10 ft-lb', 'N·m', 10 * 0.45359237 * 9.80665 * 0.3048],
    ['16 oz·in·s²', 'kg·m²', 0.45359237 * 9.80665 * 0.0254],
    ['10 lb·in·s²', 'kg·m²', 10 * 0.45359237 * 9.80665 * 0.0254],
    ['16 oz-in-sec²', 'kg·m²', 0.45359237 * 9.80665 * 0.0254],
    ['10 lb·in²', 'kg·m²', 10 * 0.45359237 * 0.0254 ** 2],
    ['16 oz·in²', 'kg·m²', 0.45359237 * 0.0254 ** 2],
    ['1 lb/in', 'N/m', (0.45359237 * 9.80665) / 0.0254],
    ['1 lb/ft', 'kg/m', 0.45359237 / 0.3048],
    ['1 kgf·cm·s²', 'kg·m²', 0.0980665],
    ['1 N/mm²', 'Pa', 1e6],
    ['4 kg·m² GD²', 'kg·m²', 1],
    ['4 kgf·m² GD²', 'kg·m²', 1],
    ['4 kgcm2 GD2', 'kg·m²', 1e-4],
    ['GD² 4 kgf·m²', 'kg·m²', 1],
    ['GD2 = 4 kg·m²', 'kg·m²', 1],
    ['120', 'cost', 120],
    ['120 cost', 'cost', 120],
  ])('%s where %s is due', (text, due, value, written) => {
    const reading = readQuantity(text, due);
    expect(reading).toMatchObject({ ok: true, written: written ?? text });
    const read = reading.ok ? reading.value : Number.NaN;
    expect(Math.abs(read - value)).toBeLessThanOrEqual(1e-15 * Math.abs(value));
  });

  it('reads decimal prefixes without a rounding of their own', () => {
    const value = (text: string, due: Unit) => {
      const reading = readQuantity(text, due);
      return reading.ok ? reading.value : reading.message;
    };
    expect(value('1.2 kg·cm²', 'kg·m²')).toBe(0.00012);
    expect(value('4.35 kW', 'W')).toBe(4350);
    expect(value('0.7 µs', 's')).toBe(7e-7);
    expect(value('3.3 kg', 'kg')).toBe(3.3);
  });

  it('echoes the spelling, so that a result can be printed in it', () => {
    expect(readQuantity('12 lb-in', 'N·m')).toMatchObject({ written: '12 lb-in', unit: 'lb-in' });
    expect(readQuantity('0.2', '1')).toMatchObject({ written: '0.2', unit: '1' });
    expect(readQuantity('GD² 4 kgf·m²', 'kg·m²')).toMatchObject({ written: 'GD² 4 kgf·m²', unit: 'kgf·m² GD²' });
    expect(readQuantity('AWG 18', 'm²')).toMatchObject({ written: 'AWG 18', unit: 'mm²' });
  });

  it('knows no unit by a prefix that nobody uses', () => {
    const traps = ['mM', 'cd', 'kin', 'mft', 'min²', 'dN', 'kh', 'mmin', 'hm', 'Mg', 'kt', 'PA', 'nN'];
    expect(traps.filter((word) => siUnits.some((due) => readQuantity(`1 ${word}`, due).ok))).toEqual([]);
  });
});

describe('any text at all', () => {
  const words = [...symbols.keys(), ...Object.values(usual).flatMap((entry) => [...entry.spellings, entry.example])];
  const marks = [...'·*/^-().,²³⁻¹ 0159eE+−µμ°%_', 'GD²', 'AWG', '1/', '\u2009', 'ton', 'hp', 'inf', '__proto__'];
  const pieces = fc.array(fc.constantFrom(...words, ...marks), { maxLength: 12 }).map((list) => list.join(''));
  const texts = fc.oneof(pieces, fc.string({ unit: 'binary' }), fc.string());

  it('is read or refused, never thrown at, and a problem has its words and its place', () => {
    fc.assert(
      fc.property(texts, fc.constantFrom(...siUnits), (text, due) => {
        const reading = readQuantity(text, due);
        if (reading.ok) {
          expect(Number.isFinite(reading.value)).toBe(true);
          expect(readQuantity(reading.written, due)).toMatchObject({ ok: true, value: reading.value });
        } else {
          expect(unitProblemCodes).toContain(reading.code);
          expect(reading.message).not.toMatch(/undefined|NaN/);
          expect(reading.remedy).toMatch(/^Write .+\.$/s);
          expect(reading.from).toBeGreaterThanOrEqual(0);
          expect(reading.to).toBeGreaterThanOrEqual(reading.from);
          expect(reading.to).toBeLessThanOrEqual(text.length);
        }
      }),
      { seed: 20, numRuns: 10_000 },
    );
  });

  it.each(['1', '(', ' ', 'm·', '1,', '1 ', 'GD²', '1_', '9.', 'AWG '])('is not slow when %j is repeated', (piece) => {
    const text = piece.repeat(1e5);
    for (const due of ['m', 'kg·m²', 'm²', '1'] as const) {
      expect(readQuantity(text, due).ok).toBe(false);
      expect(readQuantity(`5 ${text}`, due).ok).toBe(due === '1' && piece === ' ');
    }
  });
});
