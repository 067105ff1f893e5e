// All that is known of time in a machine: what the checks are asked of and what is shown.
import type { AxisUpdate, FollowedAxis } from '../physics/axis-update.ts';
import type { MasterSpeed } from '../physics/master-speed.ts';
import type { NetworkService } from '../physics/service.ts';
import { type PlannedChain, planChains } from './chains.ts';
import type { AxesByFollowing } from './estimate.ts';
import { type Kept, keptIn } from './memory.ts';
import { type PlannedPulses, pulsesOf } from './pulses.ts';
import type { TimingDesign } from './resolve.ts';
import { type PlannedCore, planCores } from './tasks.ts';
import { type PlannedUpdate, planUpdates } from './updates.ts';

export interface Timing {
  readonly design: TimingDesign;
  readonly services: readonly NetworkService[];
  readonly cores: readonly PlannedCore[];
  readonly chains: readonly PlannedChain[];
  readonly updates: readonly PlannedUpdate[];
  readonly pulses: readonly PlannedPulses[];
  /** Of each memory that the file says something of. */
  readonly memory: readonly Kept[];
}

/** What other domains hand over. */
export interface Around {
  readonly services: readonly NetworkService[];
  readonly masters: readonly MasterSpeed[];
  /** Made when it is asked for, since their motions take time. */
  readonly motions: () => readonly AxisUpdate[];
  /** How many axes the file has, by how they follow. */
  readonly axes: AxesByFollowing;
  /** How an axis that is described goes by its setpoints. */
  readonly followers: (name: string) => FollowedAxis | undefined;
}

/** Nothing of it is asked about. */
export const untimed = (design: TimingDesign): TimingDesign => ({
  ...design,
  tasks: [],
  chains: [],
  counted: [],
  memory: { path: design.memory.path, retained: undefined, cam_tables: undefined, logs: undefined },
});

export function timingOf(design: TimingDesign, { services, masters, motions, axes, followers }: Around): Timing {
  const cores = planCores(design, services, axes);
  const chains = planChains(design.chains, { points: design.points, services, masters, cores, followers });
  const tasks = cores.flatMap((core) => core.tasks);
  const pulses = design.counted.map((each) => pulsesOf(each, { tasks, services }));
  return { design, services, cores, chains, pulses, updates: planUpdates(motions(), services), memory: keptIn(design) };
}
