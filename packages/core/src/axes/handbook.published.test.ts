// More published problems as machine files: gears, falling loads, effective torques, rolls of web. Where a file cannot say
// all of a row, the title says which part of it is held.
import { describe, expect, it } from 'vitest';
import { type Assessment, assess } from '../assess/assess.ts';
import { askBackwards } from '../assess/backwards.ts';
import { explain } from '../assess/numbers.ts';
import { type Machine, read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { AxisDemand, Case } from './demand.ts';
import { traceOf } from './trace.ts';

const machineOf = (text: string): Machine => {
  const machine = read(`layshaft: 1\n${text}`);
  expect(machine.problems).toEqual([]);
  return machine;
};
const assessed = (text: string): Assessment => assess(resolve(machineOf(text), []));
const demandIn = (text: string): AxisDemand => assessed(text).axes[0]!;

function known<T>(value: T | Missing | undefined): T {
  if (value === undefined || value instanceof Missing) throw new Error(JSON.stringify(value));
  return value;
}
const numberOf = (quantity: Quantity | Missing | undefined): number => known(quantity).value;
const caseOf = ({ cases }: AxisDemand, name: string): Case => known(known(cases).find((each) => each.name === name));
const firstTorque = (demand: AxisDemand): number => caseOf(demand, 'cycle').phases[0]!.torque.value;
const at = (assessment: Assessment, address: string): number => known(explain(assessment, address)).value;
const finding = ({ findings }: Assessment, address: string) => known(findings.find((each) => each.address === address));

const rpm = Math.PI / 30;

describe('S3 as files: Dubey, Fundamentals of Electrical Drives, ex. 2.1, two loads of one motor', () => {
  const geared = demandIn(`
axes:
  motor:
    motion: { runs: { speed: 142 rpm, for: 10 s } }
    losses_on: load
    train: [{ inertia: 10 kg·m² }, { torque: { against: 10 N·m } }, { gear: { ratio: 10, efficiency: 90 % } }]
`);
  // The rope runs at 1.5 m/s where the motor turns at 1420 rpm: that is a drum of 2·v/ω.
  const hoist = (beside = ''): AxisDemand =>
    demandIn(`
machine: { gravity: 9.81 m/s² }
axes:
  motor:
    motion: { runs: { speed: 1.5 m/s, for: 10 s } }
    losses_on: load
    train:
      - slide: { mass: 1000 kg, inclination: 90° }
      - drum: { diameter: ${3 / (1420 * rpm)} m, inertia: 0 kg·m², efficiency: 85 % }
${beside}`);

  it('the hoist turns the motor at 1420 rpm, the geared load at the same speed', () => {
    expect(numberOf(hoist().speed) / rpm).toBeCloseTo(1420, 9);
    expect(numberOf(geared.speed) / rpm).toBeCloseTo(1420, 9);
  });

  it('a train has one tool: with the geared load at the shaft of the hoist, 0.4018 kg·m² and 117.53 N·m', () => {
    const rotor = 0.2;
    const both = hoist(`      - inertia: ${numberOf(geared.inertia)} kg·m²
      - torque: { against: ${firstTorque(geared)} N·m }
    motor: { inertia: ${rotor} kg·m² }
`);
    expect(numberOf(both.inertia) + rotor).toBeCloseTo(0.4018, 4);
    expect(firstTorque(both)).toBeCloseTo(117.53, 2);
    expect(firstTorque(geared) + firstTorque(hoist())).toBeCloseTo(firstTorque(both), 9);
  });
});

describe('S5 as a file: Khurmi and Gupta, Theory of Machines, ex. 3.13, 75 kg fall and drive a shaft by a gear of 6', () => {
  // Left to itself it falls with the acceleration that asks for no torque at the fast shaft.
  const torqueFor = (acceleration: number, efficiency: string): number =>
    firstTorque(
      demandIn(`
machine: { gravity: 9.81 m/s² }
axes:
  shaft:
    motion: { cycle: 30 s, steps: [{ move: -4 m, speed: 0.5 m/s, acceleration: ${acceleration} m/s² }, { dwell: rest }] }
    train:
      - slide: { mass: 75 kg, inclination: 90° }
      - drum: { diameter: 0.6 m, inertia: 100 kg·m² }
      - gear: { ratio: 6, ${efficiency} }
      - inertia: 5 kg·m²
`),
    );
  it.each([
    ['without loss', 0.231, 'efficiency: 100 %'],
    ['with a gear of 90 %', 0.216, 'efficiency: 90 %'],
  ])('%s with %f m/s²', (_, expected, efficiency) => {
    expect(torqueFor(expected - 0.0005, efficiency)).toBeLessThan(0);
    expect(torqueFor(expected + 0.0005, efficiency)).toBeGreaterThan(0);
  });
});

it('S6 as a file: an article on machine elements, asked backwards: a disc of 1.5625 kg·m² takes a ratio of 25.25', () => {
  const machine = machineOf(`
axes:
  table:
    motion: { cycle: 1 s, steps: [{ turn: 90°, in: 0.5 s, ramp: 0.25 s }, { dwell: rest }] }
    train: [{ disc: { mass: 50 kg, diameter: 0.5 m } }, { gear: { ratio: 30 } }]
    motor: { inertia: 8.17 kg·cm² }
    inertia_ratio_at_most: 3
`);
  const disc = at(assess(resolve(machine, [])), 'axes.inertia.solid_cylinder@table.1_disc');
  expect(disc).toBeCloseTo(1.5625, 12);
  const asked = askBackwards(machine, [], 'axes.inertia_ratio@table', 'axes.table.train.1.gear.ratio');
  if (asked.kind !== 'just keeps') throw new Error(JSON.stringify(asked));
  expect(asked.side).toBe('at least');
  expect(asked.value.value).toBe(25.25);
});

it('S8 as a file: Khurmi and Gupta, Theory of Machines, ex. 15.3, a crank is fastest at 75°; 6.54 m/s there, exact 6.56', () => {
  // A force of 1 N at a slider without mass takes as many watts as the slider has m/s.
  const demand = demandIn(`
axes:
  crank:
    motion: { cycle: 0.15 s, runs: { speed: 200 rpm, for: 0.15 s } }
    train: [{ crank: { radius: 0.3 m, rod: 1 m, mass: 0 kg, force: 1 N } }]
`);
  const { power, ...cycle } = caseOf(demand, 'cycle');
  const fastest = traceOf({ power, ...cycle }, 3601).reduce((best, point) =>
    point.torque > best.torque && point.position < Math.PI ? point : best,
  );
  expect((fastest.position * 180) / Math.PI).toBeCloseTo(75, 0);
  expect(power.value).toBeCloseTo(6.56, 2);
  // The book breaks its series off behind the second term; at the angle that it gives, that is 0.3 % too little.
  const series = 200 * rpm * 0.3 * (Math.sin((75 * Math.PI) / 180) + 0.15 * Math.sin((150 * Math.PI) / 180));
  expect(series).toBeCloseTo(6.54, 2);
  expect(1 - series / power.value).toBeCloseTo(0.003, 3);
});

describe('S9 as a file: Khurmi and Gupta, Theory of Machines, ex. 3.14, the gear for the quickest load', () => {
  const accelerated = (ratio: number): Assessment =>
    assessed(`
axes:
  load:
    motion: { cycle: 10 s, steps: [{ turn: 90°, speed: 2 rad/s, acceleration: 6.25 rad/s² }, { dwell: rest }] }
    train: [{ inertia: 32 kg·m² }, { gear: { ratio: ${ratio} } }]
    motor: { inertia: 2 kg·m² }
`);
  const peak = (ratio: number): number => numberOf(accelerated(ratio).axes[0]!.peak);
  it('with 4, 100 N·m give the load 6.25 and the motor 25 rad/s²', () => {
    expect(peak(4)).toBeCloseTo(100, 9);
    expect(at(accelerated(4), 'axes.gear.acceleration@load.cycle.1_up.s1')).toBeCloseTo(25, 12);
  });
  it('with less or more it takes more torque', () => {
    for (const ratio of [3.9, 3.99, 4.01, 4.1]) expect(peak(ratio)).toBeGreaterThan(100);
  });
});

it('R1 as a file: Dubey, Fundamentals of Electrical Drives, ex. 4.2, rolling and reversing take 45,975 N·m', () => {
  // The cycle begins in the middle of a reversal, where the mill stands.
  const demand = demandIn(`
axes:
  mill:
    motion:
      cycle: 39 s
      steps:
        - { turn: ${200 * (14.5 / 60)} rev, in: 17 s, ramp: 2.5 s }
        - { turn: ${-200 * (19.5 / 60)} rev, in: 22 s, ramp: 2.5 s }
    train:
      - inertia: 10000 kg·m²
      - torque: { against: 25000 N·m, after: 3.5 s, until: 13.5 s }
      - torque: { against: -20000 N·m, after: 20.5 s, until: 35.5 s }
`);
  expect(numberOf(demand.speed) / rpm).toBeCloseTo(200, 9);
  expect(Math.abs(numberOf(demand.rms) - 45_975)).toBeLessThan(0.5);
  expect(numberOf(demand.peak) / numberOf(demand.rms)).toBeCloseTo(1.822, 3);
});

it('R2 as a file: Kosow, Electric Machinery and Transformers, ex. 13.7, a third of the cooling at standstill: 114 hp', () => {
  // At one speed, torques are as powers are: one N·m stands for each horsepower. The cycle begins with the 100 hp.
  const duty = (cooling: string): number =>
    numberOf(
      demandIn(`
axes:
  drive:
    motion: { cycle: 30 min, runs: { speed: 1 rad/s, for: 20 min } }
    train:
      - torque: { against: 100 N·m, after: 0 min, until: 10 min }
      - torque: { against: 200 N·m, after: 10 min, until: 15 min }
      - torque: { against: 20 N·m, after: 15 min, until: 20 min }
    motor: { cooling_at_rest: ${cooling} }
`).rms,
    );
  expect(duty(`${100 / 3} %`)).toBeCloseTo(114, 0);
  expect(duty('100 %')).toBeCloseTo(Math.sqrt(302_000 / 30), 6);
});

/** A winder whose web is of no account for the row. */
const winder = (roll: string, stated = ''): Assessment =>
  assessed(`
masters:
  line: { speed: 5 m/s, repeat: 1 m }
axes:
  wind:
    motion: { follow: line, winds: { ${roll}, width: 1 m, density: 900 kg/m³ } }
    train: []
    ${stated}
`);

it('W2 as a file: a page on the length of rolls, 1499.4 in; shown with four digits', () => {
  const { verdict, says } = finding(
    winder('core: 2 in, full: 5 in, thickness: 0.011 in, tension: 0 N', 'stated: { roll_length: 1499.4 in }'),
    'axes.agrees@wind.roll_length',
  );
  expect(verdict).toBe('holds');
  expect(says).toContain('1499.4 in is stated, 1499 in follows');
});

it('W3 as a file: Downey, Modeling and Simulation in Python, ch. 24 and 25, the length of the roll alone', () => {
  const thickness = (Math.PI * (0.055 ** 2 - 0.02 ** 2)) / 47;
  const { verdict, says } = finding(
    winder(`core: 40 mm, full: 110 mm, thickness: ${thickness} m, tension: 0 N`, 'stated: { roll_length: 47 m }'),
    'axes.agrees@wind.roll_length',
  );
  expect(verdict).toBe('holds');
  expect(says).toContain('47 m is stated, 47 m follows');
});

it('W3 as a file: the turns of the same roll, 199.5', () => {
  const thickness = (Math.PI * (0.055 ** 2 - 0.02 ** 2)) / 47;
  const assessment = winder(`core: 40 mm, full: 110 mm, thickness: ${thickness} m, tension: 0 N`);
  expect(at(assessment, 'axes.winder.turns@wind')).toBeCloseTo(199.5, 1);
  // At 5 m/s; the book turns its core at a constant speed, which a winder of a web does not.
  expect(at(assessment, 'axes.master.way_time@wind.roll')).toBeCloseTo(47 / 5, 9);
});

describe('W1 as a file: 0.5 % before a draw of 1 %', () => {
  const rolled = (web: string): Assessment =>
    assessed(`
masters: { line: { speed: 2 m/s, repeat: 1 m } }
axes:
  pull:
    motion: { follow: line, gear: [1, 1] }
    train: [{ web: { ${web} } }, { roll: { diameter: 100 mm, inertia: 0 kg·m² } }]
`);
  const web = 'draw: { by: 1 %, strain: 0.5 %, modulus: 3 GPa, width: 400 mm, thickness: 50 µm }';
  it('is stretched by 1.505 %, and pulls with what that takes', () => {
    const assessment = rolled(`${web}, tension_out: 300 N`);
    expect(100 * at(assessment, 'axes.web.strain_after_draw@pull.1_web')).toBeCloseTo(1.505, 3);
    const before = 0.01505 * 3e9 * 0.4 * 50e-6;
    expect(at(assessment, 'axes.web.tension@pull.1_web')).toBeCloseTo(before, 6);
    expect(caseOf(assessment.axes[0]!, 'cycle').peak.value).toBeCloseTo((before - 300) * 0.05, 6);
  });
  it.each([
    ['axes.pull.train.0.web.tension_in', 'tension_out: 300 N'],
    ['axes.pull.train.0.web.tension_in', `${web}, tension_in: 40 N, tension_out: 300 N`],
    ['axes.pull.train.0.web.draw.modulus', 'draw: { by: 1 %, width: 400 mm, thickness: 50 µm }, tension_out: 300 N'],
  ])('what lacks or does not fit is told at %s', (path, text) => {
    const { peak } = rolled(text).axes[0]!;
    expect(peak instanceof Missing && peak.lacks[0]!.path).toBe(path);
  });
});

it('W5 as a file: an article on rewinders, 100 N taper to 68 N, and 5 N·m become 17', () => {
  const assessment = winder('core: 0.1 m, full: 0.5 m, thickness: 50 µm, tension: 100 N, taper: 40 %');
  expect(at(assessment, 'axes.winder.taper_tension@wind.core')).toBeCloseTo(100, 9);
  expect(at(assessment, 'axes.winder.taper_tension@wind.full')).toBeCloseTo(68, 9);
  expect(caseOf(assessment.axes[0]!, 'core_cycle').peak.value).toBeCloseTo(5, 9);
  expect(caseOf(assessment.axes[0]!, 'full_cycle').peak.value).toBeCloseTo(17, 9);
});

it.each([
  ['5 m/s', '10 µs', 0.05],
  ['300 m/min', '250 µs', 1.25],
])('W6 as a file (derived): way of a web of %s in the lag of a filter of %s is %f mm', (speed, filter, lag_mm) => {
  const { counted } = assessed(`
masters:
  web:
    speed: ${speed}
    repeat: 1 m
    encoder: { lines: 2500, counted: 4, way: 200 mm, sample: 1 µs, filter: ${filter}, frequency_at_most: 1 MHz }
`);
  expect(1000 * numberOf(counted[0]?.lag)).toBeCloseTo(lag_mm, 12);
});
