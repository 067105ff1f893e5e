// Sets of places on a circle against sets of whole places.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { type Arcs, arcFrom, lengthOf, movedBy, shared, unionOf } from './arcs.ts';

const round = 30;
const placesOf = (arcs: Arcs) =>
  new Set(arcs.flatMap(([from, to]) => Array.from({ length: to - from }, (_, at) => from + at)));
const all = Array.from({ length: round }, (_, place) => place);

describe('sets of places on a circle', () => {
  it('have the places that they should', () => {
    const random = seeded(3);
    const whole = (least: number, most: number) => least + Math.floor(random() * (most - least + 1));
    const any = () => unionOf(Array.from({ length: whole(0, 4) }, () => arcFrom(whole(-70, 70), whole(-2, 35), round)));
    for (let count = 0; count < 500; count++) {
      const [one, other, by] = [any(), any(), whole(-100, 100)];
      const [a, b] = [placesOf(one), placesOf(other)];
      expect(placesOf(unionOf([one, other]))).toEqual(new Set(all.filter((place) => a.has(place) || b.has(place))));
      expect(placesOf(shared(one, other))).toEqual(new Set(all.filter((place) => a.has(place) && b.has(place))));
      expect(placesOf(movedBy(one, by, round))).toEqual(
        new Set(all.filter((place) => a.has((((place - by) % round) + round) % round))),
      );
      expect(lengthOf(one)).toBe(a.size);
    }
  });

  it('go round the end, and take the whole circle where they are long enough', () => {
    expect(arcFrom(28, 5, round)).toEqual([
      [0, 3],
      [28, 30],
    ]);
    expect(arcFrom(-2, 30, round)).toEqual([[0, 30]]);
    expect(arcFrom(5, 0, round)).toEqual([]);
    expect(arcFrom(-10, 10, round)).toEqual([[20, 30]]);
  });
});
