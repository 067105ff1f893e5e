// networks.counters: does the noise of the file explain the spoilt frames that the ports have counted?
import { question } from '../../checks/finding.ts';
import { given } from '../../working/missing.ts';
import { answerOf, countersRead } from '../counter-reading.ts';
import type { Planned } from '../planned.ts';

export const counters = question<readonly Planned[], Planned>({
  id: 'networks.counters',
  title: 'Error counters',
  asks: 'Are the spoilt frames that the ports have counted no more than chance explains?',
  page: `Asked of every network that has \`counters\`. A device that sends a frame on while it still receives passes spoilt
frames on as well, and the ports behind it count them again: each port is credited with what it counts beyond the ports
before it. That count is held against the chance that the run spoils a frame by the network's bit error ratio, taken with
the longest frame of the network. A run is suspect when so many spoilt frames or more would come by chance with a
probability below (1 − confidence) over the number of ports. The first suspect along the way of the frames has the fault
before it.

Counts in intervals tell bursts from an even cause: where the fullest interval has more of the losses than falls together
by chance, something is switched then. What to try first stands in \`show networks.NAME.noise\`.

Left out: frames that no port can recognise as such.`,
  advice: 'plugs and screen of the run that is named, then what show networks.NAME.noise lists',
  subjects: (networks) => networks.filter(({ network }) => network.counters !== undefined),
  name: ({ network }) => network.name,
  path: ({ network }) => `${network.path}.counters`,
  answer: (planned) => given({ read: countersRead(planned) }, ({ read }) => answerOf(read!)),
});
