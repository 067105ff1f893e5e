// Writes what was chosen, or points of a table, into a machine file; all other characters of the file stay.
import { type Machine, type PlannedValue, writePlanned } from '@layshaft/core';
import { type Io, UserError } from './io.ts';
import { openMachine } from './open-design.ts';
import { unwritable } from './read-file.ts';

export async function writeChosen(named: string, planned: readonly PlannedValue[], io: Io): Promise<void> {
  const file = await writeInto(named, 'planned', (machine) => writePlanned(machine, planned), io);
  io.stdout.write(`Written into ${file}, under planned. Remove a line to choose again.\n`);
}

/** Writes a machine file as `change` has it, and gives its name; `section` is what is said to be written in. */
export async function writeInto(
  named: string,
  section: string,
  change: (machine: Machine) => ReturnType<typeof writePlanned>,
  io: Io,
): Promise<string> {
  if (named === '-') throw new UserError('Standard input cannot be written to. Name a file.');
  const machine = await openMachine(named, io);
  const { file } = machine;
  const found = change(machine);
  if (found.kind === 'refused') throw new UserError(`${found.message}. ${found.remedy}`);
  if (found.kind !== 'edits') throw new UserError(`${file} cannot take them under ${section}; write them by hand.`);
  try {
    await io.replaceFile(file, found.machine.parsed.source.text);
  } catch (error) {
    throw unwritable(file, error);
  }
  return file;
}
