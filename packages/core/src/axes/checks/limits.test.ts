// What a motor, a drive, a gear and a screw bear, as files, by hand: mains, heat, height, heat of the winding, currents, wear.
import { describe, expect, it } from 'vitest';
import { assessText } from '../../../../../tests/support/examples.ts';
import type { Finding } from '../../checks/finding.ts';

const head = (site = 'ambient: 40 °C, altitude: 0 m', supply = 'mains: 400 V, low: 400 V'): string =>
  `layshaft: 1\nmachine: { ${site} }\ncabinet: { supply: { ${supply} } }\n`;
const motor =
  'inertia: 1e-9 kg·m², torque: 5 N·m, torque_rated: 4 N·m, speed_rated: 3000 rpm, torque_peak: 15 N·m, speed_peak_torque: 2000 rpm, speed: 4000 rpm, mains: 400 V, torque_constant: 1.5 N·m/A, ambient: 40 °C, ambient_none: 140 °C, altitude: 1000 m, altitude_none: 11000 m';
const drive =
  'current: 5 A, current_peak: 12 A, current_peak_time: 2 s, ambient: 40 °C, ambient_none: 90 °C, altitude: 1000 m, altitude_none: 11000 m';
/** 10 N·m of acceleration for a second either way, 3000 rpm in between for two, and a rest of four. */
const wheel = `motion: { cycle: 8 s, steps: [{ turn: ${300 * Math.PI} rad, ramp: 1 s, in: 4 s }, { dwell: rest }] }, train: [{ inertia: ${10 / (100 * Math.PI)} kg·m² }]`;
const finding = (text: string, address: string): Finding => {
  const found = assessText(text, 'm.yaml').findings.find((each) => each.address === address);
  if (found === undefined) throw new Error(`no ${address}`);
  return found;
};
const axis = (more: string, own = wheel): string => `axes: { a: { ${own}, ${more} } }\n`;
const whole = axis(`motor: { ${motor} }, drive: { ${drive} }`);

describe('a motor', () => {
  it('gives its effective torque on the line through its rated point, at the mean speed', () => {
    const { demand, capacity } = finding(head() + whole, 'axes.torque_rms@a');
    expect(demand!.value).toBeCloseTo(Math.sqrt((2 * 100) / 8), 6);
    // 300π rad in 8 s are 3/8 of the rated speed.
    expect(capacity!.value).toBeCloseTo(5 - 3 / 8, 9);
  });

  it('gives less where it is warm or high', () => {
    const full = 5 - 3 / 8;
    const warm = finding(head('ambient: 60 °C, altitude: 0 m') + whole, 'axes.torque_rms@a');
    expect(warm.capacity!.value).toBeCloseTo(full * 0.8, 9);
    const high = finding(head('ambient: 60 °C, altitude: 3000 m') + whole, 'axes.torque_rms@a');
    expect(high.capacity!.value).toBeCloseTo(full * 0.8 * 0.8, 9);
    const unknown = finding(head('ambient: 40 °C') + whole, 'axes.torque_rms@a');
    expect(unknown.lacks.map(({ path }) => path)).toEqual(['machine.altitude']);
  });

  it('is slower at low mains, and loses its peak torque earlier', () => {
    const low = head(undefined, 'mains: 400 V, low: 320 V') + whole;
    expect(finding(low, 'axes.speed@a').capacity!.value).toBeCloseTo((3200 * Math.PI) / 30, 9);
    // 10 N·m up to 3000 rpm: at 4000 rpm for 400 V the line from 15 at 2000 to 4 at 4000 gives 9.5 there.
    const { demand, capacity, verdict } = finding(head() + whole, 'axes.torque_at_speed@a');
    expect(demand!.value).toBeCloseTo(10, 6);
    expect(capacity!.value).toBeCloseTo(9.5, 4);
    expect(verdict).toBe('fails');
    // From 15 at 1600 to 4 at 3200.
    expect(finding(low, 'axes.torque_at_speed@a').capacity!.value).toBeCloseTo(15 - (11 * 1400) / 1600, 4);
    // At 160 V it ends at 1600 rpm, and gives nothing at more.
    const beyond = finding(head(undefined, 'mains: 400 V, low: 160 V') + whole, 'axes.torque_at_speed@a');
    expect([beyond.capacity!.value, beyond.verdict]).toEqual([0, 'fails']);
    expect(beyond.says).toContain('where the motor gives 0 N·m at its speed');
    const unknown = finding(head(undefined, 'mains: 400 V') + whole, 'axes.speed@a');
    expect(unknown.lacks.map(({ path }) => path)).toEqual(['cabinet.supply.low']);
  });

  it('has a winding that settles at the mean of its losses where that takes long', () => {
    const heat =
      ', temperature_rise: 100 K, rise_in_winding: 30 %, time_winding: 4000 s, time_frame: 90000 s, winding_at_most: 155 °C';
    const { demand, capacity } = finding(
      head() + axis(`motor: { ${motor}${heat} }, drive: { ${drive} }`),
      'axes.winding@a',
    );
    expect(demand!.value).toBeCloseTo(100, 0);
    expect(capacity!.value).toBeCloseTo(115, 9);
  });
});

describe('a drive', () => {
  it('gives currents for torques', () => {
    const text = head() + whole;
    expect(finding(text, 'axes.drive_current@a').demand!.value).toBeCloseTo(5 / 1.5, 6);
    expect(finding(text, 'axes.drive_peak@a').demand!.value).toBeCloseTo(10 / 1.5, 6);
    expect(finding(text, 'axes.drive_peak@a').capacity!.value).toBe(12);
    const warm = head('ambient: 50 °C, altitude: 0 m') + whole;
    expect(finding(warm, 'axes.drive_current@a').capacity!.value).toBeCloseTo(5 * 0.8, 9);
  });

  it('is overloaded for a second at a time, as so much at its peak current', () => {
    const { demand } = finding(head() + whole, 'axes.drive_overload@a');
    expect(demand!.value).toBeCloseTo(((10 / 1.5) ** 2 - 25) / (144 - 25), 6);
  });
});

describe('a gear', () => {
  const geared = (limits: string, master = ''): string =>
    `${head()}${master}${axis(
      `motor: { ${motor} }, drive: { ${drive} }`,
      `motion: { ${master === '' ? '' : 'follow: line, '}cycle: 8 s, steps: [{ turn: ${300 * Math.PI} rad, ramp: 1 s, in: 4 s }, { dwell: rest }] }, train: [{ inertia: ${10 / (100 * Math.PI)} kg·m² }, { gear: { ratio: 2, ${limits} } }]`,
    )}`;

  it('carries what its output does', () => {
    const text = geared('torque: 12 N·m, torque_peak: 20 N·m, speed: 1500 rpm, speed_peak: 6500 rpm');
    expect(finding(text, 'axes.gear_peak@a.2_gear').demand!.value).toBeCloseTo(10, 6);
    // Torque for a third of the way: half a second's worth of 3000 rpm at either end, two seconds between.
    expect(finding(text, 'axes.gear_mean@a.2_gear').demand!.value).toBeCloseTo(10 * (1 / 3) ** (1 / 3), 6);
    expect(finding(text, 'axes.gear_speed_peak@a.2_gear').demand!.value).toBeCloseTo((6000 * Math.PI) / 30, 4);
    expect(finding(text, 'axes.gear_speed@a.2_gear').demand!.value).toBeCloseTo(((3 / 8) * 6000 * Math.PI) / 30, 6);
  });

  it('wears by the power that its data say', () => {
    const text = geared('torque: 12 N·m, torque_exponent: 2');
    expect(finding(text, 'axes.gear_mean@a.2_gear').demand!.value).toBeCloseTo(10 * Math.sqrt(1 / 3), 6);
  });

  it('bears stops of its master by a limit of their own, with the caution', () => {
    const text = `${head()}masters: { line: { speed: 600 rpm, stops: { quick: { within: 0.1 s, category: 1 } } } }
${axis(`motor: { ${motor} }`, 'motion: { follow: line, gear: [1, 1] }, train: [{ inertia: 0.05 kg·m² }, { gear: { ratio: 2, torque_peak: 9 N·m, torque_stop: 50 N·m } }]')}`;
    const { demand, says } = finding(text, 'axes.gear_stop@a.2_gear');
    expect(demand!.value).toBeCloseTo((0.05 * 20 * Math.PI) / 0.1, 6);
    expect(says).toContain('local codes');
    expect(finding(text, 'axes.gear_peak@a.2_gear').demand!.value).toBeCloseTo(0, 9);
  });

  const across = (between: string, gear: string): string =>
    `${head()}${axis(`motor: { ${motor} }`, `motion: { cycle: 4 s, steps: [{ move: 0.4 m, ramp: 0.5 s, in: 2 s }, { dwell: rest }] }, train: [{ slide: { mass: 60 kg } }, ${between}{ gear: { ratio: 5, radial_load: 900 N${gear} } }]`)}`;
  const belt = '{ belt: { diameter: 80 mm, wheel_inertia: 1e-9 kg·m² } }, ';

  it('is pulled at across by the wheel on its output', () => {
    // 0.4 m in 1.5 s of mean way at full speed: 0.533 m/s² for 60 kg are 32 N.
    const pull = (60 * 0.4) / 1.5 / 0.5;
    const of = (text: string): number => finding(text, 'axes.gear_radial@a.3_gear').demand!.value;
    expect(of(across(belt, ''))).toBeCloseTo(1.5 * pull, 3);
    expect(of(across(belt.replace('belt', 'rack'), ''))).toBeCloseTo(pull / Math.cos(Math.PI / 9), 3);
    expect(of(across('{ drum: { diameter: 300 mm, inertia: 1e-9 kg·m² } }, ', ''))).toBeCloseTo(pull, 3);
    expect(of(across(belt, ', radial_force: 850 N'))).toBe(850);
    expect(finding(across(belt, ', radial_force: 850 N'), 'axes.gear_radial@a.3_gear').verdict).toBe('thin');
  });

  it('asks for the force across it where the train does not tell it, and not behind a coupling', () => {
    const conveyor = belt.replace('belt', 'conveyor');
    expect(finding(across(conveyor, ''), 'axes.gear_radial@a.3_gear').lacks.map(({ path }) => path)).toEqual([
      'axes.a.train.2.gear.radial_force',
    ]);
    const coupled = across(`${belt}{ coupling: { inertia: 1e-9 kg·m² } }, `, '');
    expect(() => finding(coupled, 'axes.gear_radial@a.4_gear')).toThrow('no axes.gear_radial');
  });

  it('is not asked of where its data say nothing', () => {
    expect(() => finding(geared('efficiency: 97 %'), 'axes.gear_mean@a.2_gear')).toThrow('no axes.gear_mean');
  });
});

describe('a screw', () => {
  const screwed = (more: string): string =>
    `${head()}${axis(`motor: { ${motor} }`, `motion: { cycle: 2 s, runs: { speed: 0.5 m/s, for: 2 s } }, train: [{ slide: { mass: 5 kg } }, { screw: { lead: 10 mm, inertia: 1 kg·cm², ${more} } }]`)}`;

  it('turns at 80 % of its critical speed at most: a root of 17 mm, 1 m between a fixed and a supported end', () => {
    const { demand, capacity } = finding(
      screwed('core: 17 mm, free_length: 1 m, ends: fixed_supported'),
      'axes.screw_speed@a.2_screw',
    );
    expect(demand!.value).toBeCloseTo(100 * Math.PI, 9);
    const critical = ((3.926602 ** 2 * 0.017) / 4) * Math.sqrt(206e9 / 7850);
    expect(capacity!.value).toBeCloseTo(0.8 * critical, 2);
  });

  it('needs its root and its ends for that', () => {
    const { lacks } = finding(screwed('free_length: 1 m'), 'axes.screw_speed@a.2_screw');
    expect(lacks.map(({ path }) => path)).toEqual(['axes.a.train.1.screw.core', 'axes.a.train.1.screw.ends']);
  });
});
