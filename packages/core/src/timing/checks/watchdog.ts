// timing.watchdog: does a device that watches over its values bear the longest silence of the task that writes them?
import { question } from '../../checks/finding.ts';
import { type PlannedTask, tasksOf } from '../tasks.ts';
import type { Timing } from '../timing.ts';
import { watchedOf } from '../watchdog.ts';

export const watchdog = question<Timing, PlannedTask>({
  id: 'timing.watchdog',
  title: 'Watchdog',
  asks: 'Do values come often enough for a device that faults when it hears nothing?',
  page: `Asked of every task with a \`watchdog\`. Demand: the longest time between two values that arrive: a period more than
are lost in a row, and by how much the response varies, from the shortest execution to the longest response. Capacity:
\`watchdog.after\`; the slowest period that it bears stands in \`show tasks.NAME\`. A task that events start has no longest silence, and cannot feed a watchdog.`,
  advice: 'a shorter period, a longer time of the watchdog',
  subjects: ({ cores }) => tasksOf(cores).filter((task) => watchedOf(task) !== undefined),
  name: ({ name }) => name,
  path: ({ path }) => `${path}.watchdog`,
  reserve: { share: 0, source: 'judgement', because: 'the longest silence is the worst already' },
  demand: (task) => watchedOf(task)!.silence,
  capacity: (task) => watchedOf(task)!.after,
  says: (demand, capacity) => `nothing comes for ${demand} at most, the device faults after ${capacity}`,
});
