// A case walked in short steps against the exact integrals of its phases, and against what stands in the data of a gear.
import { describe, expect, it } from 'vitest';
import { assessText, exampleMachines } from '../../../../tests/support/examples.ts';
import { valuesOf } from '../working/formula.ts';
import { Missing } from '../working/missing.ts';
import { gearDuty, powerPieces, torqueSpeedPoints } from './calc/course.ts';
import { courseOf } from './course.ts';
import type { Case } from './demand.ts';

const casesOf = (text: string): readonly Case[] =>
  assessText(text, 'm.yaml').axes.flatMap(({ cases }) => (cases instanceof Missing ? [] : cases));
const cases = exampleMachines().flatMap(({ text }) => casesOf(text));
const sum = (values: readonly number[]): number => values.reduce((all, each) => all + each, 0);

describe('a course', () => {
  it('has the energy of its case', () => {
    expect(cases.length).toBeGreaterThan(60);
    for (const each of cases) {
      const exact = sum(each.phases.map(({ given, returned }) => given.value - returned.value));
      const moved = sum(each.phases.map(({ given, returned }) => given.value + returned.value));
      const walked = sum(powerPieces(courseOf(each).now).map(({ energy_J }) => energy_J));
      expect(Math.abs(walked - exact), each.title).toBeLessThan(1e-4 * moved + 1e-12);
    }
  });

  it('meets the highest torque and speed of its case', () => {
    for (const each of cases) {
      const points = torqueSpeedPoints(courseOf(each).now);
      const highest = Math.max(...each.phases.map(({ torque }) => Math.abs(torque.value)));
      expect(Math.max(...points.map(({ torque_Nm }) => torque_Nm)) / highest, each.title).toBeCloseTo(1, 2);
      const speed = Math.max(...points.map(({ speed_rad_per_s }) => speed_rad_per_s));
      if (each.speed !== undefined) expect(speed / each.speed.value, each.title).toBeCloseTo(1, 2);
    }
  });

  it('is built again from the values of its inputs', () => {
    for (const each of cases.slice(0, 20)) {
      const { inputs, build, now } = courseOf(each);
      expect(powerPieces(build(valuesOf(inputs)))).toEqual(powerPieces(now));
    }
  });
});

it('a gear carries what is behind it: by hand for a drum that hoists and stands', () => {
  const text = `layshaft: 1
machine: { gravity: 10 m/s² }
axes:
  hoist:
    motion: { cycle: 4 s, steps: [{ move: 2 m, in: 2 s, ramp: 1 s }, { dwell: rest }] }
    train:
      - slide: { mass: 100 kg, inclination: 90° }
      - drum: { diameter: 400 mm, inertia: 0 kg·m² }
      - gear: { ratio: 20, efficiency: 90 %, inertia: 5 kg·cm² }
    motor: { inertia: 10 kg·cm² }
`;
  const [only] = casesOf(text);
  // Up at 2 m/s² for a second, down from 2 m/s at 2 m/s² for another: 1200 N and 800 N at 0.2 m, each for half of the way.
  const duty = gearDuty(courseOf(only!).now, 1, 3);
  expect(duty.peak_Nm).toBeCloseTo(240, 9);
  expect(duty.mean_Nm).toBeCloseTo(((240 ** 3 + 160 ** 3) / 2) ** (1 / 3), 9);
  expect(duty.peak_rad_per_s).toBeCloseTo(10, 6);
  expect(duty.mean_rad_per_s).toBeCloseTo(2.5, 9);
});
