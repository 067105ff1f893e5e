// timing.update: does each axis get its setpoints as often as its motion and its loop need them?
import { question } from '../../checks/finding.ts';
import type { Timing } from '../timing.ts';
import { type PlannedUpdate, strictest } from '../updates.ts';

export const neededUpdate = question<Timing, PlannedUpdate>({
  id: 'timing.update',
  title: 'Needed update',
  asks: 'Does the axis get its setpoints as often as its motion and its loop need them?',
  page: `Asked of every axis on a network that says its \`tolerance\` and speeds up or slows down in its cycle, or whose position
loop closes over the network (\`loop: controller\`). Demand: the period in which its network serves it.

Capacity: the slowest period that all reasons bear. Straight lines between setpoints leave the curve by a·T²/8, with the
highest acceleration of the cycle, which must stay within the tolerance. A loop over the network has dead time of two and a
half periods, which its gain must leave a phase margin of 60°.

Left out, since no period makes them less: jitter, and the way of the command through the network; \`show timing\` has how
far the tool goes meanwhile. A drive that goes on in curves between setpoints errs by much less.`,
  advice: 'a shorter cycle, a smaller multiple, a smoother motion',
  subjects: ({ updates }) => updates,
  name: ({ axis }) => axis.name,
  path: ({ axis }) => axis.path,
  reserve: { share: 0.1, source: 'judgement', because: 'a tolerance is not for the setpoints alone' },
  demand: ({ station }) => station.period,
  capacity: ({ slowest }) => slowest,
  says: (demand, capacity, update) => `served every ${demand}; ${strictest(update)} bear ${capacity}`,
});
