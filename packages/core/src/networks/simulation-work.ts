// The simulation as long work beside the view of a network's noise: so many cycles of it, and what each station lost.
import type { LaterTable, LongWork } from '../checks/view.ts';
import { Missing } from '../working/missing.ts';
import type { SimulationCounts } from './calc/simulate/plan.ts';
import type { Noise } from './noise.ts';
import type { Planned } from './planned.ts';
import { resultOf, simulationOf } from './simulation.ts';
import { noiseKinds } from './simulation-plan.ts';
import { leftOut, simulationTable } from './simulation-view.ts';

/** Fewer cycles tell nothing of rare losses, and more frames on runs take hours. Our judgement. */
const [least, usual, most, mostHops] = [1000, 1_000_000, 1_000_000_000, 1e11];

const name = 'simulation';

export function simulationWork(planned: Planned): LongWork {
  const { devices, runs } = planned.network;
  // Whatever the discipline, an exchange passes no run more than once each way.
  const bearable = Math.min(most, Math.floor(mostHops / Math.max(1, 2 * devices.length * runs.length)));
  return {
    name,
    title: 'Play every frame',
    counts: 'cycles',
    least: Math.min(least, bearable),
    usual: Math.min(usual, bearable),
    most: bearable,
    job: ({ count, seed }) => {
      const simulation = simulationOf(planned, { cycles: count, seed });
      if (simulation instanceof Missing) return simulation;
      return {
        task: 'simulation',
        chunks: simulation.chunks,
        merge: (results) => ({
          ...simulationTable(resultOf(simulation, results as readonly SimulationCounts[])),
          name,
        }),
      };
    },
  };
}

/** What such a simulation takes for granted. */
export const simulationLeavesOut = (planned: Planned, noise: Noise): LaterTable => {
  const table = leftOut({ planned, noise, kinds: noiseKinds });
  return { name: table.name, title: table.title, make: () => table, alone: true };
};
