// Stops as files: on a ramp with a reaction, and by friction and brake alone, by hand.
import { describe, expect, it } from 'vitest';
import { assessText } from '../../../../tests/support/examples.ts';
import type { Assessment } from '../assess/assess.ts';
import { explain } from '../assess/numbers.ts';
import { show } from '../assess/show.ts';
import { Missing } from '../working/missing.ts';
import type { Coasting } from './stops.ts';

const of = (stop: string, axis: string, master = 'speed: 2 m/s'): Assessment =>
  assessText(
    `layshaft: 1\nmasters: { line: { ${master}, repeat: 1 m, stops: { quick: { ${stop} } } } }\naxes: { a: { ${axis} } }\n`,
    'm.yaml',
  );
const roll = (brake = '') =>
  `motion: { follow: line, gear: [1, 1] }, train: [{ friction: { force: 40 N } }, { roll: { diameter: 200 mm, inertia: 0.3 kg·m² } }, { gear: { ratio: 4, efficiency: 90 % } }], motor: { inertia: 20 kg·cm²${brake} }`;
const coasted = (assessment: Assessment): Coasting => {
  const found = assessment.stops[0]!.coasts[0]!.found;
  if (found === 'never' || found instanceof Missing) throw new Error(JSON.stringify(found));
  return found;
};

describe('a stop with the drives', () => {
  it('goes on at full speed for its reaction, then half of it over the ramp: 2 m/s, 0.1 s, 0.5 s are 0.7 m', () => {
    const assessment = of('within: 0.5 s, reaction: 0.1 s, way_at_most: 1 m, category: 1', roll());
    const found = assessment.findings.find(({ address }) => address === 'axes.stop_way@line.quick')!;
    expect(found.demand!.value).toBeCloseTo(0.7, 12);
    expect(found.verdict).toBe('holds');
    expect(found.says).toContain('local codes and licensed practice');
    const [view] = show(assessment, 'masters.line');
    expect(view!.tables.map(({ name }) => name)).toEqual(['stops']);
    expect(view!.tables[0]!.note).toContain('local codes and licensed practice');
  });

  it('is refused a limit of another kind', () => {
    const found = of('within: 0.5 s, way_at_most: 90°', roll()).findings.find(
      ({ check }) => check === 'axes.stop_way',
    )!;
    expect(found.lacks.map(({ path }) => path)).toEqual(['masters.line.stops.quick.way_at_most']);
  });
});

describe('a stop without the drives', () => {
  // At the motor: 40 N·0.1 m/4 of friction, 0.3/16 + 0.002 kg·m², 80 rad/s.
  const [M, J, ω] = [1, 0.3 / 16 + 0.002, 80];

  it('goes on by what turns until friction has taken it', () => {
    const assessment = of('within: 0.5 s, category: 0', roll());
    const { time, angle, tool } = coasted(assessment);
    expect(time.value).toBeCloseTo((J * ω) / M, 9);
    expect(angle.value).toBeCloseTo((J * ω ** 2) / (2 * M), 9);
    expect(tool.value).toBeCloseTo((((J * ω ** 2) / (2 * M)) * 0.1) / 4, 9);
    expect(explain(assessment, 'axes.stop.coasted_way@a.quick')).toBeDefined();
    expect(show(assessment, 'masters.line')[0]!.tables.map(({ name }) => name)).toEqual(['stops', 'coasting_quick']);
  });

  it('goes on at full speed for its reaction before', () => {
    const { time, angle } = coasted(of('reaction: 0.2 s, category: 0', roll(', brake: 3 N·m, brake_delay: 0 s')));
    const slowed = (J * ω) / (M + 3);
    expect(time.value).toBeCloseTo(0.2 + slowed, 9);
    expect(angle.value).toBeCloseTo(0.2 * ω + (slowed * ω) / 2, 9);
  });

  it('leaves a way that is allowed unanswered, and says where the ways are', () => {
    const assessment = of('way_at_most: 1 m, category: 0', roll());
    const found = assessment.findings.find(({ address }) => address === 'axes.stop_way@line.quick')!;
    expect(found.verdict).toBe('unknown');
    expect(found.says).toContain('how far each axis coasts without them, show masters.line tells');
  });

  it('is shorter by a brake, once it holds', () => {
    const { time } = coasted(of('within: 0.5 s, category: 0', roll(', brake: 3 N·m, brake_delay: 0.2 s')));
    expect(time.value).toBeCloseTo(0.2 + (ω - (M / J) * 0.2) / ((M + 3) / J), 9);
  });

  it('never ends where the load drives the axis on', () => {
    const lift = `motion: { follow: line, gear: [1, 1] }, train: [{ force: { against: -500 N } }, { friction: { force: 40 N } }, { roll: { diameter: 200 mm, inertia: 0.3 kg·m² } }], motor: { inertia: 20 kg·cm² }`;
    const assessment = of('within: 0.5 s, category: 0', lift);
    expect(assessment.stops[0]!.coasts[0]!.found).toBe('never');
    expect(JSON.stringify(show(assessment, 'masters.line')[0]!.tables)).toContain('does not stop');
  });

  it('needs to know how long the brake takes', () => {
    const { found } = of('within: 0.5 s, category: 0', roll(', brake: 3 N·m')).stops[0]!.coasts[0]!;
    expect((found as Missing).lacks.map(({ path }) => path)).toEqual(['axes.a.motor.brake_delay']);
  });
});
