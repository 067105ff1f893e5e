// What is said of a choice of racks while a solver works on it, and beside its tables.
import { describe, expect, it } from 'vitest';
import { choosingSays, leftOutSays, notShownBest, placedSays } from './choice-words.ts';

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
    [notShownBest([{ location: 'main', answer: { kind: 'none found' } }]).join(), ''],
  ])('%s', (says, due) => {
    expect(says).toBe(due);
  });
});
