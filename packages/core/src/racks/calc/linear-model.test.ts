// The check of a solver's answer names exactly what it breaks.
import { describe, expect, it } from 'vitest';
import { broken, type LinearModel } from './linear-model.ts';

const model: LinearModel = {
  variables: [
    { name: 'cards', least: 0, most: 4, whole: true, cost: 90 },
    { name: 'current', least: 0, most: Infinity, whole: false, cost: 0 },
  ],
  constraints: [
    {
      name: 'channels',
      terms: [
        { variable: 0, factor: 12 },
        { variable: 1, factor: -1 },
      ],
      least: 0,
      most: Infinity,
    },
  ],
};

describe('what a solution does not keep', () => {
  it('is nothing where all is kept', () => {
    expect(broken(model, [2, 24])).toEqual([]);
    expect(broken(model, [2, 24.0000005])).toEqual([]);
  });

  it('is a constraint, a bound, a part of a whole, or a value that lacks', () => {
    expect(broken(model, [2, 25])).toEqual(['channels: -1 is outside 0 to Infinity']);
    expect(broken(model, [5, 0])).toEqual(['cards = 5 is outside 0 to 4']);
    expect(broken(model, [1.5, 0])).toEqual(['cards = 1.5 is not whole']);
    expect(broken({ ...model, constraints: [] }, [1])).toEqual(['current has no value']);
    expect(broken({ ...model, constraints: [] }, [1, Number.NaN])).toEqual(['current has no value']);
  });
});
