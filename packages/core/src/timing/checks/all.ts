// The checks of tasks, memories, chains and updates, in the order of the argument.
import { chain } from './chain.ts';
import { load } from './load.ts';
import { memory } from './memory.ts';
import { pulse } from './pulse.ts';
import { response } from './response.ts';
import { seen } from './seen.ts';
import { neededUpdate } from './update.ts';
import { watchdog } from './watchdog.ts';

export const timingChecks = [response, load, watchdog, chain, seen, pulse, neededUpdate, memory] as const;
