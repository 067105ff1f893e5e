// axes.cycle: do the steps of a motion fit into its cycle?
import { question } from '../../checks/finding.ts';
import type { Value } from '../../reading/values.ts';
import { Missing } from '../../working/missing.ts';
import type { Quantity } from '../../working/quantity.ts';
import type { AxisDemand } from '../demand.ts';

interface Fitted {
  readonly demand: AxisDemand;
  readonly taken: Value<Quantity<'s'>>;
  readonly cycle: Value<Quantity<'s'>>;
}

export const cycle = question<readonly AxisDemand[], Fitted>({
  id: 'axes.cycle',
  title: 'Time for the steps',
  asks: 'Do the steps of the motion fit into its cycle?',
  page: `Asked of every motion that is made of steps. Demand: the time that they take one after another. Capacity: the
cycle, its own or that of the products of its master. What is left is standing still.`,
  advice: 'quicker steps, a longer cycle',
  subjects: (axes) =>
    axes.flatMap((demand): readonly Fitted[] => {
      const { motion } = demand;
      if (motion instanceof Missing) return [{ demand, taken: motion, cycle: motion }];
      return motion.taken === undefined ? [] : [{ demand, taken: motion.taken, cycle: motion.cycle }];
    }),
  name: ({ demand }) => demand.axis.name,
  path: ({ demand }) => `${demand.axis.path}.motion`,
  reserve: { share: 0, source: 'judgement', because: 'what the file says of time is taken as it is' },
  demand: ({ taken }) => taken,
  capacity: ({ cycle: whole }) => whole,
  says: (demand, capacity) => `the steps take ${demand} of a cycle of ${capacity}`,
});
