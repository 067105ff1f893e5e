// layshaft choose: the parts of the catalogues that do for an axis whose motor, gear or drive is open.
import { assess, choicesFor, type Design, lackSentence, nearest, read, show, splice } from '@layshaft/core';
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
      `Nothing is open at ${address}. Write motor: open there, and gear: open as the last of its train.`,
    );
  if ('lacks' in found) throw new UserError(`Nothing can be chosen at ${address} yet: ${lackSentence(found.lacks)}.`);
  if (options.json)
    io.stdout.write(`${JSON.stringify({ layshaft_choice: choiceVersion, address, ...found }, null, 2)}\n`);
  else io.stdout.write(printed(design, address, options, io));
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

function printed(design: Design, address: string, options: ChooseOptions, io: Io): string {
  const look = lookOf(options, io);
  const [view] = show(assess(design), address.startsWith('axes.') ? address : `axes.${address}`);
  const tables = view!.later.filter(({ name }) => name === 'choices' || name === 'left_out').map(({ make }) => make());
  const kept = tables.filter(({ rows }) => rows.length > 0);
  const holds = tables[0]!.rows.length > 0;
  const say = (text: string): readonly string[] => wrap(text, look.columns);
  return `${paragraphs([
    ...(holds ? [] : [say('No combination of the catalogues holds every reserve.')]),
    ...kept.map((table) => printTable(table, look, false)),
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
  let written = text;
  for (const { path, part } of planned) {
    const found = splice(read(written, { file }), { path: `planned.${path}`, value: part, at: 'here' });
    if (found.kind === 'refused') throw new UserError(`${found.message}. ${found.remedy}`);
    if (found.kind !== 'edit') throw new UserError(`The file cannot take ${part} at ${path}; write it by hand.`);
    written = found.text;
  }
  try {
    await io.replaceFile(file, written);
  } catch (error) {
    throw unwritable(file, error);
  }
  io.stdout.write(`Written into ${file}, under planned. Remove a line to choose again.\n`);
}
