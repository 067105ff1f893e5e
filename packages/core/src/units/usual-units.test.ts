// What the messages propose must be readable.
import { describe, expect, it } from 'vitest';
import { readQuantity } from './read-quantity.ts';
import { siUnits } from './si.ts';
import { usual } from './usual-units.ts';

describe.each(siUnits)('the usual spellings of %s', (unit) => {
  const { measures, example, spellings } = usual[unit];

  it('can all be read', () => {
    const refused = spellings.filter((spelling) => !readQuantity(`3 ${spelling}`, unit).ok);
    expect(refused).toEqual([]);
    expect(readQuantity(example, unit).ok).toBe(true);
  });

  it('name a thing that no other unit measures', () => {
    expect(measures).toMatch(/^an? [a-z]/);
    expect(siUnits.filter((other) => usual[other].measures === measures)).toEqual([unit]);
  });
});
