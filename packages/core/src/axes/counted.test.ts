// A master that an encoder gives, as a file: what it resolves, what its followers get of it, and what is asked of it.
import { describe, expect, it } from 'vitest';
import { assessText } from '../../../../tests/support/examples.ts';
import type { Assessment } from '../assess/assess.ts';
import { show } from '../assess/show.ts';
import { Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';

const file = (encoder: string): string => `layshaft: 1
masters:
  line:
    speed: 2 m/s
    repeat: 250 mm
    encoder: { ${encoder} }
axes:
  nip:
    motion: { follow: line, gear: [1, 1] }
    train: [{ roll: { diameter: 100 mm, inertia: 40 kg·cm² } }, { gear: { ratio: 5 } }]
    motor: { inertia: 2 kg·cm², torque: 3 N·m, torque_peak: 9 N·m, speed: 5000 rpm }
`;
const wheel = 'lines: 2500, counted: 4, way: 200 mm, sample: 1 ms, frequency_at_most: 250 kHz';
const of = (encoder: string): Assessment => assessText(file(encoder), 'm.yaml');
const number = (value: Quantity | Missing | undefined): number => {
  if (value === undefined || value instanceof Missing) throw new Error('not known');
  return value.value;
};
const finding = (assessment: Assessment, address: string) => {
  const found = assessment.findings.find((each) => each.address === address);
  if (found === undefined) throw new Error(`no ${address}`);
  return found;
};

describe('a master that an encoder gives', () => {
  const whole = of(`${wheel}, filter: 9 ms, cable: 40 m, receiver: differential`);
  const [line] = whole.counted;

  it('is counted: by hand from lines, wheel and speed', () => {
    expect(number(line?.counts)).toBe(10_000);
    expect(number(line?.step)).toBeCloseTo(20e-6, 15);
    expect(number(line?.track)).toBeCloseTo(25_000, 9);
    expect(number(line?.speedStep)).toBeCloseTo(0.02, 12);
    expect(number(line?.swing)).toBeCloseTo(0.002, 12);
    expect(number(line?.ripple)).toBeCloseTo(0.001, 12);
    expect(number(line?.lag)).toBeCloseTo(0.018, 12);
  });

  it('shakes its follower: by hand from the inertia at the motor', () => {
    const [nip] = line?.followers ?? [];
    const speed = (2 / 0.05) * 5;
    expect(number(nip?.ripple)).toBeCloseTo(0.001 * speed, 12);
    expect(number(nip?.torque)).toBeCloseTo((40e-4 / 25 + 2e-4) * ((0.001 * speed) / 1e-3), 12);
    expect(number(finding(whole, 'axes.ripple@nip').capacity)).toBeCloseTo(0.1 * 3, 12);
  });

  it('is asked whether it is counted, whether its signal arrives, and whether the followers bear it', () => {
    expect(finding(whole, 'axes.count_frequency@line').verdict).toBe('holds');
    // 50 000 changes in a second are below what 1200 m carry.
    expect(number(finding(whole, 'axes.encoder_cable@line').capacity)).toBe(1200);
    expect(finding(whole, 'axes.ripple@nip').verdict).toBe('holds');
    const coarse = of(wheel.replace('2500', '1000').replace('250 kHz', '9 kHz'));
    expect(finding(coarse, 'axes.count_frequency@line').verdict).toBe('fails');
    expect(finding(coarse, 'axes.ripple@nip').verdict).toBe('fails');
    expect(coarse.findings.some(({ check }) => check === 'axes.encoder_cable')).toBe(false);
  });

  it('does not know how far another receiver hears', () => {
    const { verdict, lacks } = finding(of(`${wheel}, cable: 40 m`), 'axes.encoder_cable@line');
    expect(verdict).toBe('unknown');
    expect(lacks.map(({ path }) => path)).toEqual(['masters.line.encoder.cable_at_most']);
    const data = of(`${wheel}, cable: 40 m, receiver: single_ended, cable_at_most: 30 m`);
    expect(finding(data, 'axes.encoder_cable@line').verdict).toBe('fails');
  });

  it('is refused where its wheel turns and its master goes along', () => {
    const { lacks } = finding(of(wheel.replace('200 mm', '360°')), 'axes.count_frequency@line');
    expect(lacks.map(({ path }) => path)).toEqual(['masters.line.encoder.way']);
  });

  it('says what the file leaves out', () => {
    const [without] = of('lines: 2500, counted: 4, way: 200 mm').counted;
    expect(number(without?.step)).toBeCloseTo(20e-6, 15);
    expect((without!.ripple as Missing).lacks.map(({ path }) => path)).toEqual(['masters.line.encoder.sample']);
  });

  it('is shown with what its followers get', () => {
    const [view] = show(whole, 'masters.line');
    expect(view?.tables.map(({ name }) => name)).toEqual(['encoder', 'followers']);
    expect(view?.tables[1]?.rows[0]?.[0]).toBe('nip');
    expect(show(of(wheel), 'masters')).toHaveLength(1);
  });

  it('turns with a master that turns', () => {
    const text = file(wheel.replace('200 mm', '1 rev')).replace('2 m/s', '120 rpm').replace('    repeat: 250 mm\n', '');
    const [turning] = assessText(text, 'm.yaml').counted;
    expect(number(turning?.step)).toBeCloseTo((2 * Math.PI) / 10_000, 12);
    expect(number(turning?.track)).toBeCloseTo(5000, 9);
    expect(number(turning?.speedStep)).toBeCloseTo((2 * Math.PI) / 10_000 / 1e-3, 12);
  });
});
