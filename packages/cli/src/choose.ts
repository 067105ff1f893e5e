// layshaft choose: the parts of the catalogues that do for an axis whose motor, gear or drive is open.
import {
  type ChoiceOfParts,
  choicesFor,
  type Design,
  lackSentence,
  losersTable,
  nearest,
  optionsTable,
  read,
  spliceEach,
} from '@layshaft/core';
import { exit, type Io, UserError } from './io.ts';
import { paragraphs, wrap } from './layout.ts';
import { openDesign } from './open-design.ts';
import { readText, unwritable } from './read-file.ts';
import { printTable } from './show.ts';
import { type LookOptions, lookOf } from './terminal.ts';

export interface ChooseOptions extends LookOptions {
  readonly json?: boolean;
  /** Writes the first of them into the file, under `planned`. */
  readonly write?: boolean;
}

/** The version of what `--json` prints. */
export const choiceVersion = 1;

/** Prints the choice and gives the exit status: 1 where nothing holds. Throws a UserError where nothing is to be chosen. */
export async function choose(file: string, address: string, options: ChooseOptions, io: Io): Promise<number> {
  const design = await openDesign(file, io);
  const name = axisAt(address, design);
  const found = choicesFor(design, name);
  if (found === undefined)
    throw new UserError(
      `Nothing is open at ${address}. Write motor: open or drive: open there, or gear: open as the last of its train.`,
    );
  if ('lacks' in found) throw new UserError(`Nothing can be chosen at ${address} yet: ${lackSentence(found.lacks)}.`);
  if (options.json)
    io.stdout.write(`${JSON.stringify({ layshaft_choice: choiceVersion, address, ...found }, null, 2)}\n`);
  else io.stdout.write(printed(found, options, io));
  const [best] = found.options;
  if (best === undefined) return exit.fails;
  if (options.write) await write(file, best.planned, io);
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

/** Each part stands under `planned` by the path that is open; all other characters of the file stay. */
async function write(
  named: string,
  planned: readonly { readonly path: string; readonly part: string }[],
  io: Io,
): Promise<void> {
  if (named === '-') throw new UserError('Standard input cannot be written to. Name a file.');
  const { file, text } = await readText(named, io);
  const found = spliceEach(
    read(text, { file }),
    planned.map(({ path, part }) => ({ path: `planned.${path}`, value: part, at: 'here' as const })),
  );
  if (found.kind === 'refused') throw new UserError(`${found.message}. ${found.remedy}`);
  if (found.kind !== 'edits') throw new UserError(`${file} cannot take the parts under planned; write them by hand.`);
  try {
    await io.replaceFile(file, found.machine.parsed.source.text);
  } catch (error) {
    throw unwritable(file, error);
  }
  io.stdout.write(`Written into ${file}, under planned. Remove a line to choose again.\n`);
}
