// What a train lets the loops do, as files: the two masses of the reference, springs behind gears and screws, the following error.
import { describe, expect, it } from 'vitest';
import { assessText } from '../../../../../tests/support/examples.ts';
import { Missing } from '../../working/missing.ts';
import { givingWayOf } from '../stiffness-of.ts';

const file = (
  train: string,
  more = '',
  motion = 'cycle: 1 s, runs: { speed: 60 rpm, for: 1 s }',
): string => `layshaft: 1
axes:
  a: { motion: { ${motion} }, train: [${train}], motor: { inertia: 10 kg·cm² }${more} }
`;
const finding = (text: string, check: string) => {
  const found = assessText(text, 'm.yaml').findings.find(({ address }) => address === `axes.${check}@a`);
  if (found === undefined) throw new Error(`no ${check}`);
  return found;
};
const givingWay = (text: string) => givingWayOf(assessText(text, 'm.yaml').axes[0]!)!;
const number = (value: { readonly value: number } | Missing): number => {
  if (value instanceof Missing) throw new Error('not known');
  return value.value;
};

describe('a train that gives way', () => {
  it('has the frequencies of two masses: 1e-3, 5e-3 kg·m² and 2000 N·m/rad (derived)', () => {
    const found = givingWay(file('{ inertia: 50 kg·cm² }, { coupling: { stiffness: 2000 N·m/rad } }'));
    expect(number(found.antiresonance)).toBeCloseTo(100.66, 2);
    expect(number(found.resonance)).toBeCloseTo(246.56, 2);
  });

  it('has all springs in series, each by the gears between it and the motor', () => {
    const springs =
      '{ inertia: 5 kg·m² }, { coupling: { stiffness: 9000 N·m/rad } }, { gear: { ratio: 3, stiffness: 8000 N·m/rad } }, { gear: { ratio: 5, stiffness: 700 N·m/rad } }';
    const soft = 1 / (225 / 9000 + 225 / 8000 + 25 / 700);
    expect(givingWay(file(springs)).stiffness.value).toBeCloseTo(soft, 9);
  });

  it('takes what gives way along the tool to the shaft that turns it', () => {
    const along = 'cycle: 1 s, runs: { speed: 1 m/s, for: 1 s }';
    const screw = '{ slide: { mass: 20 kg } }, { screw: { lead: 10 mm, inertia: 0 kg·m², stiffness: 100 N/µm } }';
    expect(givingWay(file(screw, '', along)).stiffness.value).toBeCloseTo(100e6 * (0.01 / (2 * Math.PI)) ** 2, 6);
    const belt =
      '{ slide: { mass: 20 kg } }, { belt: { diameter: 60 mm, wheel_mass: 1 kg, stiffness: 2 N/µm } }, { gear: { ratio: 4 } }';
    expect(givingWay(file(belt, '', along)).stiffness.value).toBeCloseTo((2e6 * 0.03 ** 2) / 16, 9);
  });

  it('is asked for the bandwidth that the gain needs: 4·k/2π against a third of the antiresonance', () => {
    const text = file('{ inertia: 50 kg·cm² }, { coupling: { stiffness: 2000 N·m/rad } }', ', gain: 40 1/s');
    const { demand, capacity, verdict } = finding(text, 'bandwidth');
    expect(demand!.value).toBeCloseTo(160 / (2 * Math.PI), 9);
    expect(capacity!.value).toBeCloseTo(100.6584 / 3, 3);
    expect(verdict).toBe('holds');
    expect(finding(text.replace('40 1/s', '80 1/s'), 'bandwidth').verdict).toBe('fails');
  });

  it('is not asked where nothing says how stiff it is', () => {
    expect(() => finding(file('{ inertia: 50 kg·cm² }', ', gain: 40 1/s'), 'bandwidth')).toThrow('no bandwidth');
  });
});

describe('the following error', () => {
  const along = 'cycle: 1 s, runs: { speed: 2 m/s, for: 1 s }';
  const roll = '{ roll: { diameter: 100 mm, inertia: 1 kg·cm² } }';

  it('is v/k: 2 m/s at 50 1/s are 40 mm behind', () => {
    const { demand, verdict } = finding(file(roll, ', gain: 50 1/s, follows_within: 50 mm', along), 'following');
    expect(demand!.value).toBeCloseTo(0.04, 12);
    expect(verdict).toBe('holds');
  });

  it('needs a gain, and a measure of the kind of the tool', () => {
    expect(finding(file(roll, ', follows_within: 50 mm', along), 'following').lacks.map(({ path }) => path)).toEqual([
      'axes.a.gain',
    ]);
    const wrong = finding(file(roll, ', gain: 50 1/s, follows_within: 1°', along), 'following');
    expect(wrong.lacks.map(({ path }) => path)).toEqual(['axes.a.follows_within']);
  });
});
