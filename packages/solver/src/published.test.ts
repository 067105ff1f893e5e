// The packing instances with which the R package adagio documents its functions, as models with exactly these optima.
import type { Constraint, LinearModel, Variable } from '@layshaft/core/linear-model';
import { describe, expect, it } from 'vitest';
import { solveHere } from './here.ts';

describe('R package adagio, binpacking', () => {
  it.each([
    ['BP-1', [50, 3, 48, 53, 53, 4, 3, 41, 23, 20, 52, 49], 4],
    ['BP-2', [100, 99, 89, 88, 87, 75, 67, 65, 65, 57, 57, 49, 47, 31, 27, 18, 13, 9, 8, 1], 12],
  ])('%s: fewest bins of 100', async (_, sizes, fewest) => {
    expect(await solveHere(binPacking(sizes, 100, fewest + 1))).toMatchObject({ status: 'optimal', cost: fewest });
  });
});

describe('R package adagio, knapsack', () => {
  it('KN-1: weight 102', async () => {
    const found = await solveHere(knapsack([15, 100, 90, 60, 40, 15, 10, 1], [2, 20, 20, 30, 40, 30, 60, 10], 102));
    expect(found).toMatchObject({ status: 'optimal', cost: -280, values: [1, 1, 1, 1, 0, 1, 0, 0] });
  });

  it('KN-2: weight 50', async () => {
    expect(await solveHere(knapsack([70, 20, 39, 37, 7, 5, 10], [31, 10, 20, 19, 4, 3, 6], 50))).toMatchObject({
      status: 'optimal',
      cost: -107,
    });
  });
});

/** Each item into one bin; a bin costs 1 when it is used, and is used only behind the one before it. */
function binPacking(sizes: readonly number[], room: number, bins: number): LinearModel {
  const variables: Variable[] = [];
  const either = (name: string, cost: number): number =>
    variables.push({ name, least: 0, most: 1, whole: true, cost }) - 1;
  const each = Array.from({ length: bins }, (_, bin) => bin);
  const used = each.map((bin) => either(`bin ${bin}`, 1));
  const inBin = sizes.map((size) => each.map((bin) => either(`${size} in bin ${bin}`, 0)));
  const constraints: Constraint[] = [
    ...sizes.map((size, item) => ({
      name: `item of ${size}`,
      terms: inBin[item]!.map((variable) => ({ variable, factor: 1 })),
      least: 1,
      most: 1,
    })),
    ...each.map((bin) => ({
      name: `room of bin ${bin}`,
      terms: [
        ...sizes.map((factor, item) => ({ variable: inBin[item]![bin]!, factor })),
        { variable: used[bin]!, factor: -room },
      ],
      least: -Infinity,
      most: 0,
    })),
    ...each.slice(1).map((bin) => ({
      name: `bin ${bin} behind the one before`,
      terms: [
        { variable: used[bin - 1]!, factor: 1 },
        { variable: used[bin]!, factor: -1 },
      ],
      least: 0,
      most: Infinity,
    })),
  ];
  return { variables, constraints };
}

const knapsack = (profits: readonly number[], weights: readonly number[], most: number): LinearModel => ({
  variables: profits.map((profit, item) => ({ name: `item ${item}`, least: 0, most: 1, whole: true, cost: -profit })),
  constraints: [
    { name: 'weight', terms: weights.map((factor, variable) => ({ variable, factor })), least: -Infinity, most },
  ],
});
