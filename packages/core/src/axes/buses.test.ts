// Buses as files: the worked stop of the reference, and axes that drive and brake beside each other.
import { describe, expect, it } from 'vitest';
import { assessText } from '../../../../tests/support/examples.ts';
import type { Assessment } from '../assess/assess.ts';
import { explain } from '../assess/numbers.ts';
import { show } from '../assess/show.ts';
import { Missing } from '../working/missing.ts';

const drive = '{ capacitance: 1000 µF, bus_brake: 780 V, bus_at_most: 820 V, resistor_at_least: 20 Ω }';
const resistor = 'resistor: { resistance: 22 Ω, power: 1.5 kW, energy: 4 kJ }';
const finding = (assessment: Assessment, check: string) => {
  const found = assessment.findings.find(({ address }) => address === `axes.${check}@main`);
  if (found === undefined) throw new Error(`no ${check}`);
  return found;
};

describe('R4: 0.05 kg·m² from 3000 rpm in 0.2 s on 1000 µF from 565 to 780 V (derived)', () => {
  const text = `layshaft: 1
cabinet: { supply: { mains: ${565 / Math.SQRT2} V } }
masters:
  turn: { speed: 3000 rpm, stops: { quick: { within: 0.2 s, category: 1 } } }
axes:
  wheel: { motion: { follow: turn, gear: [1, 1] }, train: [{ inertia: 0.05 kg·m² }], motor: { inertia: 1e-12 kg·m² }, drive: ${drive} }
buses:
  main: { axes: [wheel], ${resistor} }
`;
  const assessment = assessText(text, 'm.yaml');

  it('leaves 2322.8 J for the resistor', () => {
    const { demand, verdict } = finding(assessment, 'resistor_energy');
    expect(demand!.value).toBeCloseTo(2322.8, 1);
    expect(verdict).toBe('holds');
  });

  it('lifts the bus to where the resistor is switched on, and no further', () => {
    expect(finding(assessment, 'bus_voltage').demand!.value).toBeCloseTo(780, 9);
    const without = assessText(text.replace(`, ${resistor}`, ''), 'm.yaml');
    // All of 2467.4 J into 1000 µF.
    expect(finding(without, 'bus_voltage').demand!.value).toBeCloseTo(Math.sqrt(565 ** 2 + (2 * 2467.4011) / 1e-3), 3);
    expect(finding(without, 'bus_voltage').verdict).toBe('fails');
  });

  it('has its highest power behind what the capacitor takes first', () => {
    // The power falls in a straight line from 24.674 kW; 144.6 J are gone after so long.
    const t_s = 0.2 * (1 - Math.sqrt(1 - 144.5875 / 2467.4011));
    expect(finding(assessment, 'resistor_peak').demand!.value).toBeCloseTo(24674.011 * (1 - t_s / 0.2), 0);
  });

  it('is explained by all that it rests on, and shown', () => {
    const working = JSON.stringify(explain(assessment, 'axes.resistor_energy@main'));
    for (const path of [
      'masters.turn.speed',
      'axes.wheel.train.0.inertia',
      'axes.wheel.drive.capacitance',
      'cabinet.supply.mains',
    ])
      expect(working).toContain(path);
    expect(show(assessment, 'buses.main')[0]!.tables[0]!.rows).toHaveLength(2);
  });
});

describe('a bus of axes gives what its axes give', () => {
  const shared = (pull_N: number, more = ''): Assessment =>
    assessText(
      `layshaft: 1
cabinet: { supply: { mains: 400 V } }
masters: { line: { speed: 2 m/s, repeat: 1 m } }
axes:
  pull: { motion: { follow: line, gear: [1, 1] }, train: [{ force: { against: ${pull_N} N } }, { roll: { diameter: 100 mm, inertia: 1 kg·cm² } }], drive: ${drive} }
  hold: { motion: { follow: line, gear: [1, 1] }, train: [{ force: { against: -500 N } }, { roll: { diameter: 100 mm, inertia: 1 kg·cm² } }], drive: ${drive} }
buses: { main: { axes: [pull, hold]${more} } }
`,
      'm.yaml',
    );

  it('burns in the mean what one gives back and the other does not use', () => {
    const assessment = shared(200, `, ${resistor}`);
    expect(finding(assessment, 'resistor_mean').demand!.value).toBeCloseTo((500 - 200) * 2, 6);
    expect(finding(assessment, 'resistor_peak').demand!.value).toBeCloseTo(600, 6);
    expect(finding(assessment, 'bus_balance').verdict).toBe('holds');
  });

  it('burns nothing where the others use it', () => {
    expect(finding(shared(700, `, ${resistor}`), 'resistor_mean').demand!.value).toBe(0);
    expect(finding(shared(700), 'bus_voltage').demand!.value).toBeCloseTo(400 * Math.SQRT2, 6);
  });

  it('rises with each cycle where nothing burns it', () => {
    expect(finding(shared(200), 'bus_balance').verdict).toBe('fails');
    expect(finding(shared(700), 'bus_balance').verdict).toBe('holds');
  });

  it('gives what an index table and a hoist take in a cycle, whichever of them is the longer', () => {
    const text = `layshaft: 1
cabinet: { supply: { mains: 400 V } }
axes:
  table: { motion: { cycle: 1 s, steps: [{ turn: 120°, in: 0.4 s, law: modified_sine }, { dwell: rest }] }, train: [{ inertia: 2 kg·m² }, { friction: { torque: 5 N·m } }], drive: ${drive} }
  hoist: { motion: { cycle: 3 s, steps: [{ move: 1 m, in: 1 s, ramp: 0.3 s }, { dwell: 0.5 s }, { move: -1 m, in: 1 s, ramp: 0.3 s }, { dwell: rest }] }, train: [{ slide: { mass: 40 kg, inclination: 90° } }, { friction: { force: 60 N } }, { drum: { diameter: 200 mm, inertia: 0.1 kg·m² } }], drive: ${drive} }
buses: { main: { axes: [table, hoist], resistor: { resistance: 30 Ω, power: 1 kW, energy: 9 kJ } } }
`;
    const assessment = assessText(text, 'm.yaml');
    const { cycle } = assessment.buses[0]!;
    if (cycle instanceof Missing) throw new Error('not known');
    // What friction takes in three cycles of the table and one of the hoist, and what is burnt, come from the mains.
    const burnt = cycle.mean!.value * 3;
    expect(burnt).toBeGreaterThan(0);
    expect(burnt).toBeLessThan((3 * (2 * 8.3 ** 2)) / 2 + 40 * 9.81);
    expect(cycle.highest.value).toBeLessThanOrEqual(780);
  });

  it('cycles that never meet keep their mean power, whatever their lengths', () => {
    // A load that pulls with 5 N·m gives back 10·π J in each turn, and all of it must be burnt.
    const index = (cycle_s: number, turn_s: number) =>
      `{ motion: { cycle: ${cycle_s} s, steps: [{ turn: 360°, in: ${turn_s} s, law: cycloidal }, { dwell: rest }] }, train: [{ inertia: 0.001 kg·m² }, { torque: { against: -5 N·m } }], drive: ${drive} }`;
    for (const [one, other] of [
      [3, 1.6180339],
      [3, 2.9],
      [6, 0.6666667],
      [3, 1 / 3],
      [1, 0.9999999],
      [2, 0.0717],
    ] as const) {
      const text = `layshaft: 1
cabinet: { supply: { mains: 400 V } }
axes:
  one: ${index(one, one / 3)}
  other: ${index(other, other / 2)}
buses:
  main: { axes: [one, other], ${resistor} }
`;
      const { demand } = finding(assessText(text, 'm.yaml'), 'resistor_mean');
      expect(demand!.value / (10 * Math.PI * (1 / one + 1 / other)), `${one} s, ${other} s`).toBeCloseTo(1, 6);
    }
  });

  it('stops of one name of two masters are both asked about', () => {
    const text = (quick: string, slow: string) => `layshaft: 1
cabinet: { supply: { mains: 400 V } }
masters:
  a: { speed: 3000 rpm, stops: { quick: { within: ${quick}, category: 1 } } }
  b: { speed: 3000 rpm, stops: { quick: { within: ${slow}, category: 1 } } }
axes:
  x: { motion: { follow: a, gear: [1, 1] }, train: [{ inertia: 0.01 kg·m² }], drive: ${drive} }
  y: { motion: { follow: b, gear: [1, 1] }, train: [{ inertia: 0.01 kg·m² }], drive: ${drive} }
buses:
  main: { axes: [x, y], ${resistor} }
`;
    const peaks = [
      ['0.1 s', '2 s'],
      ['2 s', '0.1 s'],
      ['0.1 s', '0.1 s'],
    ].map(([quick, slow]) => finding(assessText(text(quick!, slow!), 'm.yaml'), 'resistor_peak').demand!.value);
    expect(peaks[0]).toBeGreaterThan(10_000);
    expect(peaks).toEqual([peaks[0], peaks[0], peaks[0]]);
    const [table] = show(assessText(text('0.1 s', '2 s'), 'm.yaml'), 'buses.main')[0]!.tables;
    expect(table!.rows.map(([name]) => name)).toEqual(['in production', 'stop a_quick', 'stop b_quick']);
  });

  it('says what lacks', () => {
    const { verdict, lacks } = finding(
      assessText(
        'layshaft: 1\naxes: { a: { motion: { cycle: 1 s, runs: { speed: 9 rpm, for: 1 s } }, train: [{ inertia: 1 kg·m² }] } }\nbuses: { main: { axes: [a] } }\n',
        'm.yaml',
      ),
      'bus_voltage',
    );
    expect(verdict).toBe('unknown');
    expect(lacks.map(({ path }) => path)).toEqual(expect.arrayContaining(['axes.a.drive', 'cabinet.supply.mains']));
  });

  it('is asked of without an axis on it, and nothing is thrown', () => {
    const empty = assessText(`layshaft: 1\nbuses: { main: { ${resistor} } }\n`, 'm.yaml');
    for (const check of ['bus_voltage', 'resistor_peak', 'resistor_least', 'bus_balance'])
      expect(finding(empty, check).verdict).toBe('unknown');
  });
});

it('a brake resistor that no catalogue has is told', () => {
  const { design } = assessText('layshaft: 1\nbuses: { main: { axes: [], resistor: resistor_12O } }\n', 'm.yaml');
  expect(design.problems.map(({ message }) => message)).toEqual([
    "no catalogue in use has a part called 'resistor_12O'",
  ]);
});
