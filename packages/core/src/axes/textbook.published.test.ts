// Textbook problems as machine files, from the text of the file to the numbers that are shown.
import { describe, expect, it } from 'vitest';
import { assess } from '../assess/assess.ts';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import { torquePower } from './calc/efficiency.ts';
import type { AxisDemand } from './demand.ts';

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
    // Published for the inertia of the load alone; here the rotor sits behind the screw and loses nothing, as it should.
    expect(numberOf(demand.peak)).toBeCloseTo(0.2427 - (0.2427 - 0.2309) * (1 - 0.8), 2);
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
