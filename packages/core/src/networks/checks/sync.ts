// networks.sync: do all stations have their set values when they take them over together?
import { question } from '../../checks/finding.ts';
import type { Planned } from '../planned.ts';
import { shiftNeeded } from '../sync-event.ts';

export const sync = question<readonly Planned[], Planned>({
  id: 'networks.sync',
  title: 'Sync event',
  asks: 'Do all stations have their set values when they take them over together?',
  page: `Asked of every network with \`sync_event\`. Demand: the frames on the line until the last command has left, its way to the
station, in the cycle of the pattern in which that takes longest, and by how much a cycle may start late (\`start_jitter\`).
Capacity: the sync event, counted from the start of the cycle. A station that has its set value later takes over that of the
cycle before: it lags by one cycle more.

Left out: a command that is sent again, and how long a station needs to make use of a frame that has arrived.`,
  advice: 'a later sync event, the farthest stations first',
  subjects: (networks) => networks.filter(({ network }) => network.syncEvent !== undefined),
  name: ({ network }) => network.name,
  path: ({ network }) => `${network.path}.sync_event`,
  reserve: { share: 0.1, source: 'judgement', because: 'room for what a station does with the frame' },
  demand: shiftNeeded,
  capacity: ({ network }) => network.syncEvent!,
  says: (demand, capacity) => `the last command is there after ${demand}, all take over after ${capacity}`,
});
