// What the view of an axis calls its inputs and its cases.
import { describe, expect, it } from 'vitest';
import { assessText } from '../../../../tests/support/examples.ts';
import { show } from '../assess/show.ts';

const axis = (of: string) =>
  show(
    assessText(
      `layshaft: 1\nmasters: { line: { speed: 60 m/min, repeat: 300 mm, ramp_up: 2 s } }\naxes: { a: { ${of} } }\n`,
      'm.yaml',
    ),
    'axes.a',
  )[0]!;
const titles = (of: string): readonly string[] => axis(of).inputs.map(({ title }) => title);

describe('the view of an axis', () => {
  it('names its inputs by what they are of', () => {
    expect(
      titles(
        'motion: { follow: line, gear: [1, 1] }, train: [{ belt: { diameter: 80 mm, wheels: 2, wheel_mass: 0.9 kg, mass: 1.1 kg, efficiency: 95 % } }]',
      ),
    ).toEqual(['speed of line', 'mass of the belt', 'diameter of the belt', 'efficiency of the belt']);
  });

  it('tells two elements of one kind apart, and the steps of a motion', () => {
    const two = titles(
      'motion: { cycle: 1 s, steps: [{ turn: 60°, in: 0.25 s, law: modified_sine }, { dwell: rest }] }, train: [{ disc: { mass: 2 kg, diameter: 0.2 m } }, { gear: { ratio: 3, efficiency: 96 % } }, { gear: { ratio: 5, efficiency: 97 % } }]',
    );
    expect(two).toContain('step 1: turn');
    expect(two).toContain('ratio of the gear, element 2');
    expect(two).toContain('ratio of the gear, element 3');
    expect(new Set(two).size).toBe(two.length);
  });

  it('tells its cases in words', () => {
    const { tables } = axis(
      'motion: { follow: line, gear: [1, 1] }, train: [{ belt: { diameter: 80 mm, wheels: 2, wheel_mass: 0.9 kg, mass: 1.1 kg, efficiency: 95 % } }]',
    );
    const cases = tables.find(({ name }) => name === 'cases')!.rows.map(([title]) => title);
    expect(cases).toEqual(['cycle at full speed', 'the master gets up to speed']);
  });
});
