// timing.response: is each task done by its deadline?
import { question } from '../../checks/finding.ts';
import { isKeptWaiting, type PlannedTask } from '../tasks.ts';
import type { Timing } from '../timing.ts';

const found = {
  known: (demand: string) => `done after ${demand} at the latest`,
  overload: (demand: string) => `more is asked of the core than all of its time: not done before ${demand}`,
  length: (demand: string) =>
    `its longest response was not found, for the search grew too long: not done before ${demand}`,
} as const;

export const response = question<Timing, PlannedTask>({
  id: 'timing.response',
  title: 'Response',
  asks: 'Is the task done by its deadline, however the other tasks of its core come in between?',
  page: `Demand: the longest response, exactly, from the start of the task without its jitter. All tasks of the core with the
same or a more urgent priority come in between as often as they can, the motion kernel first; of the less urgent ones, the
longest stretch that cannot be interrupted counts once. Where a deadline lies beyond the period, every job of the busy
period is looked at, since the first need not be the worst.

An execution is the longest that the file states or that was measured; where it only says what the task contains, it is
estimated with what the catalogue states at most of each, and \`layshaft show\` tells the likely one beside it.

A core that is asked for more than the whole time has no longest response: the demand is then what the first job that
misses its deadline takes at least. The same holds where the core has so little time to spare that the search was given up
after a million steps; where it found no job that misses until then, the answer is unknown.

The motion kernel is asked about as well, with its cycle as deadline, where it shares its core with a task that \`blocks\` or
with the kernel of another network; \`networks.kernel\` asks about its own time alone.

Capacity: the deadline; the period where none is stated.

Left out: what switching between tasks costs, and caches that are cold after it; a measured execution should hold both.`,
  advice: 'a shorter execution, a more urgent priority, a longer period',
  subjects: ({ cores }) =>
    cores.flatMap((core) => core.tasks.filter((task) => task.kind !== 'kernel' || isKeptWaiting(task, core))),
  name: ({ name }) => name,
  path: ({ path }) => path,
  reserve: {
    share: 0,
    source: 'judgement',
    because: 'longest executions are the worst already; room is kept on the load',
  },
  demand: (task) => task.response,
  capacity: ({ deadline }) => deadline,
  says: (demand, capacity, { estimate, unbounded }) =>
    `${found[unbounded() ?? 'known'](demand)}, due after ${capacity}${estimate === undefined ? '' : '; its execution is estimated'}`,
});
