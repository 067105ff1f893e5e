// layshaft simulate: plays every frame of a network under its noise, on all processors.
import {
  type Assessment,
  assess,
  explainIn,
  lackSentence,
  type NoiseKind,
  plural,
  resultOf,
  simulationOf,
  simulationView,
  type View,
} from '@layshaft/core';
import { exit, type Io, UserError } from './io.ts';
import { openDesign } from './open-design.ts';
import { printMeaning } from './print-meaning.ts';
import { runParts } from './run-parts.ts';
import { saveCapture } from './save-capture.ts';
import { savePicture } from './save-picture.ts';
import { type ShowOptions, textOfAll } from './show.ts';
import type { Style } from './style.ts';
import { lookOf } from './terminal.ts';

export interface SimulateOptions extends ShowOptions {
  readonly cycles: number;
  readonly seed: number;
  /** The network; it may be left out where there is only one. */
  readonly network?: string;
  readonly threads?: number;
  readonly skipAhead?: boolean;
  /** What of the noise is played. */
  readonly only?: NoiseKind;
  /** The address of a number whose working is printed instead. */
  readonly explain?: string;
  /** Shows long lists of a working whole. */
  readonly all?: boolean;
  /** A file for the frames of some cycles. */
  readonly capture?: string;
  /** The first cycle that is captured, and how many. */
  readonly from?: number;
  readonly for?: number;
  /** Whether a capture of that name is written over. */
  readonly overwrite?: boolean;
}

type Planned = Assessment['networks'][number];

/** Plays, prints and gives the exit status. Throws a UserError for what cannot be simulated as it was asked for. */
export async function simulate(file: string, options: SimulateOptions, io: Io): Promise<number> {
  const alone = (['from', 'for', 'overwrite'] as const).find((option) => options[option] !== undefined);
  if (options.capture === undefined && alone !== undefined)
    throw new UserError(`--${alone} goes with --capture, which is not given.`);
  const design = await openDesign(file, io);
  const planned = networkOf(assess(design).networks, options.network);
  const simulation = simulationAsked(planned, options);
  if ('lacks' in simulation) {
    io.stderr.write(`It cannot be simulated yet: ${lackSentence(simulation.lacks)}.\n`);
    return design.problems.length === 0 ? exit.unknown : exit.unusable;
  }
  if (options.capture !== undefined) {
    await saveCapture(simulation, { ...options, file: options.capture }, io);
    return design.problems.length === 0 ? exit.fine : unusable(file, design.problems.length, io);
  }
  const { results, isWhole } = await runParts(
    { task: 'simulation', chunks: simulation.chunks },
    { counts: 'cycles', count: options.cycles, threads: options.threads },
    io,
  );
  if (results.length === 0) {
    io.stderr.write('Stopped before the first part was done: there is nothing to print.\n');
    return exit.interrupted;
  }
  const view = simulationView(resultOf(simulation, results as Parameters<typeof resultOf>[1]));
  const views = [view];
  const look = lookOf(options, io);
  if (options.explain !== undefined)
    io.stdout.write(`${explained(view, options.explain, { look, design, lists: options.all ? 'whole' : 'short' })}\n`);
  else if (options.svg === undefined) io.stdout.write(textOfAll(views, options, look, sameAgain));
  else await savePicture(views, options.picture, options.svg, io);
  if (!isWhole) return exit.interrupted;
  return design.problems.length === 0 ? exit.fine : unusable(file, design.problems.length, io);
}

function unusable(file: string, problems: number, io: Io): number {
  io.stderr.write(`${file} has ${plural(problems, 'problem')}; layshaft check shows what and where.\n`);
  return exit.unusable;
}

function explained(view: View, address: string, style: Style): string {
  const working = explainIn(view, address);
  if (working === undefined)
    throw new UserError(`The simulation has no number at the address ${address}; --addresses shows those that it has.`);
  return printMeaning({ kind: 'number', working, findings: [] }, style).join('\n');
}

const sameAgain = 'The same cycles and seed give the same numbers again, on any number of threads.';

function networkOf(networks: readonly Planned[], name: string | undefined): Planned {
  const names = networks.map(({ network }) => network.name);
  if (networks.length === 0) throw new UserError('The file has no network: there is nothing to simulate.');
  const found = name === undefined ? networks : networks.filter(({ network }) => network.name === name);
  if (found.length === 1) return found[0]!;
  throw new UserError(
    name === undefined
      ? `The file has several networks: ${names.join(', ')}. Choose one with --network.`
      : `The file has no network ${name}; it has ${names.join(', ')}.`,
  );
}

function simulationAsked(planned: Planned, options: SimulateOptions): ReturnType<typeof simulationOf> {
  const { cycles, seed, skipAhead, only } = options;
  try {
    return simulationOf(planned, { cycles, seed, skipAhead, ...(only !== undefined && { kinds: [only] }) });
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    throw new UserError(`${error.message} ${hintFor(planned, options)}`);
  }
}

function hintFor({ network: { noise } }: Planned, { skipAhead, only }: SimulateOptions): string {
  if (!skipAhead) return '--skip-ahead jumps.';
  const hasBunches = noise !== undefined && (noise.sources.length > 0 || noise.twoState !== undefined);
  return hasBunches && only !== 'bit_errors' ? 'Add --only bit_errors.' : 'Leave --skip-ahead out.';
}
