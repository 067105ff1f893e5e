// Which racks and modules carry the points of a machine, and where each point sits: the tasks of the racks domain handed to a
// solver, one location after the other.

import { lackSentence } from '../checks/finding.ts';
import { keptFree } from '../machine/reserves.ts';
import type { Design } from '../machine/resolve.ts';
import type { Solve, SolveOptions } from '../racks/calc/linear-model.ts';
import { rackChecks } from '../racks/checks/all.ts';
import { type OneMore, partsIn } from '../racks/choice-tables.ts';
import type { TaskOfAll } from '../racks/choice-words.ts';
import { type RackAnswer, type RackReserve, type RackTask, rackTask, withOneMore } from '../racks/choose.ts';
import { offersOf, type Preference, type RackOffers } from '../racks/offers.ts';
import { planRacks } from '../racks/planned.ts';
import { Missing, unique } from '../working/missing.ts';

export interface RackChoice {
  readonly location: string;
  /** Missing where what is needed is not known. */
  readonly answer: RackAnswer | Missing;
}

export interface RackChoices {
  /** None where nothing is open and every point has a channel. */
  readonly choices: readonly RackChoice[];
  /** What is written under `planned`; nothing where a location has no answer. */
  readonly planned: readonly { readonly path: string; readonly value: string }[];
  /** Parts of the catalogues that do not say all that is weighed. */
  readonly leftOut: readonly string[];
}

export interface RackWishes extends SolveOptions {
  readonly prefer?: Preference | undefined;
  /** Is told of each task before the solver gets it. */
  readonly onTask?: ((task: TaskOfAll) => void) | undefined;
}

/** Rejects with the reason of the signal. */
export async function chooseRacks(design: Design, solve: Solve, wishes: RackWishes = {}): Promise<RackChoices> {
  const offers = offersOf(design.offered, wishes.prefer ?? 'cost');
  const tasks = tasksOf(design, offers);
  const choices: RackChoice[] = [];
  for (const [at, { name, task }] of tasks.entries()) {
    const of = { location: name, nth: at + 1, all: tasks.length };
    const answer = task instanceof Missing || 'why' in task ? task : await solved(task, solve, wishes, of);
    choices.push({ location: name, answer });
  }
  const written = choices.flatMap(({ answer }) => ('planned' in answer ? answer.planned : []));
  const planned = design.machine.racks.open ? asWhole(written, choices) : written;
  return { choices, planned, leftOut: offers.leftOut };
}

/** One for each location at which something is left to choose. */
function tasksOf(design: Design, offers: RackOffers) {
  return planRacks(design.racks).locations.flatMap((planned) => {
    const task = rackTask(planned, pointsOf(design), offers, rackReserve(design));
    return task === undefined ? [] : [{ name: planned.location.name, task }];
  });
}

const pointsOf = ({ racks: { locations } }: Design) => locations.flatMap(({ points }) => points);

/** What one more point of each kind would take at each location, beside a choice. Rejects with the reason of the signal. */
export async function oneMoreOfEach(
  design: Design,
  { choices }: RackChoices,
  solve: Solve,
  wishes: RackWishes = {},
): Promise<readonly OneMore[]> {
  const offers = offersOf(design.offered, wishes.prefer ?? 'cost');
  const found: OneMore[] = [];
  const tries = planRacks(design.racks).locations.flatMap((planned) => {
    const { name } = planned.location;
    const base = choices.find(({ location }) => location === name)?.answer;
    if (base !== undefined && (base instanceof Missing || base.kind !== 'chosen')) return [];
    return planned.kinds.map(({ kind }) => ({ planned, name, base, kind }));
  });
  for (const [at, { planned, name, base, kind }] of tries.entries()) {
    const task = rackTask(withOneMore(planned, kind), pointsOf(design), offers, rackReserve(design));
    if (task === undefined || task instanceof Missing || 'why' in task) continue;
    const answer = await solved(task, solve, wishes, { location: name, kind, nth: at + 1, all: tries.length });
    const [before, after] = [base === undefined ? [] : partsIn(base), answer.kind === 'chosen' ? partsIn(answer) : []];
    found.push({
      location: name,
      kind,
      more: answer.kind === 'chosen' ? answer.weight - (base?.weight ?? 0) : undefined,
      timeOver: answer.kind === 'none found',
      isProven: answer.kind === 'chosen' && answer.isBest && (base?.isBest ?? true),
      adds: base === undefined ? addedTo(answer) : without(after, before),
      drops: answer.kind === 'chosen' ? without(before, after) : [],
      needs: answer.kind === 'conflict' ? answer.needs : [],
    });
  }
  return found;
}

/** Why there is no choice at all, in a sentence; nothing where there is one, or something else is to be told of a location. */
export function whyNoChoice({ machine, racks: { locations } }: Design, { choices }: RackChoices): string | undefined {
  const lacks = choices.flatMap(({ answer }) => (answer instanceof Missing ? answer.lacks : []));
  if (lacks.length > 0 && choices.every(({ answer }) => answer instanceof Missing))
    return `Nothing can be chosen at racks yet: ${lackSentence(unique(lacks))}.`;
  if (choices.length > 0) return undefined;
  if (machine.racks.open && locations.length === 0)
    return 'The file has no points at the controller or at a station yet, for which racks could be chosen.';
  return locations.length === 0
    ? 'The file has no racks. Write racks: open to have them chosen for its points.'
    : 'Nothing is open in racks, and every point has a channel. Write open in the place of what shall be chosen, and remove what was chosen before from planned.';
}

/** Where nothing was open, racks that are there are no news. */
const addedTo = (answer: RackAnswer): readonly string[] =>
  answer.kind === 'chosen' ? answer.layout.modules.map(({ part }) => part) : [];

/** What of one list is not in the other, counted. */
function without(all: readonly string[], taken: readonly string[]): readonly string[] {
  const left = [...taken];
  return all.filter((each) => {
    const at = left.indexOf(each);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
}

async function solved(task: RackTask, solve: Solve, wishes: RackWishes, of: TaskOfAll): Promise<RackAnswer> {
  wishes.onTask?.(of);
  const answer = task.answer(await solve(task.model, wishes));
  return 'model' in answer ? solved(answer, solve, wishes, { ...of, exact: true }) : answer;
}

/** Where all racks are open they are written as one; a location for which nothing was found stays open. */
function asWhole(written: RackChoices['planned'], choices: RackChoices['choices']): RackChoices['planned'] {
  const racks = written.filter(({ path }) => path.startsWith('racks.'));
  if (racks.length === 0) return written;
  const all = [
    ...racks.map(({ path, value }) => `${path.slice('racks.'.length)}: ${value}`),
    ...choices.flatMap(({ location, answer }) => ('planned' in answer ? [] : [`${location}: open`])),
  ].join(', ');
  return [{ path: 'racks', value: `{ ${all} }` }, ...written.filter(({ path }) => !path.startsWith('racks.'))];
}

/** What is kept free of places and supply. */
function rackReserve({ machine }: Design): RackReserve {
  const share = keptFree(machine.reserves, rackChecks);
  return { places: share('racks.places'), supply: share('racks.supply') };
}
