// networks.kernel: does the controller have the time to compute all axes in every cycle?
import { question } from '../../checks/finding.ts';
import { type Controlled, controlledBy, kernelShareOf } from '../kernel.ts';
import type { Planned } from '../planned.ts';

export const kernel = question<readonly Planned[], Controlled>({
  id: 'networks.kernel',
  title: 'Motion kernel',
  asks: 'Does the motion kernel stay within the share of the time that it may take?',
  page: `Demand: over all networks of the controller, the kernel's time in its fullest cycle, divided by that cycle. The time
is a base, a time for each axis that is served, and a time for each octet of the stations that are no axes.

Capacity: the share that the catalogue allows the kernel; the rest belongs to the other tasks and to communication.`,
  advice: 'a longer cycle, slow axes on a multiple, a larger controller',
  subjects: controlledBy,
  name: () => 'controller',
  path: () => 'controller',
  reserve: { share: 0.15, source: 'judgement', because: 'room for an axis or two that is added later' },
  demand: kernelShareOf,
  capacity: ({ controller }) => controller.kernel_share,
  says: (demand, capacity) => `the kernel takes ${demand} of the time; it may take ${capacity}`,
});
