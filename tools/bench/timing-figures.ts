// Figures of the bench about time: responses of many sets of tasks, and a chain through a long schedule.
import { reactionOf, scheduleOf } from '../../packages/core/src/timing/calc/reaction.ts';
import { responseOf, type Task } from '../../packages/core/src/timing/calc/response.ts';
import { seeded } from '../../tests/support/seeded.ts';
import type { Figure } from './figures.ts';
import { compare, three } from './measure.ts';

export function* timingFigures(): Generator<Figure> {
  yield responses();
  yield longChain();
}

const size = 20;
const us = 1e6;

/** Sets of 20 tasks with periods from 1 ms to 1 s that take 70 % of a processor; the more urgent, the shorter their period. */
function randomSet(random: () => number): readonly Task[] {
  const shares = Array.from({ length: size }, () => -Math.log(1 - random()));
  const sum = shares.reduce((all, share) => all + share, 0);
  return shares
    .map((share) => ({ period_ps: Math.round(1e3 * 1e3 ** random()) * us, share: (0.7 * share) / sum }))
    .toSorted((one, other) => one.period_ps - other.period_ps)
    .map(({ period_ps, share }, priority) => ({
      priority,
      period_ps,
      longest_ps: Math.max(1, Math.round(period_ps * share)),
      jitter_ps: 0,
      blocking_ps: 0,
      deadline_ps: period_ps,
    }));
}

/** Against the first sum alone of each task: a load, without the search for the fixed point. */
function responses(): Figure {
  const random = seeded(20);
  const sets = Array.from({ length: 100 }, () => randomSet(random));
  const { subject_s, ratio } = compare(
    () => sets.map((tasks) => tasks.map((_, at) => responseOf(tasks, at))),
    () => sets.map((tasks) => tasks.reduce((load, { longest_ps, period_ps }) => load + longest_ps / period_ps, 0)),
    { batches: 15, batch_s: 0.05 },
  );
  return {
    what: `longest responses of random sets of ${size} tasks`,
    measured: `${three(sets.length / subject_s)} sets a second`,
    baseline: 'their loads alone',
    ratio,
  };
}

/** Ten tasks that a chain goes through, and one whose period makes the schedule nearly a million releases long. */
function longChain(): Figure {
  const periods_us = [50, 100, 125, 200, 250, 400, 500, 1000, 2000, 4000];
  const tasks = periods_us.map((period, priority) => ({
    priority,
    period_ps: period * us,
    longest_ps: Math.round(period * 0.06) * us,
  }));
  const all = [...tasks, { priority: 99, period_ps: 3_989_000 * us, longest_ps: 1 * us }];
  const whole = scheduleOf(all);
  if (whole === undefined) throw new Error('the schedule of the bench cannot be walked');
  const jobs = whole.stages.reduce((sum, { reads_ps }) => sum + reads_ps.length, 0);
  const { subject_s, baseline_s, ratio } = compare(
    () => {
      const schedule = scheduleOf(all)!;
      return reactionOf(schedule.stages.slice(0, -1), schedule.period_ps);
    },
    () => scheduleOf(all),
    { batches: 3, batch_s: 0.1 },
  );
  if (!(baseline_s > 0)) throw new Error('nothing was timed');
  const most_s = 1;
  return {
    what: `the exact delay of a chain through a schedule of ${three(jobs / 1e6)} million releases`,
    measured: `${three(subject_s * 1e3)} ms`,
    baseline: 'walking the schedule',
    ratio,
    aim: { text: `under ${most_s} s for a million`, kept: (subject_s / jobs) * 1e6 < most_s },
  };
}
