// networks.cycle: does everything that must be sent fit into the cycle?
import { question } from '../../checks/finding.ts';
import { equalWithin } from '../../checks/margin.ts';
import { Missing } from '../../working/missing.ts';
import { Quantity } from '../../working/quantity.ts';
import { print } from '../../working/working.ts';
import { shortestAllowed, shortestCycle } from '../calc/cycle.ts';
import type { Planned } from '../planned.ts';

export const cycle = question<readonly Planned[], Planned>({
  id: 'networks.cycle',
  title: 'Cycle',
  asks: 'Does one cycle hold every exchange, the repeats and the non-cyclic window, with time to spare?',
  page: `Demand: the frame that opens the cycle, the exchanges of the fullest cycle, the repeats at the length of the
longest thing that may have to be done again, and the non-cyclic window. How the exchanges add up depends on the
discipline of the profile:

- polled: command, turnaround and answer, one station after another; the way there and back each time.
- pipelined: commands back to back; answers come in on the other direction as soon as they are ready, one behind another.
- chained: one command for all stations, then their answers one behind another.
- summation: frames with the data of all stations, which pass through all of them and back; more than one frame's data
  goes into several frames, one behind another.
- slotted: commands and answers at once, each by a timetable in which none waits for another; the longer direction counts.

Frames count with preamble and gap; ways with the propagation along every cable and the forwarding of every device that
is passed; turnaround and forwarding with their stated limit, or with a measurement. Stations that are served in every
n-th cycle are spread so that the fullest cycle is as empty as possible. A ring counts with a break next to the
controller, on the side that needs more.

Capacity: the cycle. While it is open, the answer says what a cycle needs, and the shortest one that keeps the reserve
and that the profile allows.

The sync event is the moment at which all stations take over their set values together. It can come no sooner than the
last command of the cycle has arrived; \`layshaft show\` tells when that is, and \`networks.sync\` holds it against the one
that the file says.

Left out: the controller's own jitter (\`start_jitter\`). Fewer repeats, a smaller non-cyclic frame or a second network helps as well; a
long polled line gains by a star over a hub, since every drive that is passed costs twice its forwarding time.`,
  advice: 'a longer cycle, smaller payloads, slow stations on a multiple',
  subjects: (networks) => networks,
  name: (planned) => planned.network.name,
  path: (planned) => `${planned.network.path}.cycle`,
  reserve: { share: 0.2, source: 'judgement', because: 'room for a station or two that is added later' },
  demand: (planned) => planned.used,
  capacity: (planned) => planned.network.cycle,
  says: (demand, capacity) => `${demand} of ${capacity} are spoken for`,
  whenOpen: {
    enough: (demand, q, { network: { name, profile } }) => {
      const u = demand as Quantity<'s'>;
      const m = profile.cycle_at_least;
      return m instanceof Missing ? shortestCycle({ u, q }, name) : shortestAllowed({ u, q, m }, name);
    },
    says: (demand, enough, planned) => {
      const needs = `a cycle needs ${print(demand)}`;
      if (enough === undefined) return needs;
      const offered = offeredFrom(planned, enough.value);
      const next = offered === undefined ? '' : `, the next that the controller offers is ${print(offered)}`;
      return `${needs}, the shortest that reserve and profile allow is ${print(enough)}${next}`;
    },
  },
});

/** The shortest cycle of the controller that is no shorter than this. */
function offeredFrom({ network: { controller } }: Planned, least_s: number): Quantity<'s'> | undefined {
  if (controller.cycles instanceof Missing) return undefined;
  const known = controller.cycles.filter((each) => each instanceof Quantity);
  return known.filter(({ value }) => value >= least_s * (1 - equalWithin)).sort((a, b) => a.value - b.value)[0];
}
