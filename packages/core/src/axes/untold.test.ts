// What is said to be unknown is not left out in silence: ramps, stops and the rotor of an axis; a dwell of 0 s asks for nothing.
import { describe, expect, it } from 'vitest';
import { assessText } from '../../../../tests/support/examples.ts';

const text = `layshaft: 1
machine: { ambient: 35 °C, altitude: 0 m }
cabinet: { supply: { mains: 400 V, low: 360 V } }
masters: { line: { speed: 60 m/min, repeat: 500 mm, ramp_up: 2 s, ramp_down: 1 s, stops: { quick: { within: 0.4 s, category: 1 } } } }
axes:
  a:
    drive: drive_10
    motion: { follow: line, feeds: { length: 200 mm, share: 50 %, law: cycloidal } }
    train: [{ roll: { diameter: 80 mm, length: 300 mm, material: aluminium } }, { gear: { ratio: 3, efficiency: 96 %, torque_peak: 90 N·m, torque_stop: 180 N·m } }]
    motor: { inertia: 1.07 kg·cm², torque: 2.4 N·m, torque_peak: 7.7 N·m, torque_constant: 1.3 N·m/A, speed: 6000 rpm }
buses: { main: { axes: [a] } }
`;
const verdicts = (changed: string) => {
  const { findings, design } = assessText(changed, 'machine.yaml');
  expect(design.problems).toEqual([]);
  return new Map(findings.map((each) => [each.check.replace('axes.', ''), each]));
};
const unknownBeside = (changed: string, path: string): readonly string[] =>
  [...verdicts(changed)]
    .filter(([, { verdict, lacks }]) => verdict === 'unknown' && lacks.some((lack) => lack.path === path))
    .map(([check]) => check)
    .toSorted();

describe('what is unknown leaves unknown what rests on it', () => {
  it('all of it is known to begin with', () => {
    const all = [...verdicts(text)];
    expect(all.filter(([, { verdict }]) => verdict === 'unknown')).toEqual([]);
    expect(all.map(([check]) => check)).toEqual(expect.arrayContaining(['gear_peak', 'gear_stop', 'bus_voltage']));
  });

  it.each(['ramp_up: 2 s', 'ramp_down: 1 s'])('a ramp: %s', (ramp) => {
    const [key] = ramp.split(':');
    const found = unknownBeside(text.replace(ramp, `${key}: unknown`), `masters.line.${key}`);
    expect(found).toEqual(['drive_peak', 'gear_peak', 'torque_peak']);
  });

  it.each([['within: unknown, '], ['']])('a stop: %s', (within) => {
    const found = unknownBeside(text.replace('within: 0.4 s, ', within), 'masters.line.stops.quick.within');
    expect(found).toEqual(expect.arrayContaining(['bus_voltage', 'drive_peak', 'gear_stop', 'torque_peak']));
  });

  it('a stop in which the drives do nothing asks for no torque', () => {
    const off = text.replace('within: 0.4 s, category: 1', 'within: unknown, category: 0');
    expect(unknownBeside(off, 'masters.line.stops.quick.within')).not.toContain('torque_peak');
  });

  it('a rotor', () => {
    const found = unknownBeside(text.replace('inertia: 1.07 kg·cm²', 'inertia: unknown'), 'axes.a.motor.inertia');
    expect(found).toEqual(
      expect.arrayContaining([
        'bus_voltage',
        'drive_current',
        'drive_peak',
        'inertia_ratio',
        'torque_peak',
        'torque_rms',
      ]),
    );
    expect(found).not.toContain('gear_peak');
  });

  it('a rotor of which nothing is said is left out, and the sentence says so', () => {
    const found = verdicts(text.replace('inertia: 1.07 kg·cm², ', ''));
    for (const check of ['torque_peak', 'torque_rms']) {
      expect(found.get(check)?.verdict).toBe('holds');
      expect(found.get(check)?.says).toMatch(/; without its rotor, whose inertia is not given$/);
    }
  });
});

it('what a holding brake has to hold is unknown where the train is', () => {
  const lift = text
    .replace(
      /train: .*/,
      'train: [{ slide: { mass: unknown, inclination: 90° } }, { drum: { diameter: 80 mm, inertia: 2 kg·cm² } }]',
    )
    .replace('speed: 6000 rpm', 'speed: 6000 rpm, brake: 4 N·m, brake_delay: 30 ms');
  expect(unknownBeside(lift, 'axes.a.train.0.slide.mass')).toContain('holding');
});

it('a dwell of 0 s is as good as none', () => {
  const motion = (dwell: string) =>
    text
      .replace(
        /motion: .*/,
        `motion: { cycle: 2 s, steps: [{ move: 0.2 m, in: 0.4 s, law: cycloidal }, ${dwell}{ dwell: rest }] }`,
      )
      .replace(/motor: .*/, 'motor: motor_80_3');
  const all = (changed: string) =>
    [...verdicts(changed)].map(([check, { demand, verdict }]) => [check, demand?.value, verdict]);
  expect(all(motion('{ dwell: 0 s }, '))).toEqual(all(motion('')));
});
