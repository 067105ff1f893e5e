// What differs between two texts: applied to the first, the edits give the second, and nothing else is touched.
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { changesBetween } from './text-changes.ts';

it('seeded: the edits turn one text into the other, in rising order', () => {
  const lines = fc
    .array(fc.constantFrom('a: 1\n', 'b: 2\n', '\n', 'µ', '  c:\n'), { maxLength: 10 })
    .map((all) => all.join(''));
  const property = fc.property(lines, lines, (before, after) => {
    const edits = changesBetween(before, after);
    let made = before;
    for (const { from, to, insert } of [...edits].reverse()) made = made.slice(0, from) + insert + made.slice(to);
    expect(made).toBe(after);
    for (const [at, { from, to }] of edits.entries()) {
      expect(from).toBeLessThanOrEqual(to);
      expect(from).toBeGreaterThanOrEqual(edits[at - 1]?.to ?? 0);
    }
  });
  fc.assert(property, { seed: 5, numRuns: 1000 });
  expect(changesBetween('same\n', 'same\n')).toEqual([]);
});
