// timing.pulse: does the task that counts pulses see each of them?
import { question } from '../../checks/finding.ts';
import { Missing } from '../../working/missing.ts';
import type { PlannedPulses } from '../pulses.ts';
import type { Timing } from '../timing.ts';

export const pulse = question<Timing, PlannedPulses>({
  id: 'timing.pulse',
  title: 'Pulses that a task counts',
  asks: 'Does the task look often enough to see every pulse?',
  page: `Asked of every point with \`pulse_every\` that is no counter and no encoder: those count by themselves, and
\`racks.counting\` asks how fast. Demand: the longest time from one look at the signal to the next: the period of the task
that reads it (\`read_by\`) and by how much it may begin late, behind the period in which the network serves the station
that it hangs on; or the filter of the input, where that is longer. Capacity: how long the signal is there or away,
whichever is less (\`pulse_on\`), at the highest speed.

A look that is just shorter sees every pulse, if all goes as it is said. Rules of practice take a fifth to a tenth of the
period of the pulses, which \`show timing\` tells beside it: the reserve is that of a fifth, where the signal is there
for half of the time.`,
  advice: 'a task that looks more often, a hardware counter',
  subjects: ({ pulses }) => pulses,
  name: ({ name }) => name,
  path: ({ path }) => path,
  reserve: {
    share: 0.6,
    source: 'common-practice',
    because: 'a scan is a fifth of the period at most: two fifths of the half for which the signal is there',
  },
  demand: ({ needs }) => needs,
  capacity: ({ phase }) => phase,
  says: (demand, capacity, { looks, needs, reader }) =>
    looks === needs || (!(looks instanceof Missing || needs instanceof Missing) && looks.value === needs.value)
      ? `${demand} pass at most until task ${reader instanceof Missing ? '' : reader} looks again, it is there or away for ${capacity}`
      : `its filter lets nothing through under ${demand}, it is there or away for ${capacity}`,
});
