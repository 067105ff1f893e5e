// The arithmetic of the bench; no test depends on how long anything takes.
import { describe, expect, it } from 'vitest';
import { compare, lastKept, median, three } from './measure.ts';

describe('measuring', () => {
  it.each([
    [[3, 1, 2], 2],
    [[4, 1, 3, 2], 2.5],
    [[7], 7],
  ])('takes the middle of %j', (values, middle) => expect(median(values)).toBe(middle));

  it('calls both in turn, as often before it counts as after, and keeps what they give', () => {
    const calls: string[] = [];
    const { subject_s, baseline_s, ratio } = compare(
      () => calls.push('subject'),
      () => calls.push('baseline'),
      { batches: 2, batch_s: 0 },
    );
    expect(calls.join(' ')).toBe(Array.from({ length: 4 }, () => 'subject baseline').join(' '));
    expect(lastKept()).toBe(calls.length);
    expect(ratio).toBe(subject_s / baseline_s);
  });

  it('prints three digits', () => expect([0.012345, 213.4, 1000].map(three)).toEqual(['0.0123', '213', '1000']));
});
