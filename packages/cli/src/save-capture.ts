// A window of a simulation as a capture file.
import { type Capture, captureFrom, plural, type Simulation } from '@layshaft/core';
import { type Io, UserError } from './io.ts';
import { codeOf, unwritable } from './read-file.ts';

export interface CaptureOptions {
  readonly file: string;
  readonly from?: number;
  readonly for?: number;
  readonly overwrite?: boolean;
}

/** Throws a UserError for a window that cannot be captured, and a file that cannot be written or is there. */
export async function saveCapture(simulation: Simulation, options: CaptureOptions, io: Io): Promise<void> {
  const { file, overwrite } = options;
  if (!/\.pcapng$/i.test(file))
    throw new UserError(`A capture goes into a file whose name ends with .pcapng, not into ${file}.`);
  const capture = captured(simulation, options);
  try {
    await (overwrite ? io.writeFile : io.writeNew)(file, capture.file);
  } catch (error) {
    if (codeOf(error) !== 'EEXIST') throw unwritable(file, error);
    throw new UserError(`${file} is there already and stays as it is. Give another name, or add --overwrite.`);
  }
  io.stdout.write(`${file} is written: ${capture.says}, ${plural(capture.frames, 'frame')}.\n`);
}

function captured(simulation: Simulation, { from, for: cycles }: CaptureOptions): Capture {
  try {
    return captureFrom(simulation, { from, cycles });
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new UserError(`${error.message}${simulation.skipAhead ? ' Leave --skip-ahead out.' : ''}`);
  }
}
