// Longest responses against the textbook sets. Times are plain numbers in the sources; here they count as milliseconds.
import { describe, expect, it } from 'vitest';
import { q } from '../../working/testing.support.ts';
import { iterates, responseOf, type Task } from './response.ts';
import { hyperbolicProduct, periodicBound, utilisation } from './utilisation.ts';

const ms = 1e9;

/** Tasks, the most urgent first, as (T, C, D, B); the deadline is the period unless it is given. */
const set = (...rows: readonly (readonly [number, number, number?, number?])[]): readonly Task[] =>
  rows.map(([T, C, D = T, B = 0], priority) => ({
    priority,
    period_ps: T * ms,
    longest_ps: C * ms,
    jitter_ps: 0,
    blocking_ps: B * ms,
    deadline_ps: D * ms,
  }));

const responses = (tasks: readonly Task[]): readonly (number | undefined)[] =>
  tasks.map((_, at) => {
    const response = responseOf(tasks, at);
    return response.bounded ? response.response_ps / ms : undefined;
  });

const lists = (tasks: readonly Task[]) => ({
  C: tasks.map((task) => q(task.longest_ps / 1e12, 's')),
  T: tasks.map((task) => q(task.period_ps / 1e12, 's')),
});

const classic = set([7, 3], [12, 3], [20, 5]);

describe('the classic textbook set of Burns and Wellings (7,3) (12,3) (20,5)', () => {
  it('RT1: R 3, 6, 20; the third goes 5, 11, 14, 17, 20; load 0.928571', () => {
    expect(responses(classic)).toEqual([3, 6, 20]);
    expect(iterates(classic, 2).map((each) => each / ms)).toEqual([5, 11, 14, 17, 20]);
    expect(utilisation(lists(classic), 'test').value).toBeCloseTo(0.928571, 6);
  });

  it('RT3: with a blocking of 1 the third misses by 1, and a fourth (50,5) passes its deadline at 59 and ends at 96', () => {
    const tasks = set([7, 3], [12, 3], [20, 5, 20, 1], [50, 5]);
    expect(iterates(tasks, 2).at(-1)).toBe(21 * ms);
    expect(iterates(tasks, 3, 0, 50 * ms).at(-1)).toBe(59 * ms);
    expect(responseOf(tasks, 3)).toEqual({ bounded: false, because: 'overload', first_ps: 96 * ms });
    expect(utilisation(lists(tasks), 'test').value).toBeCloseTo(1.029, 3);
  });
});

it('RT2: R 1, 3, 16 (4,1) (8,2) (16,8), validation set of an open repository', () =>
  expect(responses(set([4, 1], [8, 2], [16, 8]))).toEqual([1, 3, 16]));

it('RT4: R 5, 9 with the longer period the more urgent, by its deadline: (50, 5, D 10) above (20, 4)', () => {
  const tasks = set([50, 5, 10], [20, 4]);
  expect(responses(tasks)).toEqual([5, 9]);
});

it('RT5: R 300, 1500, 4000 and the product 1.9448, firmware scheduling notes of an open repository', () => {
  const tasks = set([1000, 300], [2500, 900], [10000, 1000]);
  expect(responses(tasks)).toEqual([300, 1500, 4000]);
  expect(hyperbolicProduct(lists(tasks), 'test').value).toBeCloseTo(1.9448, 4);
});

it('RT9: R 3, 5, 20 and 2.5, 7.5, 19, open repository: the second passes though its load is over both bounds', () => {
  const [light, heavy] = [set([12, 3], [15, 2], [30, 10]), set([10, 2.5], [20, 5], [30, 9])];
  expect(responses(light)).toEqual([3, 5, 20]);
  expect(responses(heavy)).toEqual([2.5, 7.5, 19]);
  const bound = periodicBound({ n: q(3, '1') }, 'test').value;
  expect(utilisation(lists(light), 'test').value).toBeLessThan(bound);
  expect(utilisation(lists(heavy), 'test').value).toBeGreaterThan(bound);
  expect(hyperbolicProduct(lists(heavy), 'test').value).toBeGreaterThan(2);
});

it.each([
  ['A', set([30, 10], [40, 10], [50, 12]), [10, 20, 52]],
  ['B', set([16, 4], [40, 5], [80, 32]), [4, 9, 58]],
  ['C', set([20, 5], [40, 10], [80, 40]), [5, 15, 80]],
] as const)('RT10: Burns and Wellings, process set %s (from memory)', (_, tasks, first) => {
  expect(tasks.map((_, at) => iterates(tasks, at).at(-1)! / ms)).toEqual(first);
});

it('RT12: Lehoczky 1990: jobs of (100,62) under (70,26) take 114, 102, 116, 104, 118, 106, 94: the first is not the worst', () => {
  const tasks = set([70, 26], [100, 62]);
  const jobs = [0, 1, 2, 3, 4, 5, 6].map((job) => iterates(tasks, 1, job).at(-1)! / ms - 100 * job);
  expect(jobs).toEqual([114, 102, 116, 104, 118, 106, 94]);
  expect(responseOf(tasks, 1)).toEqual({
    bounded: true,
    response_ps: 118 * ms,
    job: 4,
    finish_ps: 518 * ms,
    jobs: 7,
  });
});

it('bounds on the load are those that are printed: Liu and Layland 1973, 1, 0.8284, 0.7798, 0.7568, 0.7435, towards ln 2', () => {
  const bound = (n: number): number => periodicBound({ n: q(n, '1') }, 'test').value;
  for (const [at, printed] of [1, 0.8284, 0.7798, 0.7568, 0.7435].entries())
    expect(bound(at + 1)).toBeCloseTo(printed, 4);
  expect(bound(1e6)).toBeCloseTo(Math.LN2, 6);
});
