// Long work of a view in the terminal: how much is asked for, and the table that comes of it.
import {
  type Assessment,
  assess,
  type LongWork,
  lackSentence,
  readAsked,
  show,
  shownAddresses,
  type Table,
  type View,
} from '@layshaft/core';
import { exit, type Io, UserError } from './io.ts';
import { openDesign } from './open-design.ts';
import { runParts } from './run-parts.ts';
import { type ShowOptions, textOfAll, viewsShown } from './show.ts';
import { lookOf } from './terminal.ts';

export interface WorkOptions extends Pick<ShowOptions, 'width' | 'color' | 'json' | 'csv' | 'addresses'> {
  /** As typed; what is usual where nothing is. */
  readonly count: string | undefined;
  readonly seed: string;
  readonly threads?: number;
}

export interface WorkCommand {
  /** Of the work, and of its table. */
  readonly name: string;
  /** Who has such work, for those who look for it elsewhere. */
  readonly who: string;
  /** What is typed before the count: `--trials`. */
  readonly countOption: string;
  /** Said below the table, of its numbers. */
  readonly explained: string;
}

/** Does the work of that name at an address and gives the exit status. Throws a UserError where there is none. */
export async function runWork(
  command: WorkCommand,
  { file, address }: { readonly file: string; readonly address: string },
  options: WorkOptions,
  io: Io,
): Promise<number> {
  const design = await openDesign(file, io);
  const { view, work } = workAt(assess(design), address, command);
  const asked = readAsked(work, { count: options.count ?? String(work.usual), seed: options.seed });
  if ('advice' in asked)
    throw new UserError(
      asked.of === 'count'
        ? `${command.countOption} ${options.count} cannot be done. ${asked.advice}`
        : `--seed ${options.seed} cannot be done. ${asked.advice}`,
    );
  const job = work.job(asked);
  if ('lacks' in job) throw new UserError(`${address} can have no ${work.counts}: ${lackSentence(job.lacks)}.`);
  const { results, isWhole, says } = await runParts(
    job,
    { counts: work.counts, count: asked.count, threads: options.threads },
    io,
  );
  if (!isWhole) {
    io.stderr.write(`Stopped after ${says}. Nothing is printed for a part of a run.\n`);
    return exit.interrupted;
  }
  const table = job.merge(results);
  io.stdout.write(textOfAll([withTable(view, table)], options, lookOf(options, io), command.explained));
  return design.problems.length === 0 ? exit.fine : exit.unusable;
}

interface WorkOfView {
  readonly view: View;
  readonly work: LongWork;
}

const worksIn = (views: readonly View[], name: string): readonly WorkOfView[] =>
  views.flatMap((view) => (view.works ?? []).flatMap((work) => (work.name === name ? [{ view, work }] : [])));

function workAt(assessment: Assessment, address: string, { name, who }: WorkCommand): WorkOfView {
  const found = worksIn(show(assessment, address), name);
  const [first] = found;
  if (first !== undefined && found.length === 1) return first;
  const all = shownAddresses(assessment).flatMap((each) => worksIn(show(assessment, each), name));
  const there = [...new Set(all.map(({ view }) => view.address))].join(', ');
  if (found.length > 1) throw new UserError(`There are several at ${address}. Give the address of one: ${there}.`);
  if (there === '') throw new UserError(`Nothing in this file has ${name}: ${who} has.`);
  viewsShown(assessment, address);
  throw new UserError(`${address} has no ${name}. Give one of: ${there}.`);
}

const withTable = (view: View, table: Table): View => ({ ...view, pictures: [], tables: [table], later: [] });
