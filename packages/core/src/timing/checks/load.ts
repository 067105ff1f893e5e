// timing.load: how much of a core do its tasks take?
import { question } from '../../checks/finding.ts';
import { assumed } from '../../working/assumed.ts';
import type { PlannedCore } from '../tasks.ts';
import type { Timing } from '../timing.ts';

export const load = question<Timing, PlannedCore>({
  id: 'timing.load',
  title: 'Load of the core',
  asks: 'Do the tasks leave enough of the core for what comes later?',
  page: `Demand: the sum of execution over period, of all tasks of the core, the motion kernel and communication among them.
Capacity: the whole time.

Whether every deadline is kept, \`timing.response\` tells; this is about room. Beside the load, \`layshaft show\` has the
bounds of Liu and Layland and the hyperbolic one, up to which tasks whose priorities follow their periods keep them
whatever else is known of them, and the factor by which all executions can grow until the first deadline is missed.`,
  advice: 'shorter executions, longer periods, a second core, a larger controller',
  subjects: ({ cores }) => cores,
  name: ({ name }) => name,
  path: () => 'tasks',
  reserve: {
    share: 0.3,
    source: 'common-practice',
    because: 'a core is left about a third of its time for what is added later',
  },
  demand: (core) => core.load,
  capacity: () => whole,
  says: (demand) => `the tasks take ${demand} of the time`,
});

const whole = assumed('timing.whole', 1, '1', {
  source: 'definition',
  because: 'a core has no more than all of its time',
  as: '%',
});
