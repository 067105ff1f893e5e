// Merging: changes at different places come together, changes at the same place are told apart, nothing is lost.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { merge } from './merge.ts';

const base = 'one\ntwo\nthree\nfour\nfive\n';

describe('merging two texts', () => {
  it('brings changes at different places together', () => {
    expect(merge(base, base.replace('one', 'ONE'), base.replace('five', 'FIVE'))).toEqual({
      text: 'ONE\ntwo\nthree\nfour\nFIVE\n',
      clashes: [],
    });
  });

  it('tells what clashes, and keeps mine there', () => {
    expect(merge(base, base.replace('three', 'mine'), base.replace('three', 'theirs'))).toEqual({
      text: 'one\ntwo\nmine\nfour\nfive\n',
      clashes: [{ mine: 'mine', theirs: 'theirs' }],
    });
  });

  it('seeded: the same change on both sides, or on one side only, never clashes', () => {
    const text = fc.array(fc.constantFrom('a', 'b', 'c', ''), { maxLength: 12 }).map((all) => all.join('\n'));
    const property = fc.property(text, text, (from, to) => {
      expect(merge(from, to, to)).toEqual({ text: to, clashes: [] });
      expect(merge(from, to, from)).toEqual({ text: to, clashes: [] });
      expect(merge(from, from, to)).toEqual({ text: to, clashes: [] });
    });
    fc.assert(property, { seed: 5, numRuns: 500 });
  });
});
