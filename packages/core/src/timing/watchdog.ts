// What a device that watches over the values of a task hears: the longest silence, and the slowest period that it bears.
import type { Value } from '../reading/values.ts';
import { assumed } from '../working/assumed.ts';
import { given, Missing, missing } from '../working/missing.ts';
import { onceForEach } from '../working/once.ts';
import type { Quantity } from '../working/quantity.ts';
import { varyingDelay } from './calc/lead.ts';
import { longestSilence, periodForWatchdog } from './calc/signal-rate.ts';
import { type PlannedTask, responseForSure } from './tasks.ts';

type Time = Value<Quantity<'s'>>;

export interface Watched {
  readonly after: Time;
  readonly silence: Time;
  readonly slowest: Time;
}

/** Nothing for a task that nobody watches over. */
export const watchedOf = onceForEach((task: PlannedTask): Watched | undefined => {
  const { name, path, isCyclic, period, takesAtLeast, section } = task;
  if (section?.watchdog === undefined) return undefined;
  const { after, bears } = section.watchdog;
  const k =
    bears ??
    assumed(`${path}.watchdog.bears`, 0, '1', { source: 'judgement', because: 'not said, so that no value is lost' });
  const j = given({ b: takesAtLeast, w: responseForSure(task) }, (known) => varyingDelay(known, name));
  const T = isCyclic ? period : missing(`${path}.every`, 'absent', 'a period, since events may stay away', '10 ms');
  if (T instanceof Missing) return { after, silence: T, slowest: T };
  return {
    after,
    silence: given({ k, T, j }, (known) => longestSilence(known, name)),
    slowest: given({ W: after, j, k }, (known) => periodForWatchdog(known, name)),
  };
});
