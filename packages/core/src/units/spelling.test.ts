// The ways to write products, quotients and powers, and those that are refused.
import { describe, expect, it } from 'vitest';
import { canonical, putTogether, takeApart } from './spelling.ts';

const normal = (text: string) => {
  const spelling = takeApart(text);
  return spelling.ok ? putTogether(spelling.terms) : 'refused';
};

describe('takeApart', () => {
  it.each([
    ['kg·cm²', 'kg·cm²'],
    ['kg.cm2', 'kg·cm²'],
    ['kg*cm^2', 'kg·cm²'],
    ['kg cm²', 'kg·cm²'],
    ['kg-cm²', 'kg·cm²'],
    ['kg ⋅ cm²', 'kg·cm²'],
    ['cm2kg', 'cm²·kg'],
    ['m/s', 'm/s'],
    ['m / s', 'm/s'],
    ['m/s/s', 'm/(s·s)'],
    ['m·s⁻²', 'm/s²'],
    ['m s^-2', 'm/s²'],
    ['min-1', '1/min'],
    ['1/min', '1/min'],
    ['1 / (m s)', '1/(m·s)'],
    ['W/(m²·K)', 'W/(m²·K)'],
    ['W/(m²/s)', 'W·s/m²'],
    ['W/(1/s)', 'W·s'],
    ['(m/s)²', 'm²/s²'],
    ['(m/s)^-1', 's/m'],
    ['g_n', 'g_n'],
    ['°/s', '°/s'],
  ])('%s is %s', (text, expected) => {
    expect(normal(text)).toBe(expected);
  });

  it('keeps the place of each word and a number below the line', () => {
    expect(takeApart('V/(1000 rpm)')).toEqual({
      ok: true,
      terms: [
        { word: 'V', power: 1, from: 0, to: 1 },
        { word: 'rpm', power: -1, from: 8, to: 11 },
      ],
      over: 1000,
    });
    expect(takeApart('dB/100m')).toMatchObject({ ok: true, over: 100 });
  });

  it.each([
    '',
    '1',
    '1000',
    '/s',
    'm/',
    'm·',
    'm··s',
    'm//s',
    '(m',
    'm)',
    '()',
    'm^',
    'm²²',
    'm12',
    'm/7',
    'm/20 s',
    '5 mm',
    '-m',
    'm0',
  ])('refuses %j', (text) => {
    expect(takeApart(text)).toMatchObject({ ok: false, readings: [] });
  });

  it('refuses a spelling beyond its bounds, so that nesting and powers stay small', () => {
    expect(takeApart(`${'m·'.repeat(29)}m`).ok).toBe(true);
    expect(takeApart(`${'m·'.repeat(30)}m`).ok).toBe(false);
    expect(takeApart('(m³)³').ok).toBe(true);
    expect(takeApart('(m⁵)²').ok).toBe(false);
    expect(takeApart('('.repeat(1e6)).ok).toBe(false);
  });

  it('offers both readings of a product behind a solidus', () => {
    const readings = (text: string) => {
      const spelling = takeApart(text);
      return spelling.ok ? [] : spelling.readings;
    };
    expect(readings('W/m²·K')).toEqual(['W/(m²·K)', '(W/m²)·K']);
    expect(readings('W/m²K')).toEqual(['W/(m²·K)', '(W/m²)·K']);
    expect(readings('(W/m²·K)·s')).toEqual(['(W/(m²·K))·s', '((W/m²)·K)·s']);
    expect(readings('(W/m²·(K))·s')).toEqual(['(W/(m²·(K)))·s', '((W/m²)·(K))·s']);
    expect(readings('1/m·s')).toEqual(['1/(m·s)', '(1/m)·s']);
    expect(readings('kg (J/kg K)')).toEqual(['kg (J/(kg·K))', 'kg ((J/kg)·K)']);
  });
});

it('canonical gives characters that look the same one form and keeps every place', () => {
  const text = '\u22125 \u03bcm, \u20135 \u00ba, 6 \u02da, 3 \u2126, 2 \u212a, 4 kg·m²';
  expect(canonical(text)).toBe('-5 \u00b5m, -5 °, 6 °, 3 \u03a9, 2 K, 4 kg·m²');
  expect(canonical(text)).toHaveLength(text.length);
});
