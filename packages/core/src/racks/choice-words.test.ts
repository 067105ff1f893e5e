// What is said of a choice of racks while a solver works on it, and beside its tables.
import { describe, expect, it } from 'vitest';
import { choosingSays, leftOutSays, notFoundSays, placedSays, provenSays } from './choice-words.ts';

const none = { kind: 'none found' } as const;
const chosen = (location: string, weight: number, bound = weight) => ({
  location,
  answer: {
    kind: 'chosen' as const,
    layout: { racks: [], modules: [], channels: [] },
    weight,
    bound,
    isBest: bound === weight,
    planned: [],
  },
});

const main = { location: 'main', nth: 1, all: 1 };

describe('a choice of racks in words', () => {
  it.each([
    [choosingSays(main, 'cost'), 'main'],
    [choosingSays({ ...main, nth: 2, all: 3 }, 'cost', undefined, 1100), 'main (2 of 3): none is below 1100'],
    [
      choosingSays({ ...main, kind: 'digital_in' }, 'width', 600, 450),
      'main, one more digital input: the best so far has a width of 600 mm, none is below 450 mm',
    ],
    [choosingSays({ ...main, exact: true }, 'cost'), 'main, again with each load by itself'],
    [
      placedSays([{ path: 'racks' }, { path: 'points.a.channel' }]),
      'One point gets its channel; points that have one stay there.',
    ],
    [leftOutSays(['in_8', 'in_9']).join(), 'Not weighed, since they do not say all that counts: in_8, in_9.'],
    [leftOutSays([]).join(), ''],
    [provenSays([{ location: 'main', answer: none }], 'cost').join(), ''],
    [
      provenSays([chosen('main', 100), chosen('far', 60, 60)], 'cost').join(),
      'It is proven that nothing has a smaller cost.',
    ],
    [
      provenSays([chosen('main', 400, 300), chosen('far', 60)], 'cost').join(),
      'At main it is not proven that nothing is better: the cost is 400, none is below 300, a gap of 25 %.',
    ],
    [
      provenSays([chosen('main', 600, -Infinity)], 'width').join(),
      'At main it is not proven that nothing is better: the search ended before anything was known of how small the width can be.',
    ],
    [
      notFoundSays([chosen('main', 1), { location: 'far', answer: none }]).join(),
      'Nothing was found for far before the search ended; it stays open.',
    ],
  ])('%s', (says, due) => {
    expect(says).toBe(due);
  });
});
