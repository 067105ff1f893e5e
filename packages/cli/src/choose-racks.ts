// layshaft choose FILE racks: racks, supplies and modules that carry all points, and a channel for each point that has none.
import {
  chooseRacks,
  choosingSays,
  chosenRacksTable,
  conflictsOf,
  leftOutSays,
  notFoundSays,
  oneMoreOfEach,
  oneMoreTable,
  type Preference,
  placedSays,
  provenSays,
  type RackChoices,
  type RackWishes,
  type TaskOfAll,
  whyNoChoice,
} from '@layshaft/core';
import { exit, type Io, UserError } from './io.ts';
import { paragraphs, wrap } from './layout.ts';
import { openDesign } from './open-design.ts';
import { progressLine } from './progress-line.ts';
import { printTable } from './show.ts';
import { type LookOptions, lookOf } from './terminal.ts';
import { writeChosen } from './write-chosen.ts';

export interface RackOptions extends LookOptions {
  readonly json?: boolean;
  /** Writes the choice into the file, under `planned`. */
  readonly write?: boolean;
  readonly prefer?: Preference;
  /** In seconds, for each location; the best by then is taken, with its gap. */
  readonly time?: number;
  /** Tells what one more point of each kind would take. */
  readonly oneMore?: boolean;
}

/** The version of what `--json` prints. */
export const rackChoiceVersion = 1;

/**
 * Gives the exit status: 1 where a location has no racks. Ctrl-C ends the search: the best so far is told, with its gap, and nothing
 * is written. Throws a UserError where nothing is to be chosen.
 */
export async function racks(file: string, options: RackOptions, io: Io): Promise<number> {
  const { prefer = 'cost', time: most_s } = options;
  const design = await openDesign(file, io);
  const enough = new AbortController();
  void io.untilInterrupted().then(() => enough.abort());
  const progress = progressLine(io);
  const wishes = wishesOf({ prefer, most_s, enough: enough.signal }, progress.show);
  const found = await chooseRacks(design, io.solve, wishes).finally(progress.clear);
  const why = whyNoChoice(design, found);
  if (why !== undefined && (found.choices.length > 0 || options.oneMore !== true)) throw new UserError(why);
  const more = options.oneMore ? await oneMoreOfEach(design, found, io.solve, wishes).finally(progress.clear) : [];
  const conflicts = conflictsOf(found.choices);
  const isStopped = enough.signal.aborted;
  if (options.json)
    io.stdout.write(
      `${JSON.stringify({ layshaft_rack_choice: rackChoiceVersion, prefer, ...dataOf(found), one_more: more }, null, 2)}\n`,
    );
  else io.stdout.write(printed(found, { more, conflicts, prefer, isStopped }, options, io));
  if (conflicts.length > 0) return exit.fails;
  if (isStopped) return exit.interrupted;
  if (options.write && found.planned.length > 0) await writeChosen(file, found.planned, io);
  if (notFoundSays(found.choices).length > 0) return exit.fails;
  return design.problems.length === 0 ? exit.fine : exit.unusable;
}

/** With a line that tells how far it is. */
function wishesOf(
  wishes: Omit<RackWishes, 'prefer'> & { prefer: Preference },
  tell: (says: string) => void,
): RackWishes {
  let task: TaskOfAll | undefined;
  const say = (best?: number, bound?: number): void => task && tell(choosingSays(task, wishes.prefer, best, bound));
  return {
    ...wishes,
    onTask: (next) => {
      task = next;
      say();
    },
    onProgress: say,
  };
}

const dataOf = ({ choices, planned, leftOut }: RackChoices) => ({
  choices: choices.map(({ location, answer }) =>
    'kind' in answer && answer.kind === 'chosen'
      ? {
          location,
          weight: answer.weight,
          bound: answer.bound,
          is_best: answer.isBest,
          racks: answer.layout.racks.filter((each) => each !== undefined),
          modules: answer.layout.modules,
        }
      : { location, ...answer },
  ),
  planned,
  left_out: leftOut,
});

interface Rest {
  readonly more: Parameters<typeof oneMoreTable>[0];
  readonly conflicts: readonly string[];
  readonly prefer: Preference;
  readonly isStopped: boolean;
}

function printed(found: RackChoices, rest: Rest, options: RackOptions, io: Io): string {
  const { more, conflicts, prefer, isStopped } = rest;
  const look = lookOf(options, io);
  const say = (text: string): readonly string[] => wrap(text, look.columns);
  const tables = [chosenRacksTable(found.choices, prefer), ...(options.oneMore ? [oneMoreTable(more, prefer)] : [])];
  const canTake = conflicts.length === 0 && found.planned.length > 0;
  const writes = options.write && !isStopped;
  return `${paragraphs([
    ...conflicts.map(say),
    ...tables.filter(({ rows }) => rows.length > 0).map((table) => printTable(table, look, false)),
    ...provenSays(found.choices, prefer).map(say),
    ...notFoundSays(found.choices).map(say),
    ...leftOutSays(found.leftOut).map(say),
    ...(canTake ? [say(placedSays(found.planned))] : []),
    ...(canTake && !writes ? [say(toWrite(isStopped))] : []),
  ]).join('\n')}\n`;
}

const toWrite = (isStopped: boolean): string =>
  isStopped
    ? 'Stopped: nothing is written. --time 60 --write takes the best of a minute into the file.'
    : '--write takes this into the file.';
