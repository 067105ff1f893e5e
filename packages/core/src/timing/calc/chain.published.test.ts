// Chains of tasks against the figures of published evaluations, and a scanned controller against the formula of manuals.
import { describe, expect, it } from 'vitest';
import { q } from '../../working/testing.support.ts';
import { bestCase_ps, delayOf, type Link, safeBound_ps } from './chain.ts';
import {
  ageBoundOf,
  type BoundLink,
  bestCase,
  handOver,
  handOverBelow,
  reactionBound,
  reactionBoundOf,
  safeBound,
  safeBoundOf,
} from './chain-bounds.ts';
import { picoseconds } from './picoseconds.ts';
import { greatestAge_ps, longestReaction, reactionOf, scheduleOf } from './reaction.ts';
import { responseOf, type Task } from './response.ts';

const ms = 1e9;

function chainOf(rows: readonly (readonly [number, number])[], order: readonly number[]) {
  const tasks = rows.map(
    ([T, C], priority): Task => ({
      priority,
      period_ps: T * ms,
      longest_ps: C * ms,
      jitter_ps: 0,
      blocking_ps: 0,
      deadline_ps: T * ms,
    }),
  );
  // In whole picoseconds, so that sums are exact.
  const links = order.map((at): BoundLink => {
    const response = responseOf(tasks, at);
    return {
      period: q(tasks[at]!.period_ps, 's'),
      most: q(response.bounded ? response.response_ps : Number.NaN, 's'),
      runs: { on: 'cpu', priority: at, jitter: q(0, 's') },
    };
  });
  const schedule = scheduleOf(tasks)!;
  const stages = order.map((at) => schedule.stages[at]!);
  return { tasks, links, stages, period_ps: schedule.period_ps };
}

const three = [
  [5, 1],
  [10, 2],
  [20, 3],
] as const;
const two = [
  [2, 1],
  [5, 2],
] as const;

describe('Davare 2007, Dürr 2019 and the exact value, by the evaluation code of the authors of ECRTS 2023', () => {
  it.each([
    ['CE1', 'a→b→c', three, [0, 1, 2], 46, 42, 27],
    ['CE2', 'c→b→a', three, [2, 1, 0], 46, 46, 33],
    ['CE3', 'a→c', three, [0, 2], 33, 32, 27],
    ['CE4', 'a→b', two, [0, 1], 12, 11, 10],
    ['CE5', 'b→a', two, [1, 0], 12, 12, 10],
  ] as const)('%s: %s', (_, __, rows, order, davare, duerr, exact) => {
    const { tasks, links, stages, period_ps } = chainOf(rows, order);
    expect(safeBoundOf(links, 'test').value / ms).toBe(davare);
    expect(reactionBoundOf(links, 'test').value / ms).toBe(duerr);
    const { most_ps, outputAge_ps } = reactionOf(stages, period_ps);
    expect(most_ps / ms).toBe(exact);
    expect(greatestAge_ps(stages, period_ps) / ms).toBe(exact);
    expect(outputAge_ps).toBeLessThanOrEqual(ageBoundOf(links, 'test').value);
    const of = (take: (task: Task) => number) => tasks.map((task) => q(take(task) / 1e12, 's'));
    const step = longestReaction(
      {
        C: of((task) => task.longest_ps),
        T: of((task) => task.period_ps),
        p: tasks.map((task) => q(task.priority, '1')),
        n: order.map((at) => q(at + 1, '1')),
      },
      'test',
    );
    expect(step.value).toBe(exact / 1000);
  });

  const s = (value: number) => q(value / 1000, 's');
  it('CE1: as steps of a working: 46 by Davare; 5 + max(1, 10) + max(3, 20) + 7 = 42 by Dürr', () => {
    expect(safeBound({ T: [s(5), s(10), s(20)], R: [s(1), s(3), s(7)], d: [] }, 'test').value).toBeCloseTo(0.046, 12);
    const h = [
      handOverBelow({ R: s(1), T: s(10), J: s(0) }, 'test'),
      handOverBelow({ R: s(3), T: s(20), J: s(0) }, 'test'),
    ];
    expect(reactionBound({ T: s(5), h, R: s(7), d: [] }, 'test').value).toBeCloseTo(0.042, 12);
  });

  it('CE2: as steps of a working: 20 + 17 + 8 + 1 = 46', () => {
    const h = [handOver({ R: s(7), T: s(10) }, 'test'), handOver({ R: s(3), T: s(5) }, 'test')];
    expect(h.map((each) => each.value * 1000)).toEqual([17, 8]);
    expect(reactionBound({ T: s(20), h, R: s(1), d: [] }, 'test').value).toBeCloseTo(0.046, 12);
  });
});

describe('a scanned controller, by the formula of a controller manual: input delay, one or two scans, output delay', () => {
  const links = (scan_ms: number): readonly Link[] => {
    const scan_ps = picoseconds(scan_ms / 1000);
    return [
      { kind: 'direct', least_ps: 1.5 * ms, most_ps: 1.5 * ms },
      {
        kind: 'sampled',
        period_ps: scan_ps,
        phase_ps: undefined,
        least_ps: scan_ps,
        most_ps: scan_ps,
      },
      { kind: 'direct', least_ps: 15 * ms, most_ps: 15 * ms },
    ];
  };

  it('PLC1: 1.5 ms, a scan of 20 ms, 15 ms: 36.5 ms at best, 56.5 ms at worst', () => {
    expect(bestCase_ps(links(20)) / ms).toBe(36.5);
    for (const worst of [safeBound_ps(links(20)), delayOf(links(20)).most_ps]) expect(worst / ms).toBe(56.5);
    const d = [q(1.5e-3, 's'), q(20e-3, 's'), q(15e-3, 's')];
    expect(bestCase({ d }, 'test').value).toBeCloseTo(36.5e-3, 12);
  });

  it('PLC1: with 0.23 ms of refresh and 3 ms of housekeeping in every scan 39.73 at best and 62.96 at worst; the 59.5 that is printed counts them in one scan', () => {
    const scan = 20 + 0.23 + 3;
    expect(delayOf(links(scan))).toEqual({ least_ps: 39.73 * ms, most_ps: 62.96 * ms });
    expect(1.5 + 20 + (20 + 3) + 15).toBe(59.5);
  });
});
