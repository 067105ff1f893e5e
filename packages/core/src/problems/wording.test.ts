// Counts and lists in sentences.
import { describe, expect, it } from 'vitest';
import { listed, plural } from './wording.ts';

describe('wording', () => {
  it.each([
    [0, '0 stations'],
    [1, '1 station'],
    ['1', '1 station'],
    [2, '2 stations'],
  ] as const)('counts %j', (count, text) => {
    expect(plural(count, 'station')).toBe(text);
  });

  it.each([
    [0, 'none'],
    [2, 'n1, n2'],
    [17, Array.from({ length: 17 }, (_, at) => `n${at + 1}`).join(', ')],
    [18, `${Array.from({ length: 16 }, (_, at) => `n${at + 1}`).join(', ')} and 2 more`],
  ])('lists %i names', (length, text) => {
    expect(listed(Array.from({ length }, (_, at) => `n${at + 1}`))).toBe(text);
  });
});
