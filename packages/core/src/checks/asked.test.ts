// How much is asked for: what is understood, and what is said to the rest.
import { describe, expect, it } from 'vitest';
import { doneOf, readAsked } from './asked.ts';

const work = { counts: 'trials', least: 100, most: 1_000_000_000 };
const asked = (count: string, seed = '1') => readAsked(work, { count, seed });

describe('what is asked of a long work', () => {
  it.each([
    ['100', 100],
    ['1e9', 1_000_000_000],
    ['2.5E6', 2_500_000],
    [' 10 000 000 ', 10_000_000],
  ])('%j is understood', (text, count) => expect(asked(text)).toEqual({ count, seed: 1 }));

  it.each(['99', '1000000001', '1e10', '-200', '1000.5', 'many', '', '0x100', '1e', '1,000', 'Infinity', 'NaN'])(
    '%j is not, and what can be asked is told',
    (text) =>
      expect(asked(text)).toEqual({
        of: 'count',
        advice: 'The number of trials is a whole one from 100 to 1 000 000 000.',
      }),
  );

  it('says how far it is, and 100 % only at the end', () => {
    const of = { counts: 'cycles', count: 10_000_000 };
    expect([0, 0.312, 0.9999, 1].map((share) => doneOf(of, share))).toEqual([
      '0 of 10 000 000 cycles, 0 %',
      '3 120 000 of 10 000 000 cycles, 31 %',
      '9 999 000 of 10 000 000 cycles, 99 %',
      '10 000 000 of 10 000 000 cycles, 100 %',
    ]);
  });

  it('a seed has 32 bits', () => {
    expect(asked('100', '4294967295')).toEqual({ count: 100, seed: 4294967295 });
    for (const seed of ['4294967296', '-1', '0.5', ''])
      expect(asked('100', seed)).toEqual({
        of: 'seed',
        advice: 'A seed is a whole number from 0 to 4 294 967 295.',
      });
  });
});
