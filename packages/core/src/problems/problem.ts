// A problem is something wrong in a file: a code, the place, what is wrong and what to write instead.
import type { ProblemCode } from './codes.ts';

/** A place in a text; lines and columns count from 1, columns in characters as an editor shows them. */
export interface Place {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  /** How many characters are meant, on this line; at least 1. */
  readonly length: number;
  /** The text of the line, for the caret under it. */
  readonly excerpt: string;
}

export interface Note {
  readonly message: string;
  readonly place: Place;
}

export interface Problem {
  readonly code: ProblemCode;
  readonly message: string;
  /** What to write instead, in one line. */
  readonly remedy: string;
  /** What would stand at the place instead, where it is that simple. */
  readonly instead?: string;
  readonly place: Place;
  /** The path in the file, where the place has one. */
  readonly path?: string;
  readonly notes: readonly Note[];
}

/** Problems in the order of the text, then of the file's name. */
export const inOrder = (problems: readonly Problem[]): readonly Problem[] =>
  [...problems].sort(
    (a, b) =>
      compare(a.place.file, b.place.file) ||
      a.place.line - b.place.line ||
      a.place.column - b.place.column ||
      compare(a.code, b.code),
  );

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** The problem as text: `file:line:column`, the line, carets, the remedy, then notes with their own places. */
export function printProblem(problem: Problem): string {
  const lines = [
    `${where(problem.place)}  ${problem.message}  [${problem.code}]`,
    ...pointed(problem.place),
    `    ${problem.remedy}`,
    ...problem.notes.flatMap((note) => [`  ${where(note.place)}  ${note.message}`, ...pointed(note.place)]),
  ];
  return lines.join('\n');
}

export const where = (place: Place): string => `${place.file}:${place.line}:${place.column}`;

const longestExcerpt = 100;

/** The line and its carets; a long line is cut around the place, a tab stays a tab so that the carets stand right. */
function pointed(place: Place): readonly string[] {
  const cut = Math.max(0, place.column - 1 - longestExcerpt / 2);
  const text = place.excerpt.slice(cut, cut + longestExcerpt);
  const lead = text.slice(0, place.column - 1 - cut).replace(/[^\t]/g, ' ');
  const carets = '^'.repeat(Math.max(1, Math.min(place.length, text.length - lead.length)));
  const gutter = String(place.line).padStart(5);
  return [`${gutter} | ${text.trimEnd()}`, `${' '.repeat(gutter.length)} | ${lead}${carets}`];
}
