// layshaft points: how a list of points in a CSV file is read, and points as such a list or as lines of a machine file.
import {
  entriesRead,
  type PointsTable,
  type Problem,
  plural,
  pointLines,
  pointsSheet,
  previewOf,
  printProblem,
  problemsOfTable,
  readPointsTable,
  writePoints,
} from '@layshaft/core';
import { exit, type Io, UserError } from './io.ts';
import { paragraphs, wrap } from './layout.ts';
import { openMachine } from './open-design.ts';
import { csvOf } from './print-csv.ts';
import { readText } from './read-file.ts';
import { printTable } from './show.ts';
import { type LookOptions, lookOf } from './terminal.ts';
import { writeInto } from './write-chosen.ts';

export interface PointsOptions extends LookOptions {
  /** The points as comma-separated values, with our own columns. */
  readonly csv?: boolean;
  /** The points as lines of a machine file. */
  readonly lines?: boolean;
  /** The machine file that the points of a table are written into. */
  readonly write?: string;
}

interface Found {
  readonly entries: ReturnType<typeof entriesRead>;
  readonly problems: readonly Problem[];
  /** How the list was read. */
  readonly told: readonly (readonly string[])[];
  /** Nothing where the points are those of a machine file. */
  readonly table: PointsTable | undefined;
}

/** Prints what is asked for and gives the exit status. Throws a UserError where there is nothing to read or no point. */
export async function points(named: string, options: PointsOptions, io: Io): Promise<number> {
  const found = await opened(named, options, io);
  const { entries, problems } = found;
  const status = problems.length === 0 ? exit.fine : exit.unusable;
  if (options.csv || options.lines) {
    io.stdout.write(options.csv ? csvOf(pointsSheet(entries)) : linesOf(entries));
    for (const problem of problems) io.stderr.write(`${printProblem(problem)}\n`);
    return status;
  }
  io.stdout.write(`${paragraphs(found.told).join('\n')}\n`);
  if (options.write === undefined) return status;
  const { table } = found;
  if (table === undefined) throw new UserError(`${named} is a machine file; --write takes the points of a table.`);
  const written = await writeInto(options.write, 'points', (machine) => writePoints(machine, table), io);
  io.stdout.write(`${plural(entries.length, 'point')} written into ${written}, under points.\n`);
  return status;
}

/** A table where its name says so or it comes from standard input, a machine file else. */
async function opened(named: string, options: PointsOptions, io: Io): Promise<Found> {
  const look = lookOf(options, io);
  if (named !== '-' && !/\.[ct]sv$/i.test(named)) {
    const machine = await openMachine(named, io);
    const names = machine.points.map(({ name }) => name);
    if (names.length === 0) throw new UserError(`${machine.file} has no points. Name a table, or a file with points.`);
    const entries = entriesRead(names, machine.reading);
    const { problems } = machine;
    const told = [...problems.map((each) => [printProblem(each)]), printTable(pointsSheet(entries), look, false)];
    return { entries, problems, told, table: undefined };
  }
  const { file, text } = await readText(named, io);
  const table = readPointsTable(file, text);
  const problems = problemsOfTable(table);
  const told = [
    ...problems.map((each) => [printProblem(each)]),
    table.columns.length === 0 ? [] : printTable(previewOf(table), look, false),
    table.remarks.length === 0 ? [] : ['Worth a look:', ...table.remarks.map(printProblem)],
    problems.length > 0 ? wrap(`${plural(problems.length, 'problem')}.`, look.columns) : [],
  ];
  return { entries: table.entries, problems, told, table };
}

const linesOf = (entries: Found['entries']): string =>
  `points:\n${pointLines(entries)
    .map(({ name, value }) => `  ${name}: ${value}\n`)
    .join('')}`;
