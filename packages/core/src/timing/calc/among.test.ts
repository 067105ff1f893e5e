// One task among those of its core: the methods with priorities and blocking sections say what the proven calculations say.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import { beginsAmong, blocked, growthAmong, responseAmong, taskPeriod } from './among.ts';
import { seconds } from './picoseconds.ts';
import { latestBegin_ps, responseOf } from './response.ts';
import { largestScaling } from './scaling.ts';

type Row = readonly [C: number, T: number, J: number, P: number, D: number, b: number];

const times = (rows: readonly Row[], at: number) => rows.map((row) => q(row[at]!, 's'));
const priorities = (rows: readonly Row[]) => rows.map((row) => q(row[3], '1'));

function answersOf(rows: readonly Row[], own: number, method = responseAmong): number {
  const others = rows.filter((_, at) => at !== own);
  const [C, T, J, P, D] = rows[own]!;
  return method(
    {
      C: q(C, 's'),
      T: q(T, 's'),
      J: q(J, 's'),
      P: q(P, '1'),
      D: q(D, 's'),
      c: times(others, 0),
      t: times(others, 1),
      j: times(others, 2),
      p: priorities(others),
      b: times(others, 5),
    },
    'test',
  ).value;
}

const growthOf = (rows: readonly Row[]): number =>
  growthAmong(
    {
      C: times(rows, 0),
      T: times(rows, 1),
      J: times(rows, 2),
      P: priorities(rows),
      D: times(rows, 4),
      b: times(rows, 5),
    },
    'test',
  ).value;

describe('tasks of a core', () => {
  it('answer and grow as the calculations on plain tasks say, 500 sets with ties, jitter and blocking', () => {
    const random = seeded(51);
    const upTo = (most: number): number => 1 + Math.floor(random() * most);
    let bounded = 0;
    for (let set = 0; set < 500; set++) {
      const rows = Array.from({ length: upTo(5) }, (): Row => {
        const T = upTo(20) * 1e-3;
        return [upTo(4) * 1e-3, T, upTo(3) * 1e-4, upTo(4), T, upTo(5) * 1e-4];
      });
      const tasks = blocked(rows);
      for (const own of rows.keys()) {
        const response = responseOf(tasks, own);
        if (response.bounded) {
          bounded++;
          expect(answersOf(rows, own)).toBe(seconds(response.response_ps));
          expect(answersOf(rows, own, beginsAmong)).toBe(seconds(latestBegin_ps(tasks, own)!));
        } else expect(answersOf(rows, own)).toBeGreaterThan(rows[own]![4]);
      }
      expect(growthOf(rows)).toBe(largestScaling(tasks)?.factor);
    }
    expect(bounded).toBeGreaterThan(300);
  });

  it('are blocked by the longest section of a less urgent one, and by no other', () => {
    const rows: readonly Row[] = [
      [1e-3, 10e-3, 0, 1, 10e-3, 9e-3],
      [2e-3, 20e-3, 0, 2, 20e-3, 3e-3],
      [1e-3, 50e-3, 0, 3, 50e-3, 4e-3],
    ];
    expect(blocked(rows).map(({ blocking_ps }) => blocking_ps / 1e9)).toEqual([4, 4, 0]);
    expect(answersOf(rows, 0)).toBe(5e-3);
  });

  it('RT3: of a core that is asked for too much, the first job that misses is followed past its deadline: 59 of 50', () => {
    const rows = [
      [7, 3],
      [12, 3],
      [20, 5],
      [50, 5],
    ].map(([T, C], P): Row => [C! * 1e-3, T! * 1e-3, 0, P, T! * 1e-3, 0]);
    expect(answersOf(rows, 3)).toBe(59e-3);
    expect(growthOf(rows)).toBeLessThan(1);
  });

  it('that come once a day answer as if they came every hour, and so do the others', () => {
    const rows = (hours: number): readonly Row[] => [
      [4e-3, 10e-3, 0, 1, 10e-3, 0],
      [2, 3600 * hours, 0, 2, 3600 * hours, 1e-3],
      [1e-3, 20e-3, 0, 3, 20e-3, 0],
    ];
    for (const own of [0, 1, 2]) {
      expect(answersOf(rows(24), own)).toBe(answersOf(rows(1), own));
      expect(answersOf(rows(24), own, beginsAmong)).toBe(answersOf(rows(1), own, beginsAmong));
    }
    expect(answersOf(rows(24), 0)).toBe(5e-3);
  });

  it('that cannot be have no answer', () => {
    expect(answersOf([[0, 1e-3, 0, 1, 1e-3, 0]], 0)).toBeNaN();
    expect(answersOf([[1e-3, Number.POSITIVE_INFINITY, 0, 1, 1e-3, 0]], 0)).toBeNaN();
    expect(growthOf([[1e-3, 1e-3, Number.NaN, 1, 1e-3, 0]])).toBeNaN();
  });
});

it('a task on every second cycle has a period of two cycles', () =>
  expect(taskPeriod({ n: q(2, '1'), T: q(5e-4, 's') }, 'test').value).toBe(1e-3));
