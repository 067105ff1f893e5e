// The commands and options of layshaft, and what the exit status says.
import { noiseKinds } from '@layshaft/core';
import { Command, CommanderError, InvalidArgumentError, Option } from 'commander';
import { type CheckOptions, check } from './check.ts';
import { type ChooseOptions, choose } from './choose.ts';
import { type ExplainOptions, explain } from './explain.ts';
import {
  addressHelp,
  barHelp,
  catalogueHelp,
  openHelp,
  pointsHelp,
  programHelp,
  showHelp,
  simulateHelp,
} from './help.ts';
import { exit, type Io, UserError } from './io.ts';
import { start } from './new.ts';
import { type OpenOptions, openSheet } from './open.ts';
import { type PartsOptions, parts } from './parts.ts';
import { type PointsOptions, points } from './points.ts';
import { schema } from './schema.ts';
import { type ShowOptions, show } from './show.ts';
import { type SimulateOptions, simulate } from './simulate.ts';
import { leastColumns } from './terminal.ts';
import { type TrialsOptions, trials } from './trials.ts';

/** The version of the package. */
export const version = '0.1.0';

/** Runs the command that `argv` names (without program and script) and gives the exit status. */
export async function run(argv: readonly string[], io: Io): Promise<number> {
  let status: number = exit.fine;
  const program = configured(io);
  program
    .command('check')
    .summary('what is needed against what is there, tightest first')
    .description('Checks a machine file: what is needed against what is there, tightest first.')
    .argument('<FILE>', 'a machine file, a folder with machine.yaml in it, or - for standard input')
    .option('--json', 'print the report as data')
    .addOption(
      new Option('--fail-on <verdict>', 'the mildest verdict for which the exit status is 1')
        .choices(['fails', 'thin'])
        .default('fails'),
    )
    .addHelpText('after', `\n${barHelp}`)
    .action(async (file: string, options: CheckOptions) => {
      status = await check(file, { ...program.opts(), ...options }, io);
    });
  program
    .command('explain')
    .summary('where a number comes from, down to what is given')
    .description(
      'Explains a number: its formula, its values, and where each of them comes from, down to what is given.',
    )
    .argument('<FILE>', 'a machine file, a folder with machine.yaml in it, or - for standard input')
    .argument('<ADDRESS>', 'the address of a finding or a number, a path of the file, or the start of several')
    .option('--json', 'print the working as data')
    .option('--all', 'show long lists whole')
    .addHelpText('after', `\n${addressHelp}`)
    .action(async (file: string, address: string, options: ExplainOptions) => {
      status = await explain(file, address, { ...program.opts(), ...options }, io);
    });
  program
    .command('show')
    .summary('the pictures and tables of a network, an axis, a task, a mark, a rack …')
    .description('Shows what a network, an axis, a task, a mark or a rack is made of, and how much more it can carry.')
    .argument('<FILE>', 'a machine file, a folder with machine.yaml in it, or - for standard input')
    .argument('[ADDRESS]', 'what to show, see below; without it, all networks, or all there is where there are none')
    .option('--addresses', 'under each row, the addresses that layshaft explain takes')
    .option(...tableOption)
    .addOption(pictureOption())
    .addOption(svgOption())
    .addOption(csvOption('the tables'))
    .option('--json', 'print pictures and tables as data')
    .addHelpText('after', `\n${showHelp}`)
    .action(async (file: string, address: string | undefined, options: ShowOptions) => {
      status = await show(file, address, { ...program.opts(), ...options }, io);
    });
  program
    .command('choose')
    .summary('the parts that do for what is open: motor, gear and drive of an axis, racks with their modules')
    .description(
      'Weighs every combination of the catalogues for what an axis leaves open: its motor, its drive, the last gear of its train. Of racks it finds those that carry all points with the wanted spare, and a channel for each point that has none; Ctrl-C ends the search and tells the best so far.',
    )
    .argument('<FILE>', 'a machine file, a folder with machine.yaml in it, or - for standard input')
    .argument('<ADDRESS>', 'axes.NAME, an axis whose motor, drive or last gear is open; or racks')
    .option('--write', 'write the first of them into the file, under planned')
    .addOption(
      new Option('--prefer <what>', 'of racks: make this as small as can be')
        .choices(['cost', 'width'])
        .default('cost'),
    )
    .option(
      '--time <seconds>',
      'of racks: how long to look for something better, for each location; no limit unless said',
      seconds,
    )
    .option('--one-more', 'of racks: tell what one more point of each kind would take')
    .option('--json', 'print the choice as data')
    .action(async (file: string, address: string, options: ChooseOptions) => {
      status = await choose(file, address, { ...program.opts(), ...options }, io);
    });
  program
    .command('simulate')
    .summary('every frame of a network under its noise, played on all processors')
    .description(
      'Plays every frame of a network, hop by hop, under the noise that the file says of it: what each station loses, beside the closed forms, how often it trips, and what was on the wire before. Ctrl+C stops it and prints what was done.',
    )
    .argument('<FILE>', 'a machine file, a folder with machine.yaml in it, or - for standard input')
    .option('--cycles <number>', 'how many cycles of the network, such as 1e8', cycleNumber, 1e6)
    .option('--seed <number>', 'what the random numbers begin with', seedNumber, 1)
    .option('--network <name>', 'the network, where the file has several')
    .option('--threads <number>', 'how many at once; as many as the computer has processors', threadNumber)
    .option('--skip-ahead', 'jump over cycles without an error, for errors that are rare; random bit errors alone')
    .addOption(new Option('--only <kind>', 'play this of the noise alone').choices(noiseKinds))
    .option('--addresses', 'under each row, the addresses of its numbers')
    .option(...tableOption)
    .addOption(pictureOption())
    .addOption(svgOption())
    .addOption(csvOption('the tables'))
    .option('--json', 'print pictures and tables as data')
    .addOption(
      new Option('--explain <address>', 'only where this number comes from').conflicts([
        'table',
        'picture',
        'svg',
        'csv',
        'json',
        'addresses',
      ]),
    )
    .option('--all', 'with --explain, show long lists whole')
    .addOption(
      new Option(
        '--capture <file>',
        'only write what passes the port of the controller into this file (.pcapng)',
      ).conflicts(['table', 'picture', 'svg', 'csv', 'json', 'addresses', 'explain', 'threads']),
    )
    .option('--from <cycle>', 'with --capture, the first cycle of it; 0 where nothing is said', capturedFrom)
    .option('--for <cycles>', 'with --capture, how many cycles; 100 where nothing is said', cycleNumber)
    .option('--overwrite', 'with --capture, write over a file that is there')
    .addHelpText('after', `\n${simulateHelp}`)
    .action(async (file: string, options: SimulateOptions) => {
      status = await simulate(file, { ...program.opts(), ...options }, io);
    });
  program
    .command('trials')
    .summary('many more trials of a mark, on all processors')
    .description(
      'Makes many more trials of the budget of a mark than layshaft show does. The same seed gives the same digits, however many threads there are. Ctrl+C stops it.',
    )
    .argument('<FILE>', 'a machine file, a folder with machine.yaml in it, or - for standard input')
    .argument('[ADDRESS]', 'marks.NAME; it may be left out where there is one mark', 'marks')
    .option('--trials <number>', 'how many, such as 1e8; 1e7 where nothing is said')
    .option('--seed <number>', 'what the random numbers begin with', '1')
    .option('--threads <number>', 'how many at once; as many as the computer has processors', threadNumber)
    .option('--addresses', 'under each row, the addresses of its numbers')
    .addOption(csvOption('the table'))
    .option('--json', 'print the table as data')
    .action(async (file: string, address: string, options: TrialsOptions) => {
      status = await trials(file, address, { ...program.opts(), ...options }, io);
    });
  program
    .command('open')
    .summary('the sheet in the browser')
    .description(
      'Serves a folder of machine files to the browser on this computer: file, pictures and margins together.',
    )
    .argument('[FOLDER]', 'the folder with the machine files, or one machine file', '.')
    .option('--port <number>', 'serve at this port; the usual one, or any that is free', portNumber)
    .option('--host <address>', 'serve at this address of the computer, to others as well; they need the whole URL')
    .addHelpText('after', `\n${openHelp}`)
    .action(async (folder: string, options: OpenOptions) => {
      status = await openSheet(folder, options, io);
    });
  program
    .command('parts')
    .summary('what the catalogue has, and one part with its figures')
    .description('Lists the kinds of parts, the parts of a kind, or one part with all its figures and their sources.')
    .argument('[KIND or NAME]', 'a kind such as drive, or a part such as drive_5; without it, all kinds')
    .option('--catalogue <file>', 'look into this catalogue file as well')
    .addHelpText('after', `\n${catalogueHelp}`)
    .action(async (word: string | undefined, options: PartsOptions) => {
      status = await parts(word, { ...program.opts(), ...options }, io);
    });
  program
    .command('points')
    .summary('a list of points in a CSV file: how it is read; and the points of a machine as such a list')
    .description(
      'Shows how each column of a list of points is read, and turns the list into lines of a machine file, or the points of a machine into a list.',
    )
    .argument('<FILE>', 'a table (.csv, .tsv), a machine file, or - for a table from standard input')
    .option('--csv', 'print the points as comma-separated values, with our own columns')
    .addOption(new Option('--lines', 'print the points as lines of a machine file').conflicts('csv'))
    .addOption(
      new Option('--write <file>', 'write the points of a table into this machine file').conflicts(['csv', 'lines']),
    )
    .addHelpText('after', `\n${pointsHelp}`)
    .action(async (file: string, options: PointsOptions) => {
      status = await points(file, { ...program.opts(), ...options }, io);
    });
  program
    .command('new')
    .summary('a machine file to start from')
    .description('Writes a machine file with comments, to start from. A file that is there already stays as it is.')
    .argument('[FILE]', 'the file to write, or - to print it', 'machine.yaml')
    .action(async (file: string) => {
      status = await start(file, io);
    });
  program
    .command('schema')
    .summary('the JSON Schema of the machine file, for editors')
    .description('Prints the JSON Schema of the machine file, with which editors complete and check while one types.')
    .action(() => {
      status = schema(io);
    });
  for (const command of program.commands)
    command.showHelpAfterError(`layshaft ${command.name()} --help shows how it is used.`);
  try {
    await program.parseAsync(argv, { from: 'user' });
    return status;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? exit.fine : exit.unusable;
    if (!(error instanceof UserError)) throw error;
    io.stderr.write(`${error.message}\n`);
    return exit.unusable;
  }
}

function configured(io: Io): Command {
  return new Command('layshaft')
    .description(
      'Says whether a machine’s control system will hold, from one plain text file, and explains every number.',
    )
    .version(version, '--version', 'print the version')
    .helpOption('--help', 'print this')
    .helpCommand(false)
    .option('--width <columns>', 'width of the output; that of the terminal, or 80', columns)
    .option('--color', 'colour, also where the output is no terminal')
    .option('--no-color', 'no colour, as with NO_COLOR set')
    .addHelpText('after', `\n${programHelp}`)
    .configureHelp({ showGlobalOptions: true })
    .configureOutput({
      writeOut: (text) => void io.stdout.write(text),
      writeErr: (text) => void io.stderr.write(text),
      outputError: (text, write) => write(sentence(text)),
    })
    .showHelpAfterError('layshaft --help shows how it is used.')
    .exitOverride();
}

const sentence = (text: string): string => {
  const message = text.replace(/^error: /, '');
  return message.charAt(0).toUpperCase() + message.slice(1);
};

function portNumber(text: string): number {
  const number = Number(text);
  if (!Number.isInteger(number) || number < 0 || number > 65535)
    throw new InvalidArgumentError('Write a whole number from 0 to 65535; 0 is any that is free.');
  return number;
}

// What several commands print in the same forms.
const tableOption = ['--table <name>', 'only the table of this name; it stands in brackets behind the title'] as const;
const pictureOption = (): Option =>
  new Option('--picture <name>', 'only the picture of this name').conflicts(['table', 'csv', 'addresses']);
const svgOption = (): Option =>
  new Option('--svg <file>', 'write a picture into this file, or print it to -').conflicts(['table', 'csv', 'json']);
const csvOption = (what: string): Option =>
  new Option('--csv', `print ${what} as comma-separated values, numbers in SI`).conflicts(['json', 'addresses']);

/** More than any computer runs at once (our judgement). */
const mostThreads = 256;

function threadNumber(text: string): number {
  const number = Number(text);
  if (!Number.isInteger(number) || number < 1 || number > mostThreads)
    throw new InvalidArgumentError(`Write a whole number from 1 to ${mostThreads}.`);
  return number;
}

function seconds(text: string): number {
  const number = Number(text);
  if (!Number.isFinite(number) || number <= 0) throw new InvalidArgumentError('Write seconds above 0, such as 60.');
  return number;
}

function cycleNumber(text: string): number {
  const number = Number(text);
  if (!Number.isSafeInteger(number) || number < 1)
    throw new InvalidArgumentError('Write a whole number of cycles from 1 on, such as 1e6.');
  return number;
}

function capturedFrom(text: string): number {
  const number = Number(text);
  if (text.trim() === '' || !Number.isSafeInteger(number) || number < 0)
    throw new InvalidArgumentError('Write a whole number of cycles from 0 on, such as 1200.');
  return number;
}

function seedNumber(text: string): number {
  const number = Number(text);
  if (text.trim() === '' || !Number.isInteger(number) || number < 0 || number >= 2 ** 32)
    throw new InvalidArgumentError('Write a whole number from 0 to 4294967295.');
  return number;
}

function columns(text: string): number {
  const number = Number(text);
  if (!Number.isInteger(number) || number < leastColumns)
    throw new InvalidArgumentError(`Write a whole number of at least ${leastColumns}.`);
  return number;
}
