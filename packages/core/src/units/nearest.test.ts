// Slips of the keyboard that are understood, and words too far from any.
import { describe, expect, it } from 'vitest';
import { nearest } from './nearest.ts';

describe('nearest', () => {
  it.each([
    ['RPM', ['ppm', 'rpm'], 'rpm'],
    ['v', ['A', 'V'], 'V'],
    ['mw', ['W', 'MW', 'mW'], 'mW'],
    ['cylce', ['cycle', 'repeat'], 'cycle'],
    ['tolerence', ['tolerance', 'turnaround'], 'tolerance'],
    ['ab', ['ac', 'ad'], 'ac'],
    ['a'.repeat(60), ['a'.repeat(60)], 'a'.repeat(60)],
  ])('of %s in %j is %s', (word, candidates, expected) => {
    expect(nearest(word, candidates)).toBe(expected);
  });

  it.each([
    ['q', ['s', 'm']],
    ['volt', ['mm', 'rpm']],
    ['', ['s']],
    ['a'.repeat(61), ['a'.repeat(61)]],
    ['mm', []],
  ])('of %s in %j is nothing', (word, candidates) => {
    expect(nearest(word, candidates)).toBeUndefined();
  });
});
