// Rows and pictures of a data sheet beside its demand, by hand: play and wind-up at the tool, counts of the motor, its winding.
import { describe, expect, it } from 'vitest';
import { assessText } from '../../../../tests/support/examples.ts';
import type { Table, View } from '../checks/view.ts';
import { Quantity } from '../working/quantity.ts';
import { axisView } from './views.ts';

const motor =
  'inertia: 2 kg·cm², torque: 5 N·m, torque_peak: 15 N·m, speed: 4000 rpm, torque_constant: 1.5 N·m/A, encoder: 4096, temperature_rise: 100 K, rise_in_winding: 0 %, time_winding: 60 s, time_frame: 1800 s, winding_at_most: 155 °C';
const sheet = (
  train: string,
  motion = 'cycle: 4 s, steps: [{ move: 0.4 m, ramp: 0.5 s, in: 2 s }, { dwell: rest }]',
): View =>
  axisView(
    assessText(
      `layshaft: 1\nmachine: { ambient: 40 °C }\naxes: { a: { motion: { ${motion} }, train: [${train}], motor: { ${motor} }, drive: { speed_sample: 250 µs, loss_at_rest: 24 W, loss_per_current: 9 W/A } } }\n`,
      'm.yaml',
    ).axes[0]!,
    () => undefined,
  );
const valueIn = (view: View, row: string): number => {
  const table = view.tables.find(({ name }) => name === 'demand') as Table;
  const found = table.rows.find(([what]) => what === row)?.[1];
  if (!(found instanceof Quantity)) throw new Error(`${row} is ${JSON.stringify(found)}`);
  return found.value;
};
const rows = (view: View): readonly unknown[] => view.tables[0]!.rows.map(([what]) => what);

const arcmin = Math.PI / 180 / 60;
const screwed =
  '{ slide: { mass: 60 kg } }, { screw: { lead: 20 mm, inertia: 1e-9 kg·m², stiffness: 90 N/µm } }, { coupling: { backlash: 6 arcmin } }, { gear: { ratio: 5, backlash: 3 arcmin, stiffness: 6 N·m/arcmin } }';

describe('the tool', () => {
  it('a shaft turns for the tool as its ratios say', () => {
    // Coupling and output of the gear turn with the screw: 2π for 20 mm.
    const play = (9 * arcmin * 0.02) / (2 * Math.PI);
    expect(valueIn(sheet(screwed), 'play at the tool') / play).toBeCloseTo(1, 9);
    const turned = sheet(
      '{ inertia: 1 kg·m² }, { gear: { ratio: 3, backlash: 4 arcmin } }, { gear: { ratio: 5, backlash: 6 arcmin } }',
      'cycle: 4 s, steps: [{ turn: 90°, ramp: 0.5 s, in: 2 s }, { dwell: rest }]',
    );
    expect(valueIn(turned, 'play at the tool') / ((4 + 6 / 3) * arcmin)).toBeCloseTo(1, 9);
    expect(rows(turned)).not.toContain('wind-up at the tool at the highest torque');
  });

  it('gives way by the force on the screw and the torque in the gear', () => {
    const view = sheet(screwed);
    const torque = valueIn(view, 'highest torque') * 5;
    const due = (torque * 2 * Math.PI) / 0.02 / 90e6 + ((torque / (6 / arcmin)) * 0.02) / (2 * Math.PI);
    const windUp = valueIn(view, 'wind-up at the tool at the highest torque');
    expect(windUp / due).toBeCloseTo(1, 9);
    expect(valueIn(view, 'lost motion at the tool, both together')).toBeCloseTo(
      windUp + valueIn(view, 'play at the tool'),
      15,
    );
  });
});

describe('a motor', () => {
  it('is seen by its encoder in steps of a count for each sample', () => {
    const view = sheet(screwed);
    const step = (2 * Math.PI) / 4096 / 250e-6;
    expect(valueIn(view, 'step of its speed as its encoder counts it, without a filter')).toBeCloseTo(step, 9);
    expect(valueIn(view, 'the same as a share of the highest speed')).toBeCloseTo(
      step / valueIn(view, 'highest speed'),
      12,
    );
  });

  it('warms up along one curve of first order where it is one body, to its mean losses', () => {
    const view = sheet(screwed);
    const rise = 100 * (valueIn(view, 'effective torque over the cycle') / 5) ** 2;
    expect(valueIn(view, 'hottest winding in the long run')).toBeCloseTo(313.15 + rise, 1);
    expect(valueIn(view, 'until it has 95 % of that rise') / (1800 * Math.log(20))).toBeCloseTo(1, 1);
    const { picture } = view.pictures.find(({ picture: { name } }) => name === 'winding')!;
    const curve = picture.marks.find((mark) => mark.kind === 'line' && mark.weight === 'edge');
    const points = curve?.kind === 'line' ? curve.points : [];
    expect(points.length).toBeGreaterThan(100);
    for (const { x, y } of points) expect(y).toBeCloseTo(313.15 + rise * -Math.expm1(-x / 1800), 1);
    expect(points.at(-1)!.x).toBeGreaterThan(valueIn(view, 'until it has 95 % of that rise'));
  });

  it('has a drive that gets warm by its mean current', () => {
    const view = sheet(
      '{ friction: { torque: 3 N·m } }, { inertia: 1e-9 kg·m² }',
      'cycle: 4 s, runs: { speed: 60 rpm, for: 4 s }',
    );
    expect(valueIn(view, 'heat of the drive, in the mean')).toBeCloseTo(24 + (9 * 3) / 1.5, 9);
  });

  it('is not drawn warm where it says nothing of it', () => {
    const view = axisView(
      assessText('layshaft: 1\naxes: { a: { motor: { torque: 5 N·m } } }\n', 'm.yaml').axes[0]!,
      () => undefined,
    );
    expect(view.pictures.map(({ picture }) => picture.name)).toEqual(['curves']);
  });
});
