// marks.run_on: how much web runs before it stands when marks are lost?
import { question } from '../../checks/finding.ts';
import type { MarkDemand } from '../demand.ts';
import { about } from './budget.ts';

export const caution =
  'an estimate for planning, not a safety distance: where the movement can reach somebody, the risk assessment, measurements on the machine, local codes and licensed practice decide';

export const runOn = question<readonly MarkDemand[], MarkDemand>({
  ...about,
  id: 'marks.run_on',
  title: 'Web after a lost mark',
  asks: 'Does the web stand soon enough when marks are lost?',
  page: `Asked where \`lost.allowed\` is given. Demand, from the last good mark on, since all behind it may be scrap: the way
to the first mark that is lost, the web that runs until so many in a row are missed, the last window has closed and a program
has looked, then the stop: the way of a stop of the line, or reaction at full speed and an even deceleration. Capacity:
\`lost.allowed\`.

Caution: ${caution}. The time of a safety function, and a stop measured on the machine without power, are other figures.`,
  advice: 'an alarm after fewer marks, a harder stop, a slower web',
  subjects: (marks) => marks.filter(({ captured }) => captured.lost?.allowed !== undefined),
  path: ({ mark }) => `${mark.path}.lost`,
  reserve: { share: 0.2, source: 'judgement', because: 'stops are longer than planned where torque or grip lacks' },
  demand: ({ captured }) => captured.lost!.runOn,
  capacity: ({ captured }) => captured.lost!.allowed!,
  says: (demand, capacity) => `${demand} of web run from the last good mark on, ${capacity} are allowed; ${caution}`,
});
