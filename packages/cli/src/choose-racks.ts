// layshaft choose FILE racks: racks, supplies and modules that carry all points, and a channel for each point that has none.
import {
  chooseRacks,
  chosenRacksTable,
  conflictsOf,
  leftOutSays,
  oneMoreOfEach,
  oneMoreTable,
  placedSays,
  type RackChoices,
  whyNoChoice,
} from '@layshaft/core';
import { exit, type Io, UserError } from './io.ts';
import { paragraphs, wrap } from './layout.ts';
import { openDesign } from './open-design.ts';
import { printTable } from './show.ts';
import { type LookOptions, lookOf } from './terminal.ts';
import { writeChosen } from './write-chosen.ts';

export interface RackOptions extends LookOptions {
  readonly json?: boolean;
  /** Writes the choice into the file, under `planned`. */
  readonly write?: boolean;
  readonly prefer?: 'cost' | 'width';
  /** Tells what one more point of each kind would take. */
  readonly oneMore?: boolean;
}

/** The version of what `--json` prints. */
export const rackChoiceVersion = 1;

/** Gives the exit status: 1 where needs stand against each other. Throws a UserError where nothing is to be chosen. */
export async function racks(file: string, options: RackOptions, io: Io): Promise<number> {
  const { prefer = 'cost' } = options;
  const design = await openDesign(file, io);
  const found = await chooseRacks(design, io.solve, { prefer });
  const why = whyNoChoice(design, found);
  if (why !== undefined && (found.choices.length > 0 || options.oneMore !== true)) throw new UserError(why);
  const more = options.oneMore ? await oneMoreOfEach(design, found, io.solve, { prefer }) : [];
  const conflicts = conflictsOf(found.choices);
  if (options.json)
    io.stdout.write(
      `${JSON.stringify({ layshaft_rack_choice: rackChoiceVersion, prefer, ...dataOf(found), one_more: more }, null, 2)}\n`,
    );
  else io.stdout.write(printed(found, { more, conflicts, prefer }, options, io));
  if (conflicts.length > 0) return exit.fails;
  if (options.write && found.planned.length > 0) await writeChosen(file, found.planned, io);
  return design.problems.length === 0 ? exit.fine : exit.unusable;
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
  readonly prefer: 'cost' | 'width';
}

function printed(found: RackChoices, { more, conflicts, prefer }: Rest, options: RackOptions, io: Io): string {
  const look = lookOf(options, io);
  const say = (text: string): readonly string[] => wrap(text, look.columns);
  const tables = [chosenRacksTable(found.choices, prefer), ...(options.oneMore ? [oneMoreTable(more, prefer)] : [])];
  return `${paragraphs([
    ...conflicts.map(say),
    ...tables.filter(({ rows }) => rows.length > 0).map((table) => printTable(table, look, false)),
    ...leftOutSays(found.leftOut).map(say),
    ...(conflicts.length > 0 || found.planned.length === 0 ? [] : [say(placedSays(found.planned))]),
    ...(conflicts.length > 0 || found.planned.length === 0 || options.write
      ? []
      : [say('--write takes this into the file.')]),
  ]).join('\n')}\n`;
}
