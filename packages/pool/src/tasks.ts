// What a thread can do, by name: each task takes a chunk and gives its result, both plain data.
import {
  type CurvedChunk,
  runCurvedTrials,
  runSimulation,
  runTrials,
  type SimulationChunk,
  type TrialChunk,
} from '@layshaft/core/kernels';

export const tasks = {
  simulation: (chunk: SimulationChunk) => runSimulation(chunk),
  curvedTrials: (chunk: CurvedChunk) => runCurvedTrials(chunk),
  trials: (chunk: TrialChunk) => runTrials(chunk),
} as const;

export type Tasks = typeof tasks;
export type TaskName = keyof Tasks;
export type ChunkOf<K extends TaskName> = Parameters<Tasks[K]>[0];
export type ResultOf<K extends TaskName> = ReturnType<Tasks[K]>;
