// Writes what was chosen into a machine file, under `planned`; all other characters of the file stay.
import { type PlannedValue, read, writePlanned } from '@layshaft/core';
import { type Io, UserError } from './io.ts';
import { readText, unwritable } from './read-file.ts';

export async function writeChosen(named: string, planned: readonly PlannedValue[], io: Io): Promise<void> {
  if (named === '-') throw new UserError('Standard input cannot be written to. Name a file.');
  const { file, text } = await readText(named, io);
  const found = writePlanned(read(text, { file }), planned);
  if (found.kind === 'refused') throw new UserError(`${found.message}. ${found.remedy}`);
  if (found.kind !== 'edits') throw new UserError(`${file} cannot take the parts under planned; write them by hand.`);
  try {
    await io.replaceFile(file, found.machine.parsed.source.text);
  } catch (error) {
    throw unwritable(file, error);
  }
  io.stdout.write(`Written into ${file}, under planned. Remove a line to choose again.\n`);
}
