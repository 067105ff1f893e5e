// layshaft trials: many more trials of a mark than `show` makes.
import type { Io } from './io.ts';
import { runWork, type WorkOptions } from './run-work.ts';

export interface TrialsOptions extends Omit<WorkOptions, 'count'> {
  readonly trials?: string;
}

export const trials = (file: string, address: string, { trials: count, ...options }: TrialsOptions, io: Io) =>
  runWork(
    {
      name: 'trials',
      who: 'a mark whose budget is known',
      countOption: '--trials',
      explained:
        'layshaft explain takes the addresses of the results, and tells of the trials that layshaft show makes.',
    },
    { file, address },
    { ...options, count },
    io,
  );
