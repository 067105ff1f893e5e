// layshaft explain: where the number at an address comes from, down to what is given.
import { assess, type Design, flatten, plural } from '@layshaft/core';
import { findAddress, type Meaning } from './find-address.ts';
import { exit, type Io, UserError } from './io.ts';
import { openDesign } from './open-design.ts';
import { printMeaning } from './print-meaning.ts';
import { type LookOptions, lookOf } from './terminal.ts';

export interface ExplainOptions extends LookOptions {
  readonly json?: boolean;
  /** Shows long lists whole. */
  readonly all?: boolean;
}

/** The version of what `--json` prints. */
export const explanationVersion = 1;

/** Prints the explanation and gives the exit status. Throws a UserError for an address that means nothing. */
export async function explain(file: string, address: string, options: ExplainOptions, io: Io): Promise<number> {
  const design = await openDesign(file, io);
  const meaning = findAddress(assess(design), address);
  if (meaning.kind === 'nothing') throw new UserError(unheardOf(address, meaning.near, design));
  const style = { look: lookOf(options, io), design, lists: options.all ? 'whole' : 'short' } as const;
  const text = options.json
    ? JSON.stringify({ layshaft_explanation: explanationVersion, address, ...flat(meaning) }, null, 2)
    : printMeaning(meaning, style).join('\n');
  io.stdout.write(`${text}\n`);
  if (design.problems.length === 0) return exit.fine;
  io.stderr.write(`${problemCount(design)}; layshaft check shows what and where.\n`);
  return exit.unusable;
}

/** Each number once, with the addresses of what went into it. */
const flat = (meaning: Meaning): object =>
  Object.fromEntries(
    Object.entries(meaning).map(([key, value]) => [
      key,
      ['working', 'reserve', 'about'].includes(key) ? flatten(value) : value,
    ]),
  );

function unheardOf(address: string, near: readonly string[], design: Design): string {
  return [
    `${design.machine.file} has nothing at the address ${address}.`,
    ...(design.problems.length > 0 ? [`${problemCount(design)}, which may be why; layshaft check shows them.`] : []),
    ...(near.length > 0
      ? ['Did you mean', ...near.map((each) => `  ${each}`)]
      : ['Take an address from the right of what layshaft check prints.']),
  ].join('\n');
}

const problemCount = ({ machine, problems }: Design): string =>
  `${machine.file} has ${plural(problems.length, 'problem')}`;
