// layshaft choose: the parts of the catalogues that do for an axis whose motor, gear or drive is open; for racks, see
// choose-racks.ts.
import {
  type ChoiceOfParts,
  choicesFor,
  type Design,
  lackSentence,
  losersTable,
  nearest,
  optionsTable,
} from '@layshaft/core';
import { type RackOptions, racks } from './choose-racks.ts';
import { exit, type Io, UserError } from './io.ts';
import { paragraphs, wrap } from './layout.ts';
import { openDesign } from './open-design.ts';
import { printTable } from './show.ts';
import { lookOf } from './terminal.ts';
import { writeChosen } from './write-chosen.ts';

export interface ChooseOptions extends RackOptions {
  readonly json?: boolean;
}

/** The version of what `--json` prints. */
export const choiceVersion = 1;

/** Prints the choice and gives the exit status: 1 where nothing holds. Throws a UserError where nothing is to be chosen. */
export async function choose(file: string, address: string, options: ChooseOptions, io: Io): Promise<number> {
  if (address === 'racks') return racks(file, options, io);
  const design = await openDesign(file, io);
  const name = axisAt(address, design);
  const found = choicesFor(design, name);
  if (found === undefined)
    throw new UserError(
      `Nothing is open at ${address}. Write motor: open or drive: open there, or gear: open as the last of its train. What was chosen before stands under planned: remove its lines to choose again.`,
    );
  if ('lacks' in found) throw new UserError(`Nothing can be chosen at ${address} yet: ${lackSentence(found.lacks)}.`);
  if (options.json)
    io.stdout.write(`${JSON.stringify({ layshaft_choice: choiceVersion, address, ...found }, null, 2)}\n`);
  else io.stdout.write(printed(found, options, io));
  const [best] = found.options;
  if (best === undefined) return exit.fails;
  if (options.write)
    await writeChosen(
      file,
      best.planned.map(({ path, part }) => ({ path, value: part })),
      io,
    );
  return design.problems.length === 0 ? exit.fine : exit.unusable;
}

function axisAt(address: string, { axes }: Design): string {
  const names = axes.map(({ name }) => name);
  const name = address.replace(/^axes\./, '');
  if (names.includes(name)) return name;
  if (names.length === 0) throw new UserError('No axis of the file has a motion, a train or a motor yet.');
  throw new UserError(`Nothing is to be chosen at ${address}. Did you mean axes.${nearest(name, names) ?? names[0]}?`);
}

function printed(choice: ChoiceOfParts, options: ChooseOptions, io: Io): string {
  const look = lookOf(options, io);
  const holds = choice.options.length > 0;
  const say = (text: string): readonly string[] => wrap(text, look.columns);
  const tables = [optionsTable(choice), losersTable(choice)].filter(({ rows }) => rows.length > 0);
  return `${paragraphs([
    ...(holds ? [] : [say('No combination of the catalogues holds every reserve.')]),
    ...tables.map((table) => printTable(table, look, false)),
    ...(holds && !options.write ? [say('--write takes the first of them into the file.')] : []),
  ]).join('\n')}\n`;
}
