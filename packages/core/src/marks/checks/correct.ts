// marks.stable, marks.settling: does register control come to rest, and soon enough?
import { question } from '../../checks/finding.ts';
import { missing } from '../../working/missing.ts';
import type { MarkDemand } from '../demand.ts';
import { about } from './budget.ts';

export const stable = question<readonly MarkDemand[], MarkDemand>({
  ...about,
  id: 'marks.stable',
  title: 'Gain of a correction',
  asks: 'Is the correction gentle enough for its dead time?',
  page: `Asked where a mark is corrected. Demand: the share of an error that is corrected in each repeat. Capacity: the share
from which on the correction swings without end: 2·sin(π/(2·(2·d + 1))) with a dead time of d repeats (Levin and May, 1976, for
the equation z^(d+1) − z^d + K), less with a mean over several repeats.

The dead time is the number of repeats that pass before the effect of a correction is seen, the very next one not counted: as
the file says it, or from the way between the point of correction and the eye and the time until the correction acts.`,
  advice: 'a smaller share, an eye nearer to the tool, a shorter mean',
  subjects: (marks) => marks.filter(({ loop }) => loop !== undefined),
  path: ({ mark }) => `${mark.path}.correct.share`,
  reserve: { share: 0.4, source: 'judgement', because: 'near the limit an error swings through many repeats' },
  demand: ({ loop }) => loop!.gain,
  capacity: ({ loop }) => loop!.limit,
  says: (demand, capacity) =>
    `${demand} of an error is corrected in each repeat, from ${capacity} on it swings without end`,
});

export const settling = question<readonly MarkDemand[], MarkDemand>({
  ...about,
  id: 'marks.settling',
  title: 'Settling after a splice',
  asks: 'Is the mark within its tolerance soon enough after a splice?',
  page: `Asked where \`correct.settles_within\` is given. Demand: the repeats until the error that a splice brings stays
within the tolerance, without scatter; missed marks make the share smaller by as much, in the mean. Capacity:
\`correct.settles_within\`.`,
  advice: 'a larger share, a shorter dead time, a better splice',
  subjects: (marks) => marks.filter(({ loop }) => loop?.said.settles_within !== undefined),
  path: ({ mark }) => `${mark.path}.correct.settles_within`,
  reserve: { share: 0.2, source: 'judgement', because: 'scatter and missed marks make it longer now and then' },
  demand: ({ loop, mark }) =>
    loop!.settling?.repeats ?? missing(`${mark.path}.correct.splice`, 'absent', 'a length', '3 mm'),
  capacity: ({ loop }) => loop!.said.settles_within!,
  says: (demand, capacity) => `after ${demand} repeats the splice is within the tolerance, ${capacity} are allowed`,
});
