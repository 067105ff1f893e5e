// timing.memory: does what the program keeps fit into the memories of the controller?
import { question } from '../../checks/finding.ts';
import type { Value } from '../../reading/values.ts';
import type { Quantity } from '../../working/quantity.ts';
import { memoryOf } from '../parts.ts';
import type { Timing } from '../timing.ts';

interface Kept {
  readonly name: string;
  readonly path: string;
  readonly used: Value<Quantity>;
  readonly there: Value<Quantity>;
}

export const memory = question<Timing, Kept>({
  id: 'timing.memory',
  title: 'Memory',
  asks: 'Does what the program keeps fit into the memories of the controller?',
  page: `Asked of each entry of \`memory\`: variables that last while the power is off, tables of cams, logs. Demand: what the
file says. Capacity: what the controller states of that memory.`,
  advice: 'fewer variables that last, coarser tables, a larger controller',
  subjects: ({ design: { memory: kept, controller } }) =>
    (Object.keys(memoryOf) as (keyof typeof memoryOf)[]).flatMap((name) => {
      const used = kept[name];
      return used === undefined
        ? []
        : [{ name, path: `${kept.path}.${name}`, used, there: controller[memoryOf[name]] as Value<Quantity> }];
    }),
  name: ({ name }) => name,
  path: ({ path }) => path,
  reserve: { share: 0.2, source: 'judgement', because: 'programs grow while a machine is put to work' },
  demand: ({ used }) => used,
  capacity: ({ there }) => there,
  says: (demand, capacity) => `${demand} of ${capacity} are taken`,
});
