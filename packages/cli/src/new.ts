// layshaft new: a machine file to start from.
import { dirname, join } from 'node:path';
import { starter } from '@layshaft/catalogue';
import { exit, type Io, UserError } from './io.ts';
import { codeOf, unwritable } from './read-file.ts';

/** Writes the starter; never over a file that is there. `-` prints it. */
export async function start(named: string, io: Io): Promise<number> {
  if (named === '-') {
    io.stdout.write(starter);
    return exit.fine;
  }
  try {
    await io.writeNew(named, starter);
  } catch (error) {
    if (codeOf(error) !== 'EEXIST') throw unwritable(named, error);
    throw new UserError(
      `${named} is there already and stays as it is. Give another name: layshaft new ${join(dirname(named), 'another.yaml')}`,
    );
  }
  io.stdout.write(
    `${named} is written. Next: layshaft check ${named}\nChange it in any editor; layshaft schema helps an editor to complete keys.\n`,
  );
  return exit.fine;
}
