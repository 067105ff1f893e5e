// timing.seen: is the delay that was seen on the machine no longer than the one that follows from the file?
import { question } from '../../checks/finding.ts';
import type { PlannedChain } from '../chains.ts';
import type { Timing } from '../timing.ts';

export const seen = question<Timing, PlannedChain>({
  id: 'timing.seen',
  title: 'Delay as it was seen',
  asks: 'Is the delay that was seen on the machine one that the file knows of?',
  page: `Asked of every chain with \`seen\`: where its effect lies on the product at two speeds. Demand: the latency that makes it
move, the way between both over the difference of the speeds. Capacity: the longest delay that follows from the file; of a
chain with a lead, what the lead leaves of it. A delay that is longer has a cause that is not in the file: a filter, a buffer,
a valve that has grown slow.`,
  advice: 'the link that the file lacks, or that has grown slower',
  subjects: ({ chains }) => chains.filter((each) => each.seen !== undefined),
  name: ({ name }) => name,
  path: ({ path }) => `${path}.seen`,
  reserve: { share: 0, source: 'judgement', because: 'the longest delay of the file is the worst already' },
  demand: (chain) => chain.seen!,
  capacity: ({ counts }) => counts,
  says: (demand, capacity, { section }) =>
    `a delay of ${demand} was seen, ${section.lead === 'constant_part' ? 'behind its lead ' : ''}${capacity} at most follow from the file`,
});
