// Every way in which a solve can end, and that no answer of the library is believed which does not bear a check.
import { broken, type Found, type LinearModel } from '@layshaft/core/linear-model';
import { beforeAll, describe, expect, it } from 'vitest';
import { seeded } from '../../../tests/support/seeded.ts';
import { type Highs, highs, type Model } from './highs.ts';
import { drawnInstance, endlessModel, rackModel } from './instances.support.ts';
import { solveWith } from './solve-with.ts';

let library: Highs;
beforeAll(async () => {
  library = await highs();
});

/** Cards of 12 channels that draw 0.35 A each; the current follows. */
const cards: LinearModel = {
  variables: [
    { name: 'cards', least: 0, most: 9, whole: true, cost: 90 },
    { name: 'current', least: 0, most: Infinity, whole: false, cost: 0.5 },
  ],
  constraints: [
    { name: 'channels', terms: [{ variable: 0, factor: 12 }], least: 50, most: Infinity },
    {
      name: 'supply',
      terms: [
        { variable: 0, factor: 0.35 },
        { variable: 1, factor: -1 },
      ],
      least: 0,
      most: 0,
    },
  ],
};
const [count, current] = cards.variables as [LinearModel['variables'][0], LinearModel['variables'][0]];
const endless = endlessModel(seeded(5));

describe('a solve', () => {
  it('ends with whole numbers that are whole, a cost that is their sum, and the bound that proves it', () => {
    expect(solveWith(library, cards)).toEqual({ status: 'optimal', values: [5, 1.75], cost: 450.875, bound: 450.875 });
  });

  it('is the same every time, column by column', () => {
    const model = rackModel(drawnInstance(seeded(11), { kinds: 4, modules: 8, racks: 3, points: 60 }));
    const first = solveWith(library, model);
    expect(first.status).toBe('optimal');
    for (let time = 0; time < 2; time++) expect(solveWith(library, model)).toEqual(first);
  });

  it('stops when its time is over, with the best so far and a bound, or with nothing', () => {
    const stopped = solveWith(library, endless, { most_s: 1 });
    if (stopped.status !== 'stopped') throw new Error(`It ended as ${stopped.status}.`);
    expect(broken(endless, stopped.values)).toEqual([]);
    expect(stopped.bound).toBeLessThanOrEqual(stopped.cost);
    expect(solveWith(library, endless, { most_s: 1e-6 })).toEqual({ status: 'nothing found' });
    expect(() => solveWith(library, endless, { most_s: 0 })).toThrow('not above 0');
  });

  it('claims no bound where it was stopped and none is known', () => {
    const late = lying((native) => ({ run: () => ({ ...native.run(), modelStatus: 13 }) }));
    const parts = { ...cards, variables: [{ ...count, whole: false }, current] };
    const stopped = { status: 'stopped', cost: expect.closeTo(375.729, 3) };
    expect(solveWith(late, parts)).toMatchObject({ ...stopped, bound: -Infinity });
    expect(solveWith(late, cards)).toMatchObject({ status: 'stopped', cost: 450.875, bound: 450.875 });
  });

  it('tells how far it is', () => {
    const told: (readonly [number | undefined, number | undefined])[] = [];
    const solution = solveWith(library, endless, { most_s: 2, onProgress: (best, bound) => told.push([best, bound]) });
    expect(told.length).toBeGreaterThan(0);
    const bests = told.flatMap(([best]) => (best === undefined ? [] : [best]));
    expect(bests).toEqual(bests.toSorted((a, b) => b - a));
    if ('cost' in solution) expect(bests.at(-1)!).toBeGreaterThan(solution.cost - 1e-6);
    for (const [best, bound] of told) expect(bound ?? -Infinity).toBeLessThanOrEqual((best ?? Infinity) + 1e-6);
  });

  it('hands over every better solution as it is found, whole and kept', () => {
    const handed: Found[] = [];
    solveWith(library, endless, { most_s: 2, onBetter: (better) => handed.push(better) });
    expect(handed.length).toBeGreaterThan(0);
    for (const { values } of handed) expect(broken(endless, values)).toEqual([]);
    const costs = handed.map(({ cost }) => cost);
    expect(costs).toEqual(costs.toSorted((one, other) => other - one));
  });

  it('knows where nothing bounds the cost, and where there is no solution either', () => {
    const free = { ...count, most: Infinity, cost: -1 };
    const drawn = { ...cards, variables: [free, { ...current, cost: 0 }] };
    expect(solveWith(library, drawn)).toEqual({ status: 'unbounded' });
    const none = { name: 'none', terms: [{ variable: 1, factor: 1 }], least: -Infinity, most: -1, need: 'no current' };
    expect(solveWith(library, { ...drawn, constraints: [...cards.constraints, none] })).toEqual({
      status: 'infeasible',
      needs: ['no current'],
      irreducible: true,
    });
  });

  it('takes models of nothing', () => {
    expect(solveWith(library, { variables: [], constraints: [] })).toMatchObject({
      status: 'optimal',
      values: [],
      cost: 0,
    });
    const never = { name: 'never', terms: [], least: 1, most: 2, need: 'never' };
    expect(solveWith(library, { variables: [], constraints: [never] })).toMatchObject({ needs: ['never'] });
    expect(solveWith(library, { variables: [count], constraints: [] })).toMatchObject({ values: [0], cost: 0 });
  });

  it('adds the factors of a variable that a constraint names twice', () => {
    const twice = [4, 8].map((factor) => ({ variable: 0, factor }));
    const [channels, supply] = cards.constraints;
    const model = { ...cards, constraints: [{ ...channels!, terms: twice }, supply!] };
    expect(solveWith(library, model)).toEqual(solveWith(library, cards));
  });

  it.each([
    ['The variable cards costs NaN', { ...count, cost: Number.NaN }, {}],
    ['The variable cards reaches from NaN to 9', { ...count, least: Number.NaN }, {}],
    ['The variable cards reaches from Infinity to 9', { ...count, least: Infinity }, {}],
    ['The constraint channels speaks of variable 2, but there are 2', count, { terms: [{ variable: 2, factor: 1 }] }],
    ['The constraint channels has the factor Infinity', count, { terms: [{ variable: 0, factor: Infinity }] }],
    ['The constraint channels reaches from 50 to -Infinity', count, { most: -Infinity }],
  ])('refuses a model that is none: %s', (says, variable, changed) => {
    const [channels, supply] = cards.constraints;
    const model = { variables: [variable, current], constraints: [{ ...channels!, ...changed }, supply!] };
    expect(() => solveWith(library, model)).toThrow(says);
  });
});

/** The library with one thing of its models changed. */
const lying = (lie: (model: Model) => object): Highs => ({
  ...library,
  createModel: (source) => {
    const model = library.createModel(source);
    const lies = lie(model);
    return new Proxy(model, {
      get: (_, key) => {
        const value = Reflect.get(key in lies ? lies : model, key);
        return typeof value === 'function' ? value.bind(model) : value;
      },
    });
  },
});

it('names all needs, and that they may be too many, where the time was too short to ask which', () => {
  const need = (name: string, least: number) => ({ ...cards.constraints[0]!, name, need: name, least });
  const model = { ...cards, constraints: [need('few', 12), need('many', 1000)] };
  expect(solveWith(library, model)).toEqual({ status: 'infeasible', needs: ['many'], irreducible: true });
  let runs = 0;
  const slow = lying((native) => ({ run: () => (runs++ === 0 ? native.run() : { modelStatus: 13 }) }));
  expect(solveWith(slow, model)).toEqual({ status: 'infeasible', needs: ['few', 'many'], irreducible: false });
});

describe('an answer of the library that is wrong', () => {
  it.each([
    [
      "The solver's answer is wrong: channels: 48 is outside 50 to Infinity",
      () => ({ getSolution: () => ({ colValue: Float64Array.of(4, 1.4) }) }),
    ],
    [
      'nothing costs less than 500, but 450.875 does',
      ({ info }: Model) => ({ info: { get: (name: string) => (name === 'mip_dual_bound' ? 500 : info.get(name)) } }),
    ],
    [
      'The solver calls 450.875 the least cost, but has shown 400 only',
      ({ info }: Model) => ({ info: { get: (name: string) => (name === 'mip_dual_bound' ? 400 : info.get(name)) } }),
    ],
    ['The solver ended without an answer: iterationLimit', () => ({ run: () => ({ modelStatus: 14 }) })],
    ['The solver ended without an answer: solveError', () => ({ run: () => ({ modelStatus: 4 }) })],
  ])('is refused: %s', (says, lie) => {
    expect(() => solveWith(lying(lie), cards)).toThrow(says);
  });

  it('is not made of wholes that are only nearly whole', () => {
    const nearly = lying((model) => ({
      getSolution: () => ({ colValue: model.getSolution().colValue.map((value) => value + 1e-7) }),
    }));
    expect(solveWith(nearly, cards)).toMatchObject({ status: 'optimal', values: [5, expect.closeTo(1.75, 6)] });
  });
});
