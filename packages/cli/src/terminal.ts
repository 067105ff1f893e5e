// How wide the output may be, and whether it is coloured.
import type { Io } from './io.ts';

/** Colour only helps: every line says the same in words and shapes. */
export interface Paint {
  readonly fails: (text: string) => string;
  readonly thin: (text: string) => string;
  /** For headings. */
  readonly strong: (text: string) => string;
  /** For what is there to be looked up, not to be read. */
  readonly quiet: (text: string) => string;
}

export interface Look extends Paint {
  readonly columns: number;
}

export interface LookOptions {
  readonly width?: number;
  /** Absent when the user did not say. */
  readonly color?: boolean;
}

/** Narrower than this no bar fits beside its figures. */
export const leastColumns = 48;
/** What a pipe gets: common practice, no source. */
const usualColumns = 80;
/** Longer lines of text are hard to read (our judgement). */
const mostColumns = 100;

export function lookOf(options: LookOptions, { stdout, env }: Pick<Io, 'stdout' | 'env'>): Look {
  const terminal = stdout.isTTY === true;
  const wanted = terminal && !env.NO_COLOR && env.TERM !== 'dumb';
  const offered = Math.min((terminal && stdout.columns) || usualColumns, mostColumns);
  return {
    columns: Math.max(options.width ?? offered, leastColumns),
    ...((options.color ?? wanted) ? coloured : plain),
  };
}

const sgr = (start: number, end: number) => (text: string) => (text === '' ? '' : `\x1b[${start}m${text}\x1b[${end}m`);

const coloured: Paint = { fails: sgr(31, 39), thin: sgr(33, 39), strong: sgr(1, 22), quiet: sgr(2, 22) };
const same = (text: string): string => text;
const plain: Paint = { fails: same, thin: same, strong: same, quiet: same };
