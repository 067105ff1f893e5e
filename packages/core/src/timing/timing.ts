// All that is known of time in a machine: what the checks are asked of and what is shown.
import type { NetworkService } from '../physics/service.ts';
import type { TimingDesign } from './resolve.ts';
import { type PlannedCore, planCores } from './tasks.ts';

export interface Timing {
  readonly design: TimingDesign;
  readonly services: readonly NetworkService[];
  readonly cores: readonly PlannedCore[];
}

/** What other domains hand over. */
export interface Around {
  readonly services: readonly NetworkService[];
  /** How many axes the file has. */
  readonly axes: number;
}

/** Nothing of it is asked about. */
export const untimed = (design: TimingDesign): TimingDesign => ({
  ...design,
  tasks: [],
  chains: [],
  memory: { path: design.memory.path, retained: undefined, cam_tables: undefined, logs: undefined },
});

export function timingOf(design: TimingDesign, { services, axes }: Around): Timing {
  return { design, services, cores: planCores(design, services, axes) };
}
