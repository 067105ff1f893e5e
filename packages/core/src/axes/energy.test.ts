// Demands against second methods: fine sampling, derivatives, and the balance of energy at the motor shaft.
import { describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { Missing } from '../working/missing.ts';
import { replay } from '../working/working.ts';
import type { Case } from './demand.ts';
import { type TracePoint, traceOf } from './trace.ts';

const text = `layshaft: 1
masters:
  line: { speed: 150 m/min, repeat: 250 mm, ramp_up: 6 s, ramp_down: 4 s, stops: { quick: { within: 1.2 s } } }
axes:
  knife:
    motion: { follow: line, cuts: { length: 215 mm, circumference: 500 mm, blades: 2, working: 40°, recover: modified_sine } }
    train:
      - cylinder: { diameter: 159.155 mm, length: 400 mm, material: steel }
      - cutting: { force: 600 N, diameter: 159.155 mm, over: 6°, blades: 2 }
      - gear: { ratio: 3, efficiency: 97 %, efficiency_back: 90 % }
  lift:
    motion:
      cycle: 3 s
      steps:
        - { move: 0.4 m, speed: 0.8 m/s, acceleration: 4 m/s², jerk: 60 m/s³ }
        - { dwell: 0.2 s }
        - { move: -0.4 m, speed: 0.8 m/s, acceleration: 4 m/s² }
    train:
      - slide: { mass: 30 kg, friction: 0.05, breakaway: 0.08, inclination: 60°, counterweight: 8 kg }
      - friction: { viscous: 40 N·s/m }
      - belt: { diameter: 80 mm, wheels: 2, wheel_mass: 0.6 kg, mass: 0.9 kg, efficiency: 92 % }
      - gear: { ratio: 6, efficiency: 94 %, inertia: 0.8 kg·cm² }
  wheel:
    motion: { cycle: 2 s, steps: [{ turn: 180°, in: 0.7 s, law: polynomial_345 }, { dwell: 0.3 s }, { turn: 180°, in: 0.7 s, law: cycloidal }] }
    train:
      - off_centre: { mass: 5 kg, radius: 300 mm, upright: 100 % }
      - torque: { against: 9 N·m, from: 40°, to: 70° }
      - friction: { torque: 2 N·m }
      - gear: { ratio: 12, efficiency: 90 % }
  press:
    motion: { cycle: 1 s, runs: { speed: 60 rpm, for: 1 s } }
    train: [{ crank: { radius: 60 mm, rod: 240 mm, mass: 20 kg, force: 100 N } }, { gear: { ratio: 8, efficiency: 95 % } }]
  nip:
    motion: { follow: line, gear: [3, 2] }
    train:
      - web: { tension_in: 150 N, tension_out: 90 N }
      - roll: { diameter: 120 mm, length: 420 mm, wall: 8 mm, material: steel, efficiency: 97 % }
      - gear: { ratio: 5, efficiency: 96 % }
  wind:
    motion: { follow: line, winds: { core: 76 mm, full: 800 mm, width: 400 mm, thickness: 90 µm, density: 900 kg/m³, tension: 90 N, taper: 30 % } }
    train: [{ friction: { torque: 0.3 N·m } }, { gear: { ratio: 4, efficiency: 95 % } }]
`;
const machine = read(text);
const assessment = assess(resolve(machine, []));
const cases = assessment.axes.flatMap(({ axis, cases: found }) => {
  if (found instanceof Missing) throw new Error(`${axis.name}: ${JSON.stringify(found)}`);
  return found.map((each) => [`${axis.name}, ${each.name}`, each, axis.name] as const);
});

/** By the rule of trapezoids on points so close that its error is far below what is asked for. */
function summed(points: readonly TracePoint[], of: (point: TracePoint) => number): number {
  let sum = 0;
  for (let at = 1; at < points.length; at++) {
    const [one, other] = [points[at - 1]!, points[at]!];
    sum += ((of(one) + of(other)) / 2) * (other.time_s - one.time_s);
  }
  return sum;
}

it('the file has no problem', () => expect(machine.problems).toEqual([]));

describe('demands of a phase by fine sampling', () => {
  it.each(cases)('%s', (_, each: Case) => {
    const points = traceOf(each, 2001);
    const span = points.at(-1)!.time_s;
    const rms = Math.sqrt(summed(points, ({ torque }) => torque ** 2) / span);
    expect(each.rms.value).toBeCloseTo(rms, 2 - Math.floor(Math.log10(rms)));
    const highest = Math.max(...points.map(({ torque }) => Math.abs(torque)));
    expect(each.peak.value).toBeGreaterThanOrEqual(highest * (1 - 1e-9));
    // Samples miss the edge of a load by up to one step.
    const starting = each.phases.flatMap((phase) => (phase.starting ? [Math.abs(phase.starting.value)] : []));
    expect(each.peak.value).toBeLessThanOrEqual(Math.max(highest, ...starting) * (1 + 1e-4));
    const mean = summed(points, ({ torque, speed }) => torque * speed) / span;
    expect(Math.abs(each.meanPower.value - mean)).toBeLessThan(1e-3 * Math.max(each.power.value, Math.abs(mean), 1));
    expect(each.meanSpeed.value).toBeCloseTo(summed(points, ({ speed }) => Math.abs(speed)) / span, 2);
  });
});

describe('shaft work is what becomes of it', () => {
  it.each(cases)('%s', (_, each: Case) => {
    const points = traceOf(each, 2001);
    const kinds = ['kinetic', 'process', 'friction', 'stages'] as const;
    for (const point of points) {
      const becomes = kinds.reduce((sum, kind) => sum + point[kind], 0);
      const size = kinds.reduce((sum, kind) => sum + Math.abs(point[kind]), 1e-9);
      expect(Math.abs(point.torque * point.speed - becomes)).toBeLessThan(1e-9 * size);
      // Losses never give anything back.
      expect(point.stages).toBeGreaterThanOrEqual(-1e-12 * size);
      expect(point.friction).toBeGreaterThanOrEqual(-1e-12 * size);
    }
  });
  it('a hoist that is back where it was has lost what it was given, and its heights and speeds have cost nothing', () => {
    const each = cases.find(([name]) => name === 'lift, cycle')![1];
    const points = traceOf(each, 4001);
    const of = (kind: 'kinetic' | 'process' | 'friction' | 'stages') => summed(points, (point) => point[kind]);
    const whole = summed(points, ({ torque, speed }) => torque * speed);
    expect(Math.abs(of('kinetic'))).toBeLessThan(1e-5 * whole);
    expect(Math.abs(of('process'))).toBeLessThan(1e-5 * whole);
    expect(of('friction') + of('stages')).toBeCloseTo(whole, 3);
    // Counted by hand from the file: half a metre of sliding friction each way, the counterweight not pressed on the guide.
    const sliding = 2 * 0.4 * 0.05 * 30 * 9.80665 * Math.cos(Math.PI / 3);
    const viscous = summed(points, ({ velocity }) => 40 * velocity ** 2);
    expect(of('friction')).toBeCloseTo(sliding + viscous, 3);
  });
  it('a hoist on its way up has its kinetic energy and its height by the masses of the file', () => {
    const each = cases.find(([name]) => name === 'lift, cycle')![1];
    const points = traceOf(each, 8001);
    const top = points.filter(({ time_s }) => time_s <= each.phases[0]!.phase.duration.value * (1 + 1e-12));
    const height = 0.4 * 9.80665 * (30 * Math.sin(Math.PI / 3) - 8);
    expect(summed(top, ({ process }) => process)).toBeCloseTo(height, 5);
    const fastest = top.reduce((most, point) => (point.velocity > most.velocity ? point : most));
    const upTo = top.filter(({ time_s }) => time_s <= fastest.time_s);
    const turning = (2 * (0.6 * 0.08 ** 2)) / 8 / 0.04 ** 2 + (0.8e-4 * 36) / 0.04 ** 2;
    const kinetic = ((30 + 8 + 0.9 + turning) * fastest.velocity ** 2) / 2;
    expect(summed(upTo, (point) => point.kinetic)).toBeCloseTo(kinetic, 4);
  });
});

describe('states of a motion agree with its derivatives', () => {
  it.each(cases)('%s', (_, each: Case) => {
    const points = traceOf(each, 1001);
    const fastest = Math.max(...points.map(({ velocity }) => Math.abs(velocity)));
    for (let at = 1; at < points.length; at++) {
      const [one, other] = [points[at - 1]!, points[at]!];
      const way = ((one.velocity + other.velocity) / 2) * (other.time_s - one.time_s);
      expect(Math.abs(other.position - one.position - way)).toBeLessThan(1e-6 * fastest * Math.max(other.time_s, 0.01));
    }
  });
});

it('a load that is lifted and lowered', () => {
  const each = cases.find(([name]) => name === 'lift, cycle')![1];
  const points = traceOf(each, 101).filter(({ velocity }) => Math.abs(velocity) > 0.1);
  // The weight works against the way up and along with the way down: one constant force.
  const weight = 9.80665 * (30 * Math.sin(Math.PI / 3) - 8);
  for (const { process, velocity } of points) expect(process / velocity).toBeCloseTo(weight, 9);
  expect(points.some(({ velocity }) => velocity < 0)).toBe(true);
});

it('every number of a demand comes out the same when it is computed again', () => {
  for (const [, each] of cases) {
    for (const { torque, effective, meanSpeed, power, given, returned } of each.phases)
      for (const quantity of [torque, effective, meanSpeed, power, given, returned])
        expect(replay(quantity)).toBe(quantity.value);
    for (const quantity of [each.peak, each.rms, each.meanPower]) expect(replay(quantity)).toBe(quantity.value);
  }
});

describe('two that were told wrong once', () => {
  const peakOf = (text: string, name: string): number => {
    const { cases } = assess(resolve(read(text), [])).axes[0]!;
    if (cases instanceof Missing) throw new Error('not known');
    return Math.abs(cases.find((each) => each.name === name)!.peak.value);
  };

  it('a step over the master with a constant acceleration gets more of it while the master speeds up', () => {
    // 90° in 0.5 s with ramps of 0.1 s: 3.927 rad/s, 39.27 rad/s²; at its highest speed the ramp adds 3.927/0.2.
    const text = `layshaft: 1
masters: { turn: { speed: 60 rpm, ramp_up: 0.2 s } }
axes: { a: { motion: { follow: turn, steps: [{ turn: 90°, over: 180°, ramp: 0.1 s }, { dwell: rest }] }, train: [{ inertia: 1 kg·m² }] } }
`;
    expect(peakOf(text, 'cycle')).toBeCloseTo(39.27, 2);
    expect(peakOf(text, 'ramp_up')).toBeCloseTo(39.27 + 19.635, 2);
  });

  it('a gear that only says what it loses when the load drives loses that', () => {
    const text = `layshaft: 1
axes: { a: { motion: { cycle: 1 s, runs: { speed: 60 rpm, for: 1 s } }, train: [{ torque: { against: -10 N·m } }, { gear: { ratio: 1, efficiency_back: 50 % } }] } }
`;
    expect(peakOf(text, 'cycle')).toBeCloseTo(5, 9);
  });
});

it('the highest torque is told on the side of a jump or an edge on which it is', () => {
  const whole = (text: string) => {
    const { peak, rms } = assess(resolve(read(text), [])).axes[0]!;
    if (peak instanceof Missing || rms instanceof Missing) throw new Error('not known');
    return { peak: Math.abs(peak.value), rms: rms.value };
  };
  const turning = whole(`layshaft: 1
masters: { line: { speed: 1 m/s, repeat: 1 m } }
axes: { a: { motion: { follow: line, traverses: { width: 0.3 m, stroke: 1 m, reversal: 0.1 m } }, train: [{ slide: { mass: 10 kg } }, { friction: { viscous: 20 N·s/m } }, { rack: { diameter: 40 mm, wheel_mass: 0 kg } }] } }
`);
  // 0.3 m in a second, 0.9 s of it at one speed and 0.05 s at either end slower in a straight line: 6/19 m/s.
  const v = 0.3 / 0.95;
  expect(turning.peak).toBeCloseTo((10 * ((2 * v) / 0.1) + 20 * v) * 0.02, 2);
  const cutting = whole(`layshaft: 1
axes: { a: { motion: { cycle: 1 s, runs: { speed: 60 rpm, for: 1 s } }, train: [{ cutting: { force: 50 N, diameter: 400 mm, over: 4° } }, { off_centre: { mass: 1 kg, radius: 230 mm, at: 60°, upright: 50 % } }] } }
`);
  expect(cutting.peak).toBeCloseTo(10.996, 3);
  expect(cutting.peak).toBeGreaterThan(cutting.rms);
});

it('a load that is lowered by a law is asked for no more at its ends than friction leaves of it', () => {
  for (const law of ['polynomial_345', 'polynomial_4567', 'cycloidal', 'modified_sine']) {
    for (let seed = 1; seed <= 40; seed++) {
      const text = `layshaft: 1
machine: { gravity: 9.81 m/s² }
axes: { a: { motion: { cycle: 9 s, steps: [{ move: ${-seed / 7} m, in: ${Math.sqrt(seed) / 3 + 4} s, law: ${law} }] }, train: [{ slide: { mass: 10 kg, inclination: 30°, friction: 0.2 } }, { rack: { diameter: 50 mm, wheel_mass: 0 kg } }] } }
`;
      const { cases } = assess(resolve(read(text), [])).axes[0]!;
      if (cases instanceof Missing) throw new Error('not known');
      // Without the last piece, where it waits for the next cycle.
      const points = traceOf(cases[0]!, 401).slice(0, -401);
      // Up the way friction would ask for 1.65 N·m, down it leaves 0.80, and braking adds at most 10 kg · 6·s/t² · 25 mm.
      const most = 10 * 9.81 * (0.5 - 0.2 * Math.cos(Math.PI / 6)) * 0.025;
      const braking = 10 * ((8 * seed) / 7 / (Math.sqrt(seed) / 3 + 4) ** 2) * 0.025;
      expect(Math.abs(cases[0]!.phases[0]!.torque.value), `${law}, ${seed}`).toBeLessThan(most + braking);
      for (const { torque } of points) expect(torque, `${law}, ${seed}`).toBeLessThan(most + braking);
    }
  }
});

it('a stop that is called cycle is a stop all the same: the motor does not get warm by it', () => {
  const of = (name: string) => {
    const text = `layshaft: 1
masters: { turn: { speed: 60 rpm, stops: { ${name}: { within: 0.1 s, category: 1 } } } }
axes: { a: { motion: { follow: turn, gear: [1, 1] }, train: [{ inertia: 1 kg·m² }, { friction: { torque: 2 N·m } }] } }
`;
    const { cases, rms } = assess(resolve(read(text), [])).axes[0]!;
    if (cases instanceof Missing || rms instanceof Missing) throw new Error('not known');
    return { kinds: cases.map(({ kind }) => kind), rms: rms.value };
  };
  expect(of('cycle')).toEqual(of('quick'));
  expect(of('cycle').rms).toBeCloseTo(2, 9);
});
