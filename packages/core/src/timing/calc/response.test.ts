// Longest responses, their charts and their growth against a processor that is walked tick by tick.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import { criticalInstant } from './critical-instant.ts';
import { picoseconds, seconds } from './picoseconds.ts';
import { iterates, latestBegin_ps, responseOf, type Task } from './response.ts';
import { largestScaling } from './scaling.ts';
import { loadOf, longestOf, randomTasks, type TickTask, tickWalk } from './ticks.support.ts';
import { hyperbolicProduct, periodicBound } from './utilisation.ts';

/** A tick is a microsecond. */
const tick = 1e6;
const asTask = ({ priority, period, longest }: TickTask): Task => ({
  priority,
  period_ps: period * tick,
  longest_ps: longest * tick,
  jitter_ps: 0,
  blocking_ps: 0,
  deadline_ps: period * tick,
});
const ticksOf = (tasks: readonly Task[], at: number): number => {
  const response = responseOf(tasks, at);
  return response.bounded ? response.response_ps / tick : Number.POSITIVE_INFINITY;
};

function drawn(count: number, seed: number, accept: (tasks: readonly TickTask[]) => boolean) {
  const random = seeded(seed);
  const sets: (readonly TickTask[])[] = [];
  while (sets.length < count) {
    const tasks = randomTasks(random);
    if (accept(tasks)) sets.push(tasks);
  }
  return sets;
}
const sets = drawn(2000, 20, (tasks) => loadOf(tasks) <= 1);

describe('tasks that are released together', () => {
  it('the longest response is that of a schedule walked tick by tick, in 2,000 sets', () => {
    let beyond = 0;
    for (const ticks of sets) {
      const tasks = ticks.map(asTask);
      const seen = longestOf(ticks, tickWalk(ticks, 120));
      expect(
        tasks.map((_, at) => ticksOf(tasks, at)),
        JSON.stringify(ticks),
      ).toEqual(seen);
      if (seen.some((response, at) => response > ticks[at]!.period)) beyond++;
    }
    // Enough of them need more than the first job.
    expect(beyond).toBeGreaterThan(200);
  });

  it('the latest begin is that of a schedule walked tick by tick, in 2,000 sets', () => {
    for (const ticks of sets) {
      const tasks = ticks.map(asTask);
      const jobs = tickWalk(ticks, 120);
      const seen = ticks.map((_, at) =>
        Math.max(...jobs.filter(({ task }) => task === at).map(({ begin, nominal }) => begin - nominal)),
      );
      expect(
        tasks.map((_, at) => latestBegin_ps(tasks, at)! / tick),
        JSON.stringify(ticks),
      ).toEqual(seen);
    }
  });

  it('with jitter: the first jobs as late as they can be, the others in time, and the longest response is just reached', () => {
    const random = seeded(25);
    let beyond = 0;
    for (const plain of sets.slice(0, 1000)) {
      const jitters = plain.map(({ period }) => Math.floor(random() * 1.5 * period));
      const latest = Math.max(...jitters);
      const ticks = plain.map((task, at): TickTask => {
        const jitter = jitters[at]!;
        return { ...task, phase: latest - jitter, lateBy: (job) => Math.max(0, jitter - job * task.period) };
      });
      const seen = longestOf(ticks, tickWalk(ticks, latest + 240));
      const tasks = plain.map((task, at) => ({ ...asTask(task), jitter_ps: jitters[at]! * tick }));
      for (const [at, response] of seen.entries()) {
        const found = responseOf(tasks, at);
        // Its busy period is over within what is walked.
        if (!found.bounded || found.jobs * plain[at]!.period > 240) continue;
        expect(found.response_ps / tick, JSON.stringify([plain, jitters])).toBe(response);
        if (found.job > 0) beyond++;
      }
    }
    expect(beyond).toBeGreaterThan(50);
  });

  it('a job that comes late meets the next one: (4,2) with a jitter of 3 has two in a busy period, released at 0 and 1', () => {
    const task = { ...asTask({ priority: 0, period: 4, longest: 2 }), jitter_ps: 3 * tick };
    expect(responseOf([task], 0)).toEqual({
      bounded: true,
      response_ps: 5 * tick,
      job: 0,
      finish_ps: 2 * tick,
      jobs: 2,
    });
  });

  it('keep their periods where the bounds say so, and the product is never the stricter of the two', () => {
    let within = 0;
    for (const ticks of sets) {
      const tasks = ticks
        .toSorted((a, b) => a.period - b.period)
        .map((task, priority) => ({ ...asTask(task), priority }));
      const C = tasks.map((task) => q(task.longest_ps / 1e12, 's'));
      const T = tasks.map((task) => q(task.period_ps / 1e12, 's'));
      const isUnderBound = loadOf(ticks) <= periodicBound({ n: q(tasks.length, '1') }, 'test').value;
      const isUnderProduct = hyperbolicProduct({ C, T }, 'test').value <= 2;
      if (isUnderBound) expect(isUnderProduct).toBe(true);
      if (!isUnderProduct) continue;
      within++;
      for (const at of tasks.keys()) expect(ticksOf(tasks, at)).toBeLessThanOrEqual(tasks[at]!.period_ps / tick);
    }
    expect(within).toBeGreaterThan(500);
  });
});

it('no job of 2,000 sets with phases, late releases, parts that hold on, ties and shorter runs takes longer or begins later', () => {
  const random = seeded(21);
  const whole = (most: number): number => Math.floor(random() * (most + 1));
  let [near, compared] = [0, 0];
  for (const plain of sets) {
    const jitters = plain.map(({ period }) => whole(period / 2));
    const ticks = plain.map((task, at): TickTask => {
      const late = jitters[at]!;
      const [lates, takes] = [0, 1].map((which) =>
        Array.from({ length: 200 }, () =>
          which === 0 ? whole(late) : task.longest - (random() < 0.2 ? whole(task.longest - 1) : 0),
        ),
      );
      return {
        ...task,
        priority: Math.floor(task.priority / (1 + whole(1))),
        phase: whole(task.period - 1),
        // The order of releases stays that of the jobs.
        lateBy: (job) => lates![job % 200]!,
        takes: (job) => takes![job % 200]!,
        holds: whole(2),
      };
    });
    const tasks = ticks.map((task, at) => ({
      ...asTask(task),
      jitter_ps: jitters[at]! * tick,
      blocking_ps: Math.max(
        0,
        ...ticks.flatMap((other) => (other.priority > task.priority ? [other.holds! * tick] : [])),
      ),
    }));
    const jobs = tickWalk(ticks, 600);
    const seen = longestOf(ticks, jobs);
    for (const [at, response] of seen.entries()) {
      const bound = ticksOf(tasks, at);
      const begins = (latestBegin_ps(tasks, at) ?? Infinity) / tick;
      for (const { task, begin, nominal } of jobs) if (task === at) expect(begin - nominal).toBeLessThanOrEqual(begins);
      expect(response, JSON.stringify(ticks)).toBeLessThanOrEqual(bound);
      compared++;
      if (response === bound) near++;
    }
  }
  // It is no wide bound either: some of the jobs reach it.
  expect(near / compared).toBeGreaterThan(0.05);
});

describe('tasks that ask for too much', () => {
  it('are told, in sets in which a backlog is left after a hyperperiod, and in no others', () => {
    for (const ticks of drawn(300, 22, () => true)) {
      const tasks = ticks.map(asTask);
      const jobs = tickWalk(ticks, 120);
      for (const at of tasks.keys()) {
        const level = ticks.filter((_, other) => ticks[other]!.priority <= ticks[at]!.priority);
        const isLeft = jobs.some((job) => level.includes(ticks[job.task]!) && job.end < 0);
        const response = responseOf(tasks, at);
        expect(response.bounded).toBe(!isLeft);
        if (!response.bounded) expect(response.because).toBe('overload');
      }
    }
  });

  const full = [2, 4, 4].map((period, priority) => asTask({ priority, period, longest: 1 }));
  it('all of the time is not too much, a picosecond more is, and so is all of it with jitter or blocking', () => {
    expect(responseOf(full, 2)).toMatchObject({ bounded: true, response_ps: 4 * tick });
    const beside = { bounded: false, because: 'overload' };
    expect(responseOf(full.with(0, { ...full[0]!, longest_ps: tick + 1 }), 2)).toMatchObject(beside);
    expect(responseOf(full.with(2, { ...full[2]!, blocking_ps: 1 }), 2)).toMatchObject(beside);
    expect(responseOf(full.with(1, { ...full[1]!, jitter_ps: 1 }), 2)).toMatchObject(beside);
    expect(responseOf(full.with(1, { ...full[1]!, jitter_ps: 1 }), 1)).toMatchObject({ bounded: true });
  });

  it('a busy period of more than a million steps is given up, and says so', () => {
    const [fast, slow] = [
      { ...full[0]!, period_ps: 10_000_000, longest_ps: 5_000_000 },
      { ...full[1]!, period_ps: 10_000_001, longest_ps: 5_000_000, blocking_ps: 10_000 },
    ];
    expect(responseOf([fast!, slow!], 1)).toMatchObject({ bounded: false, because: 'length' });
  });
});

it('the critical instant ends with the longest response, without a gap, every job within its own time', () => {
  const random = seeded(23);
  for (const ticks of sets.slice(0, 500)) {
    const tasks = ticks.map((task, at) => ({
      ...asTask(task),
      priority: Math.floor(task.priority / (1 + (at % 2))),
      jitter_ps: Math.floor(random() * 3 * tick),
      blocking_ps: Math.floor(random() * 2 * tick),
    }));
    for (const index of tasks.keys()) {
      const response = responseOf(tasks, index);
      const chart = criticalInstant(tasks, index);
      expect(chart === undefined).toBe(!response.bounded);
      if (chart === undefined || !response.bounded) continue;
      const { bars, finish_ps, release_ps, blocked_ps } = chart;
      expect(finish_ps - release_ps).toBe(response.response_ps);
      expect(bars.at(-1)).toMatchObject({ task: index, job: response.job, to_ps: finish_ps });
      expect(bars.map((bar) => bar.from_ps)).toEqual([blocked_ps, ...bars.slice(0, -1).map((bar) => bar.to_ps)]);
      for (const { task, job, from_ps } of bars) expect(chart.releases_ps[task]![job]).toBeLessThanOrEqual(from_ps);
      for (const [task, releases] of chart.releases_ps.entries()) {
        const ran = bars.filter((bar) => bar.task === task).reduce((sum, bar) => sum + bar.to_ps - bar.from_ps, 0);
        expect(ran).toBe(releases.length * tasks[task]!.longest_ps);
      }
    }
  }
});

describe('executions that grow', () => {
  const grown = (tasks: readonly Task[], factor: number): readonly Task[] =>
    tasks.map((task) => ({ ...task, longest_ps: Math.round(factor * task.longest_ps) }));
  const misses = (tasks: readonly Task[]): readonly number[] =>
    [...tasks.keys()].filter((at) => {
      const response = responseOf(tasks, at);
      return !response.bounded || response.response_ps > tasks[at]!.deadline_ps;
    });
  const timed = (ticks: readonly TickTask[], shares: readonly number[], tick_ps: number): readonly Task[] =>
    ticks.map(({ priority, period, longest }, at) => ({
      priority,
      period_ps: period * tick_ps,
      longest_ps: longest * tick_ps,
      jitter_ps: (at % 2) * 2.25 * tick_ps,
      blocking_ps: (at % 3) * 0.125 * tick_ps,
      deadline_ps: Math.round(period * shares[at % shares.length]! * tick_ps),
    }));

  // A tick is long enough for a picosecond to be less than the tolerance, and short enough for a long busy period.
  it.each([
    ['deadlines up to the period, to 1e-9', [1, 0.8, 0.9], 1e12, 1e-9],
    ['deadlines beyond the period, to 1e-4', [1.2, 3, 1.7], 1e8, 1e-4],
  ] as const)(
    'break a task right above the largest scaling and none right below: %s',
    (_, shares, tick_ps, tolerance) => {
      for (const ticks of sets.slice(0, 300)) {
        const tasks = timed(ticks, shares, tick_ps);
        const { factor, index } = largestScaling(tasks)!;
        if (factor > 0) expect(misses(grown(tasks, factor * (1 - tolerance))), JSON.stringify(ticks)).toEqual([]);
        expect(misses(grown(tasks, Math.max(factor, 1e-3) * (1 + tolerance))), JSON.stringify(ticks)).toContain(index);
      }
    },
  );

  it('fill the processor where no deadline stands in the way', () => {
    for (const ticks of sets.slice(0, 50)) {
      const tasks = timed(ticks, [20], 1e9);
      expect(largestScaling(tasks)!.factor).toBeCloseTo(1 / loadOf(ticks), 12);
    }
  });

  it('cannot grow at all where blocking alone takes the deadline, and are nothing without tasks', () => {
    const [task] = timed(sets[0]!, [1], 1e9);
    expect(largestScaling([{ ...task!, blocking_ps: task!.deadline_ps }])!.factor).toBe(0);
    expect(largestScaling([])).toBeUndefined();
  });
});

describe('times', () => {
  it('in whole picoseconds come back as the decimal numbers they were', () => {
    const random = seeded(24);
    for (let at = 0; at < 1000; at++) {
      const written = Number((random() * 10 ** -Math.floor(random() * 6)).toFixed(9));
      expect(seconds(picoseconds(written))).toBe(written);
    }
    // In seconds the third release would come after 0.3 s.
    expect(3 * picoseconds(0.1)).toBe(picoseconds(0.3));
    expect(3 * 0.1).toBeGreaterThan(0.3);
  });

  it('that cannot be are refused', () => {
    const [task] = sets[0]!.map(asTask);
    const wrongs: readonly Partial<Task>[] = [
      { period_ps: 0 },
      { period_ps: 0.5 },
      { longest_ps: 0 },
      { longest_ps: Number.NaN },
      { jitter_ps: -1 },
      { blocking_ps: Infinity },
      { deadline_ps: -1 },
      { priority: Number.NaN },
    ];
    for (const wrong of wrongs) expect(() => responseOf([{ ...task!, ...wrong }], 0)).toThrow(RangeError);
    expect(() => iterates([task!], 1)).toThrow(RangeError);
  });
});
