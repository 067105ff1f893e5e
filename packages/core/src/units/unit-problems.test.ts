// Every problem of reading a quantity once, with its exact words.
import { describe, expect, it } from 'vitest';
import { readQuantity } from './read-quantity.ts';
import { siUnits, type Unit } from './si.ts';
import type { UnitProblemCode } from './unit-problems.ts';

describe('problems', () => {
  it.each<[text: string, due: Unit, code: UnitProblemCode, marked: string, message: string, remedy: string]>([
    [
      '',
      's',
      'number-expected',
      '',
      'nothing is written; a time is due here',
      'Write a time such as 500 µs; usual units are ms, µs and s.',
    ],
    [
      ' fast',
      's',
      'number-expected',
      'fast',
      "'fast' does not begin with a number",
      'Write a time such as 500 µs; usual units are ms, µs and s.',
    ],
    ['1 1/2 in', 'm', 'number-expected', '1 1/2', "'1 1/2' is a fraction; a decimal number is due", 'Write 1.5 in.'],
    [
      '1.5.2 mm',
      'm',
      'number-expected',
      '1.5.2 mm',
      "'1.5.2 mm' does not begin with one plain number",
      'Write a length such as 12 mm; usual units are mm, m and µm.',
    ],
    [
      '.inf s',
      's',
      'number-not-finite',
      '.inf s',
      "'.inf s' is not a finite number",
      'Write a time such as 500 µs; usual units are ms, µs and s.',
    ],
    [
      '1e308 km',
      'm',
      'number-not-finite',
      '1e308 km',
      "'1e308 km' is not a finite number",
      'Write a length such as 12 mm; usual units are mm, m and µm.',
    ],
    [
      '1,500 mm',
      'm',
      'decimal-comma',
      '1,500',
      "'1,500' has a comma, which separates decimals for some and thousands for others",
      'Write 1.5 mm or 1500 mm; the decimal sign is the point.',
    ],
    [
      '-1,5 mm',
      'm',
      'decimal-comma',
      '-1,5',
      "'-1,5' has a comma, which separates decimals for some and thousands for others",
      'Write -1.5 mm; the decimal sign is the point.',
    ],
    [
      '1.500,25 mm',
      'm',
      'decimal-comma',
      '1.500,25',
      "'1.500,25' has a comma, which separates decimals for some and thousands for others",
      'Write 1500.25 mm; the decimal sign is the point.',
    ],
    [
      '1,500',
      '1',
      'decimal-comma',
      '1,500',
      "'1,500' has a comma, which separates decimals for some and thousands for others",
      'Write 1.5 or 1500; the decimal sign is the point.',
    ],
    [
      '1,5',
      's',
      'decimal-comma',
      '1,5',
      "'1,5' has a comma, which separates decimals for some and thousands for others",
      'Write 1.5 with its unit, such as ms; the decimal sign is the point.',
    ],
    ['10_000 mm', 'm', 'digit-grouping', '10_000', "'10_000' has its digits in groups", 'Write 10000 mm.'],
    [
      '10\u2009000 mm',
      'm',
      'digit-grouping',
      '10\u2009000',
      "'10\u2009000' has its digits in groups",
      'Write 10000 mm.',
    ],
    ['10 000 mm', 'm', 'digit-grouping', '10 000', "'10 000' has its digits in groups", 'Write 10000 mm.'],
    [
      '-300 °C',
      'K abs',
      'out-of-range',
      '-300 °C',
      "'-300 °C' is below absolute zero",
      'Write a temperature above -273.15 °C.',
    ],
    ['500', 's', 'unit-missing', '', "'500' has no unit; a time is due here", 'Write 500 ms, 500 µs or 500 s.'],
    ['3', 'dB', 'unit-missing', '', "'3' has no unit; a level is due here", 'Write 3 dB.'],
    [
      '5 m/(s',
      'm/s',
      'unit-unknown',
      '(s',
      "'m/(s' cannot be read as a unit; a speed is due here",
      'Write a speed such as 150 m/min; usual units are m/min, m/s and mm/s.',
    ],
    [
      '300 m/mim',
      'm/s',
      'unit-unknown',
      'mim',
      "'mim' is not a unit known here; a speed is due",
      'Write 300 m/min if that is meant.',
    ],
    [
      '5 mM',
      'm',
      'unit-unknown',
      'mM',
      "'mM' is not a unit known here; a length is due",
      'Write 5 mm if that is meant.',
    ],
    [
      '12 newtonmeter',
      'N·m',
      'unit-unknown',
      'newtonmeter',
      "'newtonmeter' is not a unit known here; a torque is due",
      'Write a torque such as 12 N·m; usual units are N·m, N·cm and lb·in.',
    ],
    [
      '500 usec',
      's',
      'unit-unknown',
      'usec',
      "'usec' is not a unit known here; a time is due",
      'Write a time such as 500 µs; usual units are ms, µs and s.',
    ],
    [
      '60/min',
      '1/s',
      'unit-unknown',
      '/min',
      "'/min' is not a unit known here; a rate is due",
      'Write 60 1/min if that is meant.',
    ],
    [
      'AWG 99',
      'm²',
      'unit-unknown',
      'AWG 99',
      "'AWG 99' is not a wire gauge known here",
      'Write AWG 4/0 to AWG 56, or the area such as 0.75 mm².',
    ],
    [
      '12 N',
      'N·m',
      'unit-wrong',
      'N',
      "'N' is a force; a torque is due here",
      'Write a torque such as 12 N·m; usual units are N·m, N·cm and lb·in.',
    ],
    [
      '5 kg·m/s',
      'm',
      'unit-wrong',
      'kg·m/s',
      "'kg·m/s' does not measure a length",
      'Write a length such as 12 mm; usual units are mm, m and µm.',
    ],
    [
      '5 mm',
      '1',
      'unit-wrong',
      'mm',
      "'mm' is a length; a plain number is due here",
      'Write a plain number such as 0.25; usual units are % and ppm.',
    ],
    ['5 mm', 'cost', 'unit-wrong', 'mm', "'mm' is a length; a cost is due here", 'Write a cost such as 120.'],
    [
      'AWG 18',
      'm',
      'unit-wrong',
      'AWG 18',
      "'AWG 18' is the area of a wire; a length is due here",
      'Write a length such as 12 mm; usual units are mm, m and µm.',
    ],
    [
      '5 kg',
      'N',
      'unit-ambiguous',
      'kg',
      "'kg' can be read in more than one way where a force is due",
      'Write 5 kgf (49.03 N) or 5 N.',
    ],
    [
      '2 hp',
      'W',
      'unit-ambiguous',
      'hp',
      "'hp' can be read in more than one way where a power is due",
      'Write 2 hp_metric (1.471 kW) or 2 hp_mechanical (1.491 kW).',
    ],
  ])('%j where %s is due: %s', (text, due, code, marked, message, remedy) => {
    const problem = readQuantity(text, due);
    expect(problem).toMatchObject({ ok: false, code, message, remedy });
    expect(problem.ok ? '' : text.slice(problem.from, problem.to)).toBe(marked);
  });

  it.each<[text: string, due: Unit, remedy: string]>([
    ['5 lb', 'N', 'Write 5 lbf (22.24 N) or 5 N.'],
    ['5 oz', 'N', 'Write 5 ozf (1.39 N) or 5 N.'],
    ['5 lb·in', 'kg·m²', 'Write 5 lb·in² (14.63 kg·cm²) or 5 lb·in·s² (0.5649 kg·m²).'],
    ['5 kg·m', 'kg·m²', 'Write 5 kg·m² or 5 kgf·m·s² (49.03 kg·m²).'],
    ['2 HP', 'W', 'Write 2 hp_metric (1.471 kW) or 2 hp_mechanical (1.491 kW).'],
    ['5 kg·m', 'N·m', 'Write 5 kgf·m (49.03 N·m) or 5 N·m.'],
    ['5 kgcm', 'N·m', 'Write 5 kgf·cm (490.3 mN·m) or 5 N·m.'],
    ['6 kg/cm²', 'Pa', 'Write 6 kgf/cm² (588.4 kPa) or 6 bar (600 kPa).'],
    ['2 g', 'm/s²', 'Write 2 g_n (19.61 m/s²) or 2 m/s².'],
    ['10 oz·in', 'kg·m²', 'Write 10 oz·in² (1.829 kg·cm²) or 10 oz·in·s² (706.2 kg·cm²).'],
    ['4 kgf·m²', 'kg·m²', 'Write 4 kg·m² or 4 kgf·m² GD² (1 kg·m²).'],
    ['3000 1/s', 'rad/s', 'Write 3000 rev/s (18850 rad/s) or 3000 rad/s.'],
    ['0.5 V·s', 'V·s/rad', 'Write 0.5 V·s/rev (0.07958 V·s/rad) or 0.5 V·s/rad.'],
    ['3 ton', 'kg', 'Write 3 t (3000 kg), 3 ton_us (2722 kg) or 3 ton_uk (3048 kg).'],
    ['64 kB', 'bit', 'Write 64 koctet (64000 octets) or 64 KiB (65536 octets).'],
    ['64 KB', 'bit', 'Write 64 koctet (64000 octets) or 64 KiB (65536 octets).'],
    ['64 kbytes', 'bit', 'Write 64 koctet (64000 octets) or 64 KiB (65536 octets).'],
    ['10 MByte/s', 'bit/s', 'Write 10 Moctet/s (80 Mbit/s) or 10 MiB/s (83.89 Mbit/s).'],
    ['64 b', 'bit', 'Write 64 bit (8 octets) or 64 octets.'],
    ['100 Mb/s', 'bit/s', 'Write 100 Mbit/s or 100 Moctet/s (800 Mbit/s).'],
    ['5.5 W/m²·K', 'W/(m²·K)', 'Write 5.5 W/(m²·K).'],
    ['5 %/m·m', '1', 'Write 5 (%/m)·m (0.05) or 5.'],
    ['2 m/s*s', 'm/s²', 'Write 2 m/(s·s) (2 m/s²).'],
  ])('%s where %s is due has more than one reading', (text, due, remedy) => {
    expect(readQuantity(text, due)).toMatchObject({ ok: false, code: 'unit-ambiguous', remedy });
  });

  it.each<[text: string, due: Unit, message: string]>([
    ['50 Hz', 'rad/s', "'Hz' is a frequency; an angular speed is due here"],
    ['50 Hz', '1/s', "'Hz' is a frequency; a rate is due here"],
    ['50 1/s', 'Hz', "'1/s' is a rate; a frequency is due here"],
    ['3000 rpm', '1/s', "'rpm' is an angular speed; a rate is due here"],
    ['5 J', 'N·m', "'J' is an energy; a torque is due here"],
    ['5 N·m', 'J', "'N·m' is a torque; an energy is due here"],
    ['20 K', 's', "'K' is a temperature difference; a time is due here"],
    ['3000 1/(100 s)', 'rad/s', "'1/(100 s)' is a rate; an angular speed is due here"],
    ['20 °C', 's', "'°C' is a temperature; a time is due here"],
    ['300 K abs', 'K', "'K abs' is a temperature; a temperature difference is due here"],
    ['2 hp', 's', "'hp' is a power; a time is due here"],
    ['2 kg·m² GD²', 'N', "'kg·m² GD²' is an inertia; a force is due here"],
    ['GD² 4 N', 'kg·m²', "'N GD²' does not measure an inertia"],
  ])('%s where %s is due measures something else', (text, due, message) => {
    expect(readQuantity(text, due)).toMatchObject({ ok: false, code: 'unit-wrong', message });
  });

  it.each<[text: string, due: Unit, remedy: string]>([
    ['0,500 mm', 'm', 'Write 0.5 mm; the decimal sign is the point.'],
    [',5 mm', 'm', 'Write 0.5 mm; the decimal sign is the point.'],
    ['1,5e3 mm', 'm', 'Write 1500 mm; the decimal sign is the point.'],
    ['1,234,567 mm', 'm', 'Write 1234567 mm; the decimal sign is the point.'],
    ['1 234,5 mm', 'm', 'Write 1234.5 mm; the decimal sign is the point.'],
    ["1'234,5 mm", 'm', 'Write 1234.5 mm; the decimal sign is the point.'],
    ['1.000.000 mm', 'm', 'Write 1000000 mm.'],
    ["1'024 mm", 'm', 'Write 1024 mm.'],
    ['1 500', 'm', 'Write 1500 with its unit, such as mm.'],
    ['1 500', '1', 'Write 1500.'],
    ['1/2', 'm', 'Write 0.5 with its unit, such as mm.'],
    ['-3/4"', 'm', 'Write -0.75 in.'],
    ["5'", 'm', 'Write 5 ft if that is meant.'],
    ['12″', 'm', 'Write 12 in if that is meant.'],
    ["30'", 'rad', 'Write 30 arcmin if that is meant.'],
    ['30”', 'rad', 'Write 30 arcsec if that is meant.'],
    ['1/s', 'Hz', 'Write a frequency such as 50 Hz; usual units are Hz, kHz and MHz.'],
    ['100 Mbits/s', 'bit/s', 'Write 100 Mbit/s if that is meant.'],
    ['18 awg', 'm²', 'Write AWG 4/0 to AWG 56, or the area such as 0.75 mm².'],
  ])('%s where %s is due: %s', (text, due, remedy) => {
    expect(readQuantity(text, due)).toMatchObject({ ok: false, remedy });
  });

  it('never proposes a unit that only lacks a prefix', () => {
    const texts = ['usec', 'msec', 'pA', 'xm', 'kbar', 'krad'].map((word) => `5 ${word}`);
    const dropped = texts.flatMap((text) => siUnits.map((due) => [text, readQuantity(text, due)] as const));
    const losses = dropped.filter(([text, reading]) => {
      const meant = reading.ok ? undefined : /^Write 5 (\S+) if/.exec(reading.remedy)?.[1];
      return meant !== undefined && text.endsWith(meant);
    });
    expect(losses).toEqual([]);
  });

  it.each([
    '±0.2 mm',
    '1-2 mm',
    '5 .. 6 mm',
    '1.5.2 mm',
    '5 m m mm',
    '5 mm mm',
    '1/0 in',
    '5 2 mm',
    '5 mm!',
    '5 constructor',
    '5 __proto__',
  ])('refuses %j as a length', (text) => {
    expect(readQuantity(text, 'm').ok).toBe(false);
  });

  it('points behind the number where the unit is missing', () => {
    expect(readQuantity('500 ', 's')).toMatchObject({ code: 'unit-missing', from: 4, to: 4 });
  });

  it('makes no number of a fraction over nothing', () => {
    expect(readQuantity('1/0 in', 'm')).toMatchObject({ message: "'1/0 in' does not begin with one plain number" });
  });

  it('shortens a long text to a line', () => {
    const quoted = (text: string) => {
      const problem = readQuantity(text, 'm');
      return problem.ok ? '' : problem.message.replace(' does not begin with a number', '');
    };
    expect(quoted(`start${'x'.repeat(35)}`)).toBe(`'start${'x'.repeat(35)}'`);
    expect(quoted(`start${'x'.repeat(1e6)}`)).toBe(`'start${'x'.repeat(34)}…'`);
  });

  it('proposes in every remedy what can be read', () => {
    const texts = ['5 lb', '5 kg·m', '2 g', '10 oz·in', '3 ton', '64 kB', '500', '24 v', '5 W/m²K', '9 q'];
    for (const text of texts) {
      for (const due of siUnits) {
        const problem = readQuantity(text, due);
        if (problem.ok) continue;
        const proposals = problem.remedy
          .replace(/^Write (an? [a-z ]+ such as )?/, '')
          .replace(/(;.*| if that is meant)?\.$/, '')
          .split(/, | or /)
          .map((proposal) => proposal.replace(/ \(\d.*\)$/, ''));
        expect(proposals.filter((proposal) => !readQuantity(proposal, due).ok)).toEqual([]);
      }
    }
  });
});
