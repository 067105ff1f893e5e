// Words as they are compared: small letters and digits with single blanks between them; and names of our form.
import { nameForm } from '../reading/tree.ts';

/** `I/O-Type_` is `i o type`. */
export const plainWords = (text: string): string =>
  withoutMarks(text)
    .replace(/[^a-z0-9]+/g, ' ')
    .trim();

const withoutMarks = (text: string): string =>
  text.replaceAll('ß', 'ss').normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();

const rangeForm = /^[a-z][a-z0-9_]*\[\d{1,6}\.\.\d{1,6}\][a-z0-9_]*$/;

/** The name of our form that a text is turned into, `LS-101 (left)` into ls_101_left; nothing where no letter is in it. */
export function nameIn(text: string): string | undefined {
  if (nameForm.test(text) || rangeForm.test(text)) return text;
  const ends = text.replace(/\s*\+$/, ' plus').replace(/(?<=.)\s*-$/, ' minus');
  const name = plainWords(ends).replaceAll(' ', '_');
  if (name === '') return undefined;
  return /^[a-z]/.test(name) ? name : `p_${name}`;
}
