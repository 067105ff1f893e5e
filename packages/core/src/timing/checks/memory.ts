// timing.memory: does what the program keeps fit into the memories of the controller?
import { question } from '../../checks/finding.ts';
import type { Kept } from '../memory.ts';
import type { Timing } from '../timing.ts';

export const memory = question<Timing, Kept>({
  id: 'timing.memory',
  title: 'Memory',
  asks: 'Does what the program keeps fit into the memories of the controller?',
  page: `Asked of each entry of \`memory\`: variables that last while the power is off, tables of cams, logs. Demand: what the
file says. Capacity: what the controller states of that memory.`,
  advice: 'fewer variables that last, coarser tables, a larger controller',
  subjects: ({ memory: kept }) => kept,
  name: ({ name }) => name,
  path: ({ path }) => path,
  reserve: { share: 0.2, source: 'judgement', because: 'programs grow while a machine is put to work' },
  demand: ({ used }) => used,
  capacity: ({ there }) => there,
  says: (demand, capacity) => `${demand} of ${capacity} are taken`,
});
