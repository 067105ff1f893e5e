// The highest speed, acceleration and jerk of a motion against the tables of motion laws.
import { describe, expect, it } from 'vitest';
import { read } from '../machine/machine.ts';
import { resolve } from '../machine/resolve.ts';
import { demandOf } from './demand.ts';
import { highestAcceleration } from './highest-acceleration.ts';
import { highestJerk, highestSpeedOfMotion } from './highest-of-motion.ts';

const demandIn = (steps: string) => {
  const design = resolve(
    read(
      `layshaft: 1\naxes:\n  a: { motion: { cycle: 1 s, steps: [${steps}, { dwell: rest }] }, train: [{ slide: { mass: 1 kg } }] }\n`,
    ),
    [],
  );
  expect(design.problems).toEqual([]);
  return demandOf(design.axes[0]!, design.gravity);
};

describe('speed, acceleration and jerk of laws are highest as their tables say', () => {
  // VDI 2143 practice: v = Cv·h/T, a = Ca·h/T², j = Cj·h/T³.
  it.each([
    ['cycloidal', 2, 6.283185, 39.478418],
    ['modified_trapezoid', 2, 4.888124, 61.425975],
    ['modified_sine', 1.759603, 5.527957, 69.466357],
    ['polynomial_345', 1.875, 5.773503, 60],
    ['polynomial_4567', 2.1875, 7.513188, 52.5],
  ])('%s: Cv %f, Ca %f, Cj %f', (law, Cv, Ca, Cj) => {
    const [h, T] = [0.2, 0.4];
    const demand = demandIn(`{ move: 200 mm, in: 400 ms, law: ${law} }`);
    const found = [highestSpeedOfMotion(demand), highestAcceleration(demand), highestJerk(demand)];
    expect(found).toMatchObject([{ unit: 'm/s' }, { unit: 'm/s²' }, { unit: 'm/s³' }]);
    for (const [at, coefficient] of [Cv, Ca, Cj].entries())
      expect((found[at] as { value: number }).value / ((coefficient * h) / T ** (at + 1))).toBeCloseTo(1, 6);
  });

  it('a motion whose acceleration jumps has no highest jerk, between its steps or where the cycle begins again', () => {
    for (const law of ['simple_harmonic', 'constant_acceleration'])
      expect(highestJerk(demandIn(`{ move: 200 mm, in: 400 ms, law: ${law} }`))).toBeUndefined();
    expect(highestJerk(demandIn('{ move: 0.2 m, speed: 5 m/s, acceleration: 20 m/s² }'))).toBeUndefined();
  });
});
