// The search for a change against a walk over all places, on rows drawn at random.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../tests/support/seeded.ts';
import { type Change, nearestChange, type Outcome, type Row } from './nearest-change.ts';

/** Asks a row, counts how often, and refuses places that are not on it. */
function search(row: Row, outcomeAt: (place: number) => Outcome, most = 1000): { change: Change; asked: Set<number> } {
  const asked = new Set<number>([row.present]);
  const ask = (place: number): Outcome => {
    const isOn = place === row.present || (Number.isInteger(place) && place >= row.lowest && place <= row.highest);
    if (!isOn) throw new Error(`${place} is not on the row`);
    asked.add(place);
    return outcomeAt(place);
  };
  return { change: nearestChange(row, ask, () => asked.size < most), asked };
}

const yesUpTo =
  (limit: number) =>
  (place: number): Outcome =>
    place <= limit ? 'yes' : 'no';

describe('the nearest change', () => {
  it.each<[string, Row, (place: number) => Outcome, Change]>([
    ['above', { present: 5, lowest: 0, highest: 1000 }, yesUpTo(700), { kind: 'found', yes: 700, no: 701 }],
    ['below', { present: 900, lowest: 0, highest: 1000 }, yesUpTo(700), { kind: 'found', yes: 700, no: 701 }],
    ['beside it', { present: 7, lowest: 0, highest: 9 }, yesUpTo(7), { kind: 'found', yes: 7, no: 8 }],
    ['at the end', { present: 7, lowest: 0, highest: 9 }, yesUpTo(8), { kind: 'found', yes: 8, no: 9 }],
    ['nowhere', { present: 7, lowest: -3, highest: 9 }, yesUpTo(99), { kind: 'none', from: -3, upTo: 9 }],
    ['on a row of one', { present: 0, lowest: 0, highest: 0 }, yesUpTo(0), { kind: 'none', from: 0, upTo: 0 }],
    [
      'between two places, past the present one',
      { present: 7.5, lowest: 0, highest: 99 },
      yesUpTo(7.5),
      { kind: 'found', yes: 7, no: 8 },
    ],
    [
      'between two places, at a present one without its like',
      { present: 7.5, lowest: 0, highest: 99 },
      (place) => (place === 7.5 ? 'yes' : 'no'),
      { kind: 'found', yes: 7.5, no: 8 },
    ],
    [
      'between two places, from a no',
      { present: 7.5, lowest: 0, highest: 99 },
      (place) => (place < 7 ? 'yes' : 'no'),
      { kind: 'found', yes: 6, no: 7 },
    ],
  ])('is found: %s', (_, row, outcomeAt, change) => {
    expect(search(row, outcomeAt).change).toEqual(change);
  });

  it('of two is the nearer one', () => {
    const outcomeAt = (place: number): Outcome => (place > 100 && place < 210 ? 'yes' : 'no');
    expect(search({ present: 120, lowest: 0, highest: 9999 }, outcomeAt).change).toEqual({
      kind: 'found',
      yes: 101,
      no: 100,
    });
    expect(search({ present: 200, lowest: 0, highest: 9999 }, outcomeAt).change).toEqual({
      kind: 'found',
      yes: 209,
      no: 210,
    });
  });

  it('is looked for beyond what is unknown, up to what is impossible, and no further', () => {
    const outcomeAt = (place: number): Outcome =>
      place < 3 || place > 777 ? 'impossible' : place > 20 && place < 60 ? 'unknown' : 'yes';
    const { change, asked } = search({ present: 10, lowest: -9999, highest: 9999 }, outcomeAt);
    expect(change).toEqual({ kind: 'none', from: 3, upTo: 777 });
    expect([2, 778].every((place) => asked.has(place))).toBe(true);
  });

  it('is not settled when there is nothing left to ask with', () => {
    const row = { present: 5, lowest: 0, highest: 1e6 };
    const { change, asked } = search(row, yesUpTo(700_000), 12);
    expect(asked.size).toBe(12);
    expect(change).toEqual({ kind: 'none', from: 0, upTo: expect.any(Number) });
    const stopped = search(row, yesUpTo(700_000), 25).change;
    expect(stopped.kind).toBe('stopped');
    if (stopped.kind === 'stopped') expect(stopped.yes <= 700_000 && stopped.no > 700_000).toBe(true);
  });

  it('on rows drawn at random: neighbours of which one is a yes; for one change, that one; few questions', () => {
    const random = seeded(11);
    const whole = (below: number): number => Math.floor(random() * below);
    let found = 0;
    for (let drawn = 0; drawn < 3000; drawn++) {
      const [lowest, highest] = [whole(50) - 50, whole(2000)];
      const present = lowest + whole(highest - lowest + 1);
      const limits = Array.from({ length: 1 + whole(3) }, () => lowest + whole(highest - lowest + 1)).sort(
        (a, b) => a - b,
      );
      const turned = random() < 0.5 ? 1 : 0;
      const outcomeAt = (place: number): Outcome =>
        limits.filter((limit) => limit < place).length % 2 === turned ? 'yes' : 'no';
      const { change, asked } = search({ present, lowest, highest }, outcomeAt);
      const told = `${present} in ${lowest}..${highest}, ${limits}`;
      if (change.kind === 'found') {
        found++;
        expect(Math.abs(change.yes - change.no), told).toBe(1);
        expect([outcomeAt(change.yes), outcomeAt(change.no)], told).toEqual(['yes', 'no']);
        expect(asked.has(change.yes) && asked.has(change.no), told).toBe(true);
        if (limits.length === 1) expect(Math.min(change.yes, change.no), told).toBe(limits[0]);
      } else {
        // Only what changes back again can be missed; one change is always met, unless it lies behind the last place.
        expect(change, told).toEqual({ kind: 'none', from: lowest, upTo: highest });
        if (limits.length === 1) expect(limits[0], told).toBe(highest);
      }
      expect(asked.size, told).toBeLessThan(40);
    }
    expect(found).toBeGreaterThan(2000);
  });
});
