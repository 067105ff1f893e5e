// layshaft schema: the JSON Schema of the machine file, for editors.
import { machineSchema } from '@layshaft/core';
import { exit, type Io } from './io.ts';

export function schema(io: Io): number {
  io.stdout.write(`${JSON.stringify(machineSchema(), null, 2)}\n`);
  return exit.fine;
}
