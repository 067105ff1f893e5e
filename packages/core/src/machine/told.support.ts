// What a machine file has wrong, as a test wants to see it: what is marked, the sentence, the remedy.
import { read } from './machine.ts';

export interface Told {
  readonly code: string;
  readonly path: string | undefined;
  /** What the carets point to. */
  readonly marked: string;
  readonly message: string;
  readonly remedy: string;
}

export const toldOf = (text: string): readonly Told[] =>
  read(text).problems.map(({ code, path, message, remedy, place: { excerpt, column, length } }) => ({
    code,
    path,
    marked: [...excerpt].slice(column - 1, column - 1 + length).join(''),
    message,
    remedy,
  }));
