// What is to blame where there is no solution: planted culprits are named, exactly they, and each of them matters.
import type { Constraint, LinearModel, Variable } from '@layshaft/core/linear-model';
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../tests/support/seeded.ts';
import { conflictAmong } from './conflict.ts';
import { solveHere } from './here.ts';

/** Twelve channels and six of them, one or two places wide; 0.2 A and 0.5 A; 9 places in each of two racks. */
const names = ['inputs in main', 'outputs in main', 'inputs in annex', 'outputs in annex'];
const counts: readonly Variable[] = names.map((name) => ({ name, least: 0, most: 20, whole: true, cost: 1 }));

const sum = (factors: readonly number[], least: number, most: number, need?: string): Constraint => ({
  name: need ?? 'always',
  terms: factors.flatMap((factor, variable) => (factor === 0 ? [] : [{ variable, factor }])),
  least,
  most,
  need,
});
const inputs = (least: number): Constraint => sum([12, 0, 12, 0], least, Infinity, `${least} inputs`);
const outputs = (least: number): Constraint => sum([0, 6, 0, 6], least, Infinity, `${least} outputs`);
const placesOfMain = sum([1, 2, 0, 0], -Infinity, 9, 'places of main');
const placesOfAnnex = sum([0, 0, 1, 2], -Infinity, 9, 'places of annex');
const supplyOfMain = sum([0.2, 0.5, 0, 0], -Infinity, 2.5, 'supply of main');
const supplyOfAnnex = sum([0, 0, 0.2, 0.5], -Infinity, 2.5, 'supply of annex');
const racks = [placesOfMain, placesOfAnnex, supplyOfMain, supplyOfAnnex];

/** Three groups of points and two modules that each can be on; 1 where a group is on the first. */
const onFirst: readonly Variable[] = ['a', 'b', 'c'].map((name) => ({ name, least: 0, most: 1, whole: true, cost: 0 }));
const apart = (factors: readonly number[], need: string): Constraint => sum(factors, 1, 1, need);
const together = (factors: readonly number[], need: string): Constraint => sum(factors, 0, 0, need);

const planted: readonly (readonly [string, LinearModel, readonly string[]])[] = [
  [
    'more inputs than all places hold',
    { variables: counts, constraints: [inputs(230), outputs(6), ...racks] },
    ['230 inputs', 'places of main', 'places of annex'],
  ],
  [
    'more outputs than both supplies feed, though there are places',
    {
      variables: counts,
      constraints: [
        inputs(24),
        outputs(54),
        sum([1, 2, 0, 0], -Infinity, 20, 'places of main'),
        sum([0, 0, 1, 2], -Infinity, 20, 'places of annex'),
        sum([0.2, 0.5, 0, 0], -Infinity, 2, 'supply of main'),
        sum([0, 0, 0.2, 0.5], -Infinity, 2.4, 'supply of annex'),
      ],
    },
    ['54 outputs', 'supply of main', 'supply of annex'],
  ],
  [
    'free places that one rack does not have beside its inputs',
    {
      variables: counts,
      constraints: [
        sum([12, 0, 0, 0], 72, Infinity, '72 inputs in main'),
        sum([1, 2, 0, 0], -Infinity, 5, '4 of 9 places of main free'),
        placesOfAnnex,
        outputs(12),
        supplyOfMain,
      ],
    },
    ['72 inputs in main', '4 of 9 places of main free'],
  ],
  [
    'a kind of points that no module carries',
    { variables: counts, constraints: [inputs(24), sum([], 4, Infinity, '4 thermocouples'), ...racks] },
    ['4 thermocouples'],
  ],
  [
    'more than may be spent',
    {
      variables: counts,
      constraints: [inputs(60), outputs(24), sum([80, 120, 80, 120], -Infinity, 800, 'at most 800'), ...racks],
    },
    ['60 inputs', '24 outputs', 'at most 800'],
  ],
  [
    'an odd number of places filled with modules two places wide, which halves could fill',
    {
      variables: counts,
      constraints: [
        sum([0, 2, 0, 0], 9, 9, 'main filled by outputs'),
        inputs(24),
        sum([0, 0.5, 0, 0], -Infinity, 2.5, 'supply of main'),
        placesOfAnnex,
      ],
    },
    ['main filled by outputs'],
  ],
  [
    'three groups kept apart on two modules, which halves could be',
    {
      variables: onFirst,
      constraints: [
        apart([1, 1, 0], 'a apart from b'),
        apart([0, 1, 1], 'b apart from c'),
        apart([1, 0, 1], 'a apart from c'),
        sum([1, 1, 1], 1, 2, 'both modules used'),
      ],
    },
    ['a apart from b', 'b apart from c', 'a apart from c'],
  ],
  [
    'groups that are to be together and apart',
    {
      variables: onFirst,
      constraints: [
        together([1, -1, 0], 'a with b'),
        sum([1, 0, 0], 1, 1, 'a on the first'),
        together([0, 1, -1], 'b with c'),
        apart([1, 0, 1], 'a apart from c'),
      ],
    },
    ['a with b', 'b with c', 'a apart from c'],
  ],
  [
    'one need of two constraints, which is one to blame',
    {
      variables: counts,
      constraints: [
        sum([12, 0, 0, 0], 60, Infinity, 'inputs with spare in each rack'),
        sum([0, 0, 12, 0], 60, Infinity, 'inputs with spare in each rack'),
        sum([1, 0, 1, 0], -Infinity, 9, 'one rack in all'),
        supplyOfMain,
      ],
    },
    ['inputs with spare in each rack', 'one rack in all'],
  ],
  [
    'what always stands contradicts itself, so that no need is to blame',
    { variables: counts, constraints: [inputs(24), sum([1, 0, 0, 0], 3, 2), ...racks] },
    [],
  ],
];

describe('a model without solution', () => {
  it.each(planted)('blames %s', async (_, model, culprits) => {
    expect(await solveHere(model)).toEqual({ status: 'infeasible', needs: culprits, irreducible: true });
    const without = (left: (need: string) => boolean) =>
      solveHere({
        ...model,
        constraints: model.constraints.filter(
          ({ need }) => need === undefined || (culprits.includes(need) && left(need)),
        ),
      });
    expect((await without(() => true)).status).toBe('infeasible');
    for (const culprit of culprits) expect((await without((need) => need !== culprit)).status, culprit).toBe('optimal');
  });
});

describe('the search for what is to blame', () => {
  it('finds a smallest set among 60 needs in few questions, for 200 seeded families of conflicts', () => {
    const all = Array.from({ length: 60 }, (_, at) => `need ${at}`);
    for (let seed = 1; seed <= 200; seed++) {
      const random = seeded(seed);
      const culprits = Array.from({ length: 1 + Math.floor(random() * 3) }, () =>
        all.filter(() => random() < 0.04),
      ).filter((set) => set.length > 0);
      if (culprits.length === 0) continue;
      let questions = 0;
      const isConflict = (some: readonly string[]): boolean =>
        culprits.some((set) => set.every((need) => some.includes(need)));
      const { needs, irreducible } = conflictAmong(all, (some) => {
        questions++;
        return isConflict(some);
      });
      expect(irreducible).toBe(true);
      expect(isConflict(needs), `seed ${seed}`).toBe(true);
      for (const need of needs) expect(isConflict(needs.filter((other) => other !== need)), `seed ${seed}`).toBe(false);
      expect(questions).toBeLessThan(2 + 2 * needs.length * (1 + Math.log2(all.length)));
    }
  });

  it('names all needs where nothing was found out', () => {
    expect(conflictAmong(['a', 'b', 'c'], () => undefined)).toEqual({ needs: ['a', 'b', 'c'], irreducible: false });
  });

  it('leaves nothing out that was not shown to be needless', () => {
    let asked = 0;
    const found = conflictAmong(['a', 'b', 'c', 'd'], (some) => (++asked > 2 ? undefined : some.includes('c')));
    expect(found.irreducible).toBe(false);
    expect(found.needs).toContain('c');
  });
});
