// marks.caught, marks.window, marks.clear: is every mark seen, and nothing else taken for one?
import { question } from '../../checks/finding.ts';
import type { MarkDemand } from '../demand.ts';
import { about } from './budget.ts';

const asStated = { share: 0, source: 'judgement', because: 'a stated limit is taken as it is' } as const;

export const caught = question<readonly MarkDemand[], MarkDemand>({
  ...about,
  id: 'marks.caught',
  title: 'Every mark caught',
  asks: 'Is the input armed again before the next mark comes, at the highest speed?',
  page: `Asked where the file tells how the mark is captured. Demand: the closest that two marks may follow each other and
both be seen: the way of the web until the capture is armed again, and twice how far a mark may be from its place, since one
may be late and the next early. Capacity: the spacing of the marks.

An edge that is no mark (\`stray\`: a speck, another print that the window does not shut out) takes a capture too: with one
armed at a time the way from it to the mark behind it counts where it is less than the spacing; with more it counts among
the edges. A mark that is missing costs no other one, since the capture stays armed.

How far a mark may be from its place is \`wanders\`, or without it what the mark needs of its tolerance. Captures on one axis
share its units: with fewer armed at once than there are edges from mark to mark, each waits its turn. Both edges of a length
that one unit takes in turn must be as far apart as that too, so that the shorter of product and gap is the capacity then.

The time until it is armed again has all that must happen in it: the position is read, the program has seen it and arms anew.`,
  advice: 'two captures armed at once, a quicker task, a slower web',
  subjects: (marks) => marks.filter(({ captured }) => captured.caught !== undefined),
  path: ({ mark }) => `${mark.path}.capture`,
  reserve: { share: 0.2, source: 'judgement', because: 'programs are late now and then' },
  demand: ({ captured }) => captured.caught!.closest,
  capacity: ({ captured }) => captured.caught!.spacing,
  says: (demand, capacity) => `edges that are ${demand} apart are both seen, ${capacity} they are`,
});

export const window = question<readonly MarkDemand[], MarkDemand>({
  ...about,
  id: 'marks.window',
  title: 'Window of a mark',
  asks: 'Is the window wide enough that no mark falls out of it?',
  page: `Asked where the file gives a window. Demand: twice how far a mark may be from its expected place, and the way of the
web in the cycle in which a program opens and closes it; nothing of that where a latch does. Capacity: the width of the
window.

After a splice the mark is farther off than it wanders in production; until then the window must be wider, or opened by hand.`,
  advice: 'a wider window, one that a latch opens, less wandering',
  subjects: (marks) => marks.filter(({ captured }) => captured.window !== undefined),
  path: ({ mark }) => `${mark.path}.window.width`,
  reserve: { share: 0.2, source: 'judgement', because: 'a mark that is lost costs more than a wider window' },
  demand: ({ captured }) => captured.window!.needed,
  capacity: ({ captured }) => captured.window!.width,
  says: (demand, capacity) => `a window of ${demand} loses no mark, it is ${capacity} wide`,
});

export const clear = question<readonly MarkDemand[], MarkDemand>({
  ...about,
  id: 'marks.clear',
  title: 'Nothing else in the window',
  asks: 'Is the window narrow enough that no other print falls into it?',
  page: `Asked where the file says how far it is from the mark to the next print (\`window.clear\`). Demand: the width of the
window. Capacity: the widest window in which nothing but the mark can be: twice the way to the next print, less how far a mark
may be from its place and the way of the web in the cycle of the program that opens the window.`,
  advice: 'a narrower window, more clear web, one that a latch opens',
  subjects: (marks) => marks.filter(({ captured }) => captured.window?.allowed !== undefined),
  path: ({ mark }) => `${mark.path}.window.clear`,
  reserve: asStated,
  demand: ({ captured }) => captured.window!.width,
  capacity: ({ captured }) => captured.window!.allowed!,
  says: (demand, capacity) => `the window is ${demand} wide, up to ${capacity} nothing but the mark is in it`,
});
