// Compares the closed list with mathjs, and checks that its units stay apart.
import { all, create } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { distinguishingBases, sameDimension } from './dimension.ts';
import { scaleOf } from './resolve-unit.ts';
import { dimensionOf, mathjsUnit, siUnits } from './si.ts';

const math = create(all!);
const sizeOf = (expression: string): { value: number; dimensions: readonly number[] } => {
  const unit = math.evaluate(`1 * (${expression})`);
  if (typeof unit === 'number') return { value: unit, dimensions: Array(9).fill(0) };
  return { value: unit.value, dimensions: unit.dimensions.map((power: number) => power + 0) };
};

/** Our name of a unit in the words of mathjs, term by term; angles, cycles, dB and cost count as 1. */
const inItsWords = (unit: string) =>
  unit
    .replace(/K abs/, 'K')
    .replace(/rad|dB|cost/g, '1')
    .replace(/Hz/, '1/s')
    .replace(/bit/, 'b')
    .replace(/Ω/, 'ohm')
    .replace(/²/g, '^2')
    .replace(/³/g, '^3')
    .replace(/·/g, ' * ');

describe('the closed list', () => {
  it.each(siUnits)('%s has the dimension that mathjs gives its name, and the size 1', (unit) => {
    const expected = sizeOf(inItsWords(unit));
    const ours = sizeOf(mathjsUnit[unit]);
    expect(ours.dimensions).toEqual(expected.dimensions);
    expect(ours.value).toBe(1);
    expect(expected.value).toBe(1);
  });

  it.each(siUnits.filter((unit) => unit !== '1'))('%s is a spelling of itself', (unit) => {
    expect(scaleOf(unit, unit)).toEqual({ before: 0, times: 1, over: 1, shift: 0 });
  });

  it('holds every unit once, and no two that the type check takes for one another', () => {
    const pairs = siUnits.flatMap((a, i) => siUnits.slice(i + 1).map((b) => [a, b] as const));
    expect(pairs.filter(([a, b]) => sameDimension(dimensionOf[a], dimensionOf[b]))).toEqual([]);
  });

  it('tells apart what physics does not', () => {
    const apart = siUnits.filter((unit) => distinguishingBases.some((base) => dimensionOf[unit][base]));
    expect(apart).toEqual(expect.arrayContaining(['rad', 'rad/s', 'Hz', 'J', 'K abs', 'dB', 'cost', 'N·m/rad']));
    expect(apart).not.toContain('1/s');
    expect(apart).not.toContain('N·m');
  });
});
