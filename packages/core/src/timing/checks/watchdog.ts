// timing.watchdog: does a device that watches over its values bear the longest silence of the task that writes them?
import { question } from '../../checks/finding.ts';
import type { Value } from '../../reading/values.ts';
import { assumed } from '../../working/assumed.ts';
import { given, Missing, missing } from '../../working/missing.ts';
import type { Quantity } from '../../working/quantity.ts';
import { varyingDelay } from '../calc/lead.ts';
import { longestSilence } from '../calc/signal-rate.ts';
import { type PlannedTask, responseForSure, tasksOf } from '../tasks.ts';
import type { Timing } from '../timing.ts';

export const watchdog = question<Timing, PlannedTask>({
  id: 'timing.watchdog',
  title: 'Watchdog',
  asks: 'Do values come often enough for a device that faults when it hears nothing?',
  page: `Asked of every task with a \`watchdog\`. Demand: the longest time between two values that arrive: a period more than
are lost in a row, and by how much the response varies, from the shortest execution to the longest response. Capacity:
\`watchdog.after\`. A task that events start has no longest silence, and cannot feed a watchdog.`,
  advice: 'a shorter period, a longer time of the watchdog',
  subjects: ({ cores }) => tasksOf(cores).filter(({ section }) => section?.watchdog !== undefined),
  name: ({ name }) => name,
  path: ({ path }) => `${path}.watchdog`,
  reserve: { share: 0, source: 'judgement', because: 'the longest silence is the worst already' },
  demand: silence,
  capacity: ({ section }) => section!.watchdog!.after,
  says: (demand, capacity) => `nothing comes for ${demand} at most, the device faults after ${capacity}`,
});

function silence(task: PlannedTask): Value<Quantity<'s'>> {
  const { name, path, isCyclic, period, takesAtLeast, section } = task;
  const k =
    section!.watchdog!.bears ??
    assumed(`${path}.watchdog.bears`, 0, '1', { source: 'judgement', because: 'not said, so that no value is lost' });
  const T = isCyclic ? period : missing(`${path}.every`, 'absent', 'a period, since events may stay away', '10 ms');
  if (T instanceof Missing) return T;
  const j = given({ b: takesAtLeast, w: responseForSure(task) }, (known) => varyingDelay(known, name));
  return given({ k, T, j }, (known) => longestSilence(known, name));
}
