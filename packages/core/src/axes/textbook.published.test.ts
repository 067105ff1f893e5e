// Textbook problems as machine files, from the text of the file to the numbers that are shown.
import { describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { torquePower } from './calc/efficiency.ts';
import type { AxisDemand } from './demand.ts';
import { highestAcceleration } from './highest-acceleration.ts';
import type { Phase } from './phase.ts';
import { wayOf } from './steps.ts';
import { traceOf } from './trace.ts';

const demandIn = (text: string): AxisDemand => {
  const machine = read(`layshaft: 1\n${text}`);
  expect(machine.problems).toEqual([]);
  return assess(resolve(machine, [])).axes[0]!;
};

const numberOf = (quantity: Quantity | Missing | undefined): number => {
  if (quantity === undefined || quantity instanceof Missing) throw new Error(JSON.stringify(quantity));
  return quantity.value;
};
const phaseTorques = ({ cases }: AxisDemand): readonly number[] => {
  if (cases instanceof Missing) throw new Error(JSON.stringify(cases));
  return cases[0]!.phases.map(({ torque }) => torque.value);
};

describe('general servo handbook example, ball screw (the source leaves the efficiency out of the torque for acceleration)', () => {
  const text = (losses: string): string => `
machine: { gravity: 9.8 m/s² }
axes:
  feed:
    motion: { cycle: 2 s, steps: [{ move: 0.3 m, in: 1 s, ramp: 0.1 s }] }
    losses_on: ${losses}
    train:
      - slide: { mass: 10 kg, friction: 0.1 }
      - screw: { lead: 20 mm, efficiency: 90 %, diameter: 20 mm, length: 0.5 m, density: 7900 kg/m³ }
      - coupling: { inertia: 1e-5 kg·m² }
    motor: { inertia: 0.14e-4 kg·m² }
`;
  it('S1 as a file: inertia, torques and effective torque as printed', () => {
    const demand = demandIn(text('load'));
    expect(numberOf(demand.inertia)).toBeCloseTo(1.73e-4, 6);
    expect(numberOf(demand.speed) / (2 * Math.PI)).toBeCloseTo(1000 / 60, 9);
    const [up, steady, down, rest] = phaseTorques(demand);
    expect(up).toBeCloseTo(0.2309, 4);
    expect(steady).toBeCloseTo(0.0347, 4);
    expect(-down!).toBeCloseTo(0.1616, 4);
    expect(rest).toBe(0);
    expect(numberOf(demand.rms)).toBeCloseTo(0.0667, 4);
  });
  it('S1 as a file, with the efficiency on the torque for acceleration too', () => {
    const demand = demandIn(text('load_and_inertia'));
    // The row has the efficiency on all of the load's inertia. Here it acts on what the screw moves, not on the screw, the
    // coupling and the rotor behind it: by hand, mass at the screw m·(p/2π)² and α of the screw.
    const α = ((10 / 3) * (2 * Math.PI)) / 0.02;
    const moved = 10 * (0.02 / (2 * Math.PI)) ** 2;
    const behind = numberOf(demand.inertia) - moved + 0.14e-4;
    const load = (0.1 * 10 * 9.8 * 0.02) / (2 * Math.PI);
    expect(numberOf(demand.peak)).toBeCloseTo((load + moved * α) / 0.9 + behind * α, 12);
    expect(numberOf(demand.peak)).toBeLessThan(0.2427);
  });
});

describe('Jindal, Machine Design, ex. 16-1: a square screw of 30 mm, pitch 6 mm, with a collar of 8 to 16 mm radius', () => {
  const text = (way: string, screw: string): string => `
axes:
  jack:
    motion: { cycle: 4 s, steps: [{ move: ${way}, in: 2 s, ramp: 0.1 s }] }
    train:
      - force: { against: 20 kN }
      - screw: { lead: 6 mm, inertia: 0 kg·m², ${screw} }
`;
  const sliding = 'thread: { diameter: 27 mm, friction: 0.2 }, collar: { diameter: 24 mm, friction: 0.15 }';
  it('S7 as a file: 110.148 N·m', () => {
    expect(numberOf(demandIn(text('100 mm', sliding)).peak)).toBeCloseTo(110.148, 3);
  });
  it('and locks itself, so that the motor turns it down too', () => {
    const demand = demandIn(text('-100 mm', sliding));
    // By the angles of lead and friction: 20 kN · 13.5 mm · tan(φ − λ), and 36 N·m of the collar.
    const down = 20e3 * 0.0135 * Math.tan(Math.atan(0.2) - Math.atan(6 / (27 * Math.PI))) + 0.15 * 20e3 * 0.012;
    expect(numberOf(demand.peak)).toBeCloseTo(down, 9);
    if (demand.cases instanceof Missing) throw new Error('no cases');
    expect(demand.cases[0]!.phases.map(({ returned }) => returned.value)).toEqual(demand.cases[0]!.phases.map(() => 0));
  });
  it('with leaning flanks as with more friction', () => {
    const leaning = demandIn(text('100 mm', 'thread: { diameter: 27 mm, friction: 0.2, flank: 15° }'));
    const steeper = demandIn(text('100 mm', `thread: { diameter: 27 mm, friction: ${0.2 / Math.cos(Math.PI / 12)} }`));
    expect(numberOf(leaning.peak)).toBeCloseTo(numberOf(steeper.peak), 9);
  });
  it.each([
    ['axes.jack.train.1.screw.efficiency', 'efficiency: 30 %, thread: { diameter: 27 mm, friction: 0.2 }'],
    ['axes.jack.train.1.screw.thread', 'collar: { diameter: 24 mm, friction: 0.15 }'],
    ['axes.jack.train.1.screw.thread.friction', 'thread: { diameter: 27 mm, friction: 20 }'],
    ['axes.jack.train.1.screw.thread.flank', 'thread: { diameter: 27 mm, friction: 0.2, flank: 90° }'],
  ])('what does not fit is told at %s', (path, screw) => {
    const { peak } = demandIn(text('100 mm', screw));
    expect(peak instanceof Missing && peak.lacks[0]!.path).toBe(path);
  });
});

it('S10 as a file: index table in triangular moves', () => {
  const demand = demandIn(`
axes:
  table:
    motion: { cycle: 1 s, steps: [{ turn: 120°, in: 0.4 s, ramp: 0.2 s }, { dwell: 0.6 s }] }
    train: [{ disc: { mass: 50 kg, diameter: 0.6 m } }, { gear: { ratio: 10 } }]
    motor: { inertia: 2e-3 kg·m² }
`);
  expect(numberOf(demand.inertia) / 2e-3).toBeCloseTo(11.25, 9);
  expect(numberOf(demand.peak)).toBeCloseTo(12.83, 2);
  expect(numberOf(demand.rms)).toBeCloseTo(8.11, 2);
  if (demand.cases instanceof Missing) throw new Error('no cases');
  const { power, speed } = demand.cases[0]!;
  expect(power.value / 1000).toBeCloseTo(1.34, 2);
  const peak = demand.peak as Quantity<'N·m'>;
  expect(power.value).toBeCloseTo(torquePower({ T: peak, ω: speed! }, 'check').value, 6);
});

it('M3 as a file: modified sine index of an inertia', () => {
  const demand = demandIn(`
axes:
  table:
    motion: { cycle: 0.5 s, steps: [{ turn: 90°, in: 0.25 s, law: modified_sine }, { dwell: rest }] }
    train: [{ inertia: 0.5 kg·m² }]
`);
  expect(numberOf(demand.peak)).toBeCloseTo(69.466, 3);
  expect(numberOf(demand.rms)).toBeCloseTo(34.733, 3);
  expect(numberOf(demand.speed)).toBeCloseTo(11.0559, 4);
  if (demand.cases instanceof Missing) throw new Error('no cases');
  expect(demand.cases[0]!.power.value).toBeCloseTo(430.93, 2);
});

it('S4 as a file: Khurmi and Gupta, ex. 3.2, cage, rope and drum', () => {
  // The rope goes along whole; its weight is given as hanging whole, as the book has it.
  const demand = demandIn(`
machine: { gravity: 9.81 m/s² }
axes:
  hoist:
    motion: { cycle: 20 s, runs: { speed: 10 m/s, for: 1 s, ramp_up: 6.6666666666666667 s } }
    train:
      - slide: { mass: 800 kg, inclination: 90° }
      - drum: { diameter: 1 m, mass: 250 kg, gyration: 350 mm }
`);
  expect(Math.max(...phaseTorques(demand))).toBeCloseTo(4615.9, 0);
});

it('W4 as a file: winder at core and full roll, stopped in ten seconds', () => {
  const demand = demandIn(`
masters:
  line: { speed: 5 m/s, repeat: 1 m, stops: { usual: { within: 10 s } } }
axes:
  wind:
    motion: { follow: line, winds: { core: 0.1 m, full: 0.8 m, width: 1 m, thickness: 50 µm, density: 1380 kg/m³, tension: 200 N } }
    train: []
`);
  if (demand.cases instanceof Missing) throw new Error(JSON.stringify(demand.cases));
  const of = (name: string) =>
    (demand.cases as Exclude<AxisDemand['cases'], Missing>).find((each) => each.name === name)!;
  expect(of('core_cycle').peak.value).toBeCloseTo(10, 9);
  expect(of('full_cycle').peak.value).toBeCloseTo(80, 9);
  expect(of('core_cycle').speed!.value).toBeCloseTo(100, 9);
  expect(of('full_cycle').speed!.value).toBeCloseTo(12.5, 9);
  // Stopping takes 69.35 N·m of what the web pulls with.
  expect(80 - of('full_stop_usual').phases[0]!.torque.value).toBeCloseTo(69.35, 2);
});

it('S2 as a file: general servo handbook example, timing belt with two pulleys', () => {
  const demand = demandIn(`
machine: { gravity: 9.8 m/s² }
axes:
  feed:
    motion: { cycle: 2 s, steps: [{ move: 1 m, in: 1 s, ramp: 0.1 s }] }
    losses_on: load
    train:
      - slide: { mass: 2 kg, friction: 0.1 }
      - belt: { diameter: 50 mm, wheels: 2, wheel_mass: 0.5 kg, efficiency: 80 % }
    motor: { inertia: 0.87e-4 kg·m² }
`);
  expect(numberOf(demand.inertia)).toBeCloseTo(1.5625e-3, 12);
  expect(numberOf(demand.inertia) / 0.87e-4).toBeCloseTo(17.96, 2);
  expect((numberOf(demand.speed) / (2 * Math.PI)) * 60).toBeCloseTo(424.4, 1);
  const [up, , down] = phaseTorques(demand);
  expect(up).toBeCloseTo(0.7944, 4);
  expect(-down!).toBeCloseTo(0.6719, 4);
  expect(numberOf(demand.rms)).toBeCloseTo(0.2358, 4);
});

it('P1 as a file: Khurmi and Gupta, ex. 3.2, time of a hoist', () => {
  for (const [move, way] of [
    ['move: 100 m', 100],
    ['move: -100 m', -100],
  ] as const) {
    const demand = demandIn(`
axes:
  hoist:
    motion: { cycle: 20 s, steps: [{ ${move}, speed: 10 m/s, acceleration: 1.5 m/s², deceleration: 6 m/s² }] }
    train: [{ slide: { mass: 500 kg } }, { drum: { diameter: 1 m, inertia: 0 kg·m² } }]
`);
    if (demand.motion instanceof Missing) throw new Error(JSON.stringify(demand.motion));
    expect(demand.motion.taken!.value).toBeCloseTo(14.17, 2);
    // Integrated again: the phases cover the stroke.
    const reached = demand.motion.phases.reduce((sum, phase) => sum + wayOf(phase.build(...valuesOf(phase))), 0);
    expect(reached).toBeCloseTo(way, 9);
    const torques = phaseTorques(demand);
    expect(torques[0]).toBeCloseTo(500 * 1.5 * 0.5, 9);
    expect(torques[2]).toBeCloseTo(-500 * 6 * 0.5, 9);
  }
});

describe('Sarkar, Theory of Machines, ch. 9: harmonic cams over the angle of their master, as files', () => {
  const stated = (rpm: number, lift: number, rise: number, back: number): Quantity => {
    const demand = demandIn(`
masters:
  cam: { speed: ${rpm} rpm }
axes:
  follower:
    motion:
      follow: cam
      steps:
        - { move: ${lift} mm, over: ${rise}°, law: simple_harmonic }
        - { move: -${lift} mm, over: ${back}°, law: simple_harmonic }
        - { dwell: rest }
    train: [{ slide: { mass: 1 kg } }, { rack: { diameter: 40 mm, wheel_inertia: 0 kg·m² } }]
`);
    if (demand.motion instanceof Missing) throw new Error(JSON.stringify(demand.motion));
    // The dwell is what the turn leaves.
    expect(demand.motion.cycle.value).toBeCloseTo(60 / rpm, 12);
    expect(demand.motion.phases.at(-1)!.duration.value).toBeCloseTo(((360 - rise - back) / 360) * (60 / rpm), 12);
    return highestAcceleration(demand) as Quantity;
  };
  it('M1 as a file: 40 mm at 300 rpm, rise in 60°', () => expect(stated(300, 40, 60, 90).value).toBeCloseTo(177.6, 0));
  it('M1 as a file, the return alone in 90° for both strokes', () =>
    expect(Math.abs(stated(300, 40, 90, 90).value - 78.9)).toBeLessThan(0.1));
  it('M2 as a file: 50 mm at 100 rpm, return in 60°', () =>
    expect(stated(100, 50, 120, 60).value).toBeCloseTo(24.7, 1));
});

it('W7 as a file: trade article on rotary-knife sizing (2022), circumference, speed in the cut and time for a cut', () => {
  const machine = read(`layshaft: 1
masters:
  web: { speed: 20 in/s, repeat: 4.71 in }
axes:
  knife:
    motion: { follow: web, cuts: { length: 4.71 in, circumference: 239.39 mm, blades: 1, working: 60°, recover: modified_sine } }
    train: [{ cutting: { force: 100 N, diameter: 3 in, over: 4° } }, { inertia: 0.01 kg·m² }]
    stated: { circumference: 9.42 in }
`);
  expect(machine.problems).toEqual([]);
  const { axes, findings } = assess(resolve(machine, []));
  expect(findings.find(({ address }) => address === 'axes.agrees@knife.circumference')!.verdict).toBe('holds');
  const { cases } = axes[0]!;
  if (cases instanceof Missing) throw new Error(JSON.stringify(cases));
  const points = traceOf(cases[0]!, 9);
  expect(points.at(-1)!.time_s).toBeCloseTo(0.2355, 4);
  expect((points[0]!.velocity / (2 * Math.PI)) * 60).toBeCloseTo(127.3, 1);
  expect(points.at(-1)!.position).toBeCloseTo(2 * Math.PI, 9);
});

it('a step that goes on backwards has friction against it, as its trace has', () => {
  const demand = demandIn(`
axes:
  table:
    motion:
      cycle: 3 s
      steps:
        - { move: -100 mm, in: 0.5 s, speed_after: -0.4 m/s }
        - { stay: 0.5 s }
        - { move: -100 mm, in: 0.5 s, speed_after: 0 m/s }
    train: [{ slide: { mass: 10 kg, friction: 0.1, inclination: 30° } }, { friction: { viscous: 30 N·s/m } }, { screw: { lead: 10 mm, inertia: 1 kg·cm², efficiency: 80 % } }]
`);
  if (demand.cases instanceof Missing) throw new Error(JSON.stringify(demand.cases));
  const stay = demand.cases[0]!.phases[1]!;
  const traced = traceOf(demand.cases[0]!, 9).filter(({ time_s }) => time_s > 0.6 && time_s < 0.9);
  // The working counts along the motion, the trace along the axis.
  for (const { torque } of traced) expect(-stay.torque.value).toBeCloseTo(torque, 9);
});

it('a dwell behind a step that ends at a speed is refused by name', () => {
  const { motion } = demandIn(`
axes:
  table:
    motion: { cycle: 3 s, steps: [{ move: 100 mm, in: 0.5 s, speed_after: 0.4 m/s }, { dwell: 0.5 s }] }
    train: []
`);
  expect(motion instanceof Missing && motion.lacks[0]!.path).toBe('axes.table.motion.steps.1.dwell');
});

const valuesOf = ({ inputs }: Phase): number[] => Object.values(inputs).map((each) => (each as Quantity).value);
