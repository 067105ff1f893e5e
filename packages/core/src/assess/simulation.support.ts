// Simulations of files for tests, played in this thread.

import { runSimulation } from '../networks/calc/simulate/run.ts';
import type { Planned } from '../networks/planned.ts';
import {
  resultOf,
  type Simulation,
  type SimulationRequest,
  type SimulationResult,
  simulationOf,
} from '../networks/simulation.ts';
import { Missing } from '../working/missing.ts';
import { type Asked, sound, textOf } from './noise.support.ts';

export const planned = (text: string): Planned => sound(text).networks[0]!;
export const file = (asked: Partial<Asked> & Pick<Asked, 'noise'>): Planned =>
  planned(textOf({ stations: 4, ...asked }));

export function simulation(of: Planned, request: SimulationRequest): Simulation {
  const found = simulationOf(of, request);
  if (found instanceof Missing) throw new Error(JSON.stringify(found.lacks));
  return found;
}

export function played(of: Planned, request: SimulationRequest): SimulationResult {
  const asked = simulation(of, request);
  return resultOf(
    asked,
    asked.chunks.map((chunk) => runSimulation(chunk)),
  );
}
