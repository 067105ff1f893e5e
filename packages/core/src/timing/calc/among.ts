// One task among all that share its core: the exact methods of this folder as steps of a working, with priorities and
// blocking sections as inputs, since a change of either changes who keeps whom waiting.
import { formula, method, openMethod, type Values } from '../../working/formula.ts';
import { picoseconds, seconds } from './picoseconds.ts';
import { iterates, latestBegin_ps, mostSteps, responseOf, type Task } from './response.ts';
import { largestScaling } from './scaling.ts';

type Numbers = readonly number[];

const others = {
  c: 'longest execution of each other task of the core',
  t: 'its period',
  j: 'its jitter',
  p: 'its priority; the smaller, the more urgent',
  b: 'how long it cannot be interrupted',
} as const;

const ownMeans = {
  C: 'longest execution',
  T: 'period, or least distance of the events',
  J: 'jitter of the release',
  P: 'priority; the smaller, the more urgent',
  D: 'deadline',
  ...others,
} as const;

/** Of a core that is asked for too much, what is certain: the response of the first job that misses, as far as it was followed. */
export const responseAmong = method({
  id: 'timing.task.answers',
  title: 'longest response of a task among those of its core',
  prose:
    'the longest of w_q − q·T + J over all jobs q of the busy period, where w_q is the smallest w = B + (q + 1)·C + Σ ⌈(w + j)/t⌉·c over the tasks of the same or a more urgent priority, and B the longest b of the less urgent ones; where the busy period does not end, what the first job that misses its deadline takes at least',
  gives: 's',
  symbols: { C: 's', T: 's', J: 's', P: '1', D: 's', c: 's[]', t: 's[]', j: 's[]', p: '1[]', b: 's[]' },
  means: ownMeans,
  source: 'lehoczky',
  at: 'with jitter as in Tindell, Burns and Wellings, Real-Time Systems 6 (1994), from memory',
  proof: 'the longest response is that of a schedule walked tick by tick',
  of(...values: readonly (number | Numbers)[]) {
    const { tasks, own } = tasksFrom(values);
    if (tasks === undefined) return Number.NaN;
    const response = responseOf(tasks, own);
    return response.bounded ? seconds(response.response_ps) : missedBy(tasks, own);
  },
});

/** Not a number where there is no longest response. */
export const beginsAmong = method({
  id: 'timing.task.begins',
  title: 'by how much a task begins late at most among those of its core',
  prose:
    'the longest of s_q − q·T + J over all jobs q of the busy period, where s_q is the smallest s = B + q·C + Σ (⌊(s + j)/t⌋ + 1)·c over the tasks of the same or a more urgent priority, and B the longest b of the less urgent ones',
  gives: 's',
  symbols: { C: 's', T: 's', J: 's', P: '1', D: 's', c: 's[]', t: 's[]', j: 's[]', p: '1[]', b: 's[]' },
  means: ownMeans,
  source: 'lehoczky',
  at: 'the same busy period, up to the begin of a job; own derivation',
  proof: 'the latest begin is that of a schedule walked tick by tick',
  of(...values: readonly (number | Numbers)[]) {
    const { tasks, own } = tasksFrom(values);
    const latest_ps = tasks === undefined ? undefined : latestBegin_ps(tasks, own);
    return latest_ps === undefined ? Number.NaN : seconds(latest_ps);
  },
});

/** How the longest response is found: sum by sum, each with as many runs of the more urgent as start before it. */
export const responseSum = openMethod({
  id: 'timing.task.sum',
  title: 'a sum on the way to the longest response',
  prose:
    'B + (q + 1)·C + Σ ⌈(w + j)/t⌉·c over the tasks of the same or a more urgent priority, with the sum before it for w; the first one has the executions of the task alone, and q is the job that is the worst of the busy period',
  gives: 's',
  source: 'lehoczky',
  proof: 'RT1',
});

/** The sums up to the end of the worst job, or of the first job past its deadline; none for values that no task can have. */
export function sumsAmong(values: Values): readonly number[] {
  const { tasks, own } = tasksFrom(values);
  if (tasks === undefined) return [];
  const response = responseOf(tasks, own);
  const sums = response.bounded
    ? iterates(tasks, own, response.job)
    : iterates(tasks, own, 0, tasks[own]!.deadline_ps - tasks[own]!.jitter_ps);
  return sums.map(seconds);
}

/**
 * Why no longest response is known: more is asked of the core than all of its time, or the search was given up for its `length`.
 * Nothing where it is known, or where no task can be so.
 */
export function unboundedBecause(values: Values): 'overload' | 'length' | undefined {
  const { tasks, own } = tasksFrom(values);
  const response = tasks && responseOf(tasks, own);
  return response === undefined || response.bounded ? undefined : response.because;
}

/** By how much all executions of a core may grow; the periods, deadlines and blocking sections stay. */
export const growthAmong = method({
  id: 'timing.tasks.growth',
  title: 'factor by which all executions can grow until the first deadline is missed',
  prose:
    'exact, from the finite set of instants at which a job can just be done (testing points; Bini and Buttazzo 2004)',
  gives: '1',
  symbols: { C: 's[]', T: 's[]', J: 's[]', P: '1[]', D: 's[]', b: 's[]' },
  means: {
    C: 'longest execution of each task of the core',
    T: 'its period',
    J: 'its jitter',
    P: 'its priority; the smaller, the more urgent',
    D: 'its deadline',
    b: others.b,
  },
  source: 'bini-buttazzo',
  at: 'testing points, from memory',
  proof: 'fill the processor where no deadline stands in the way',
  of: (...values: readonly Numbers[]) => scalingAmong(values)?.factor ?? Number.NaN,
});

/** Which of the tasks that is; nothing where it cannot be told. */
export const firstToMiss = (values: Values): number | undefined => scalingAmong(values)?.index;

/** Of the values of the method. */
function scalingAmong(values: Values): ReturnType<typeof largestScaling> {
  const [C, T, J, P, D, b] = values as readonly Numbers[];
  const tasks = C!.map((longest, at): Plain => [longest, T![at]!, J![at]!, P![at]!, D![at]!, b![at]!]);
  return isPossible(tasks) ? largestScaling(blocked(tasks)) : undefined;
}

export const taskPeriod = formula({
  id: 'timing.task.period',
  title: 'period of a task that goes with a network',
  text: 'n*T',
  gives: 's',
  symbols: { n: '1', T: 's' },
  means: { n: 'cycles from one start to the next', T: 'cycle of the network' },
  try: { n: [1, 20, 1], T: [1e-4, 1e-2] },
  source: 'definition',
  proof: 'a task on every second cycle has a period of two cycles',
  of: (n: number, T: number) => n * T,
});

export const taskShare = formula({
  id: 'timing.task.share',
  title: 'share of its core that a task takes',
  text: 'C/T',
  gives: '1',
  as: '%',
  symbols: { C: 's', T: 's' },
  means: { C: 'longest execution', T: 'period, or least distance of its events' },
  try: { C: [1e-5, 1e-3], T: [1e-3, 1e-1] },
  source: 'definition',
  proof: 'a task estimated by hand',
  of: (C: number, T: number) => C / T,
});

/** Longest execution, period, jitter, priority, deadline, blocking section; in seconds. */
type Plain = readonly [number, number, number, number, number, number];

/**
 * 75 minutes: a task that comes more rarely counts as if it came so often. No busy period is as long, so its own response
 * and those of others stay what they are.
 */
const rarest_ps = 2 ** 52;
const upTo75min = (time: number): number => Math.min(picoseconds(time), rarest_ps);

/** The tasks of a core as the calculations take them: each is blocked by the longest section of those that are less urgent. */
export function blocked(tasks: readonly Plain[]): readonly Task[] {
  return tasks.map(([longest, period, jitter, priority, deadline]) => ({
    priority,
    period_ps: upTo75min(period),
    longest_ps: picoseconds(longest),
    jitter_ps: picoseconds(jitter),
    blocking_ps: picoseconds(Math.max(0, ...tasks.flatMap(([, , , other, , b]) => (other > priority ? [b] : [])))),
    deadline_ps: upTo75min(deadline),
  }));
}

/** Where a value was changed to what no task can have, nothing is computed. */
const isPossible = (tasks: readonly Plain[]): boolean =>
  tasks.every(
    ([longest, period, jitter, priority, deadline, b]) =>
      [period, deadline, priority].every(Number.isFinite) &&
      [longest, jitter, b].every((each) => each >= 0 && Number.isSafeInteger(picoseconds(each))) &&
      deadline >= 0 &&
      picoseconds(longest) > 0 &&
      picoseconds(period) > 0,
  );

/** The values of the method, its own task last among all. */
function tasksFrom(values: readonly (number | Numbers)[]): { tasks: readonly Task[] | undefined; own: number } {
  const [C, T, J, P, D] = values as readonly number[];
  const [c, t, j, p, b] = values.slice(5) as readonly Numbers[];
  const tasks = c!.map((longest, at): Plain => [longest, t![at]!, j![at]!, p![at]!, t![at]!, b![at]!]);
  const all: readonly Plain[] = [...tasks, [C!, T!, J!, P!, D!, 0]];
  return { tasks: isPossible(all) ? blocked(all) : undefined, own: tasks.length };
}

/** How far the first job that misses its deadline was followed; not a number where none was found in so many steps. */
function missedBy(tasks: readonly Task[], own: number): number {
  const { period_ps, deadline_ps, jitter_ps } = tasks[own]!;
  let steps = 0;
  for (let job = 0; steps < mostSteps; job++) {
    const sums = iterates(tasks, own, job, job * period_ps + deadline_ps - jitter_ps);
    const response_ps = sums.at(-1)! - job * period_ps + jitter_ps;
    if (response_ps > deadline_ps) return seconds(response_ps);
    steps += sums.length;
  }
  return Number.NaN;
}
