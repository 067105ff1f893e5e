// A name in the text must be that of something else: reported at its place, with the nearest spelling.
import { nearest } from '../units/nearest.ts';
import type { Reading } from './reading.ts';
import type { Named } from './values.ts';

/** `otherwise` says what to do where nothing is spelt nearly so; `part` is what is marked: the value, or the key that is the name. */
export function mustBeOneOf(
  given: Named,
  names: readonly string[],
  what: string,
  otherwise: string,
  reading: Reading,
  part: 'key' | 'value' = 'value',
): void {
  if (names.includes(given.name)) return;
  const near = nearest(given.name, names);
  reading.problem(given.at, part, {
    code: 'name-unknown',
    message: `no ${what} is called '${given.name}'`,
    remedy: near === undefined ? otherwise : `Did you mean '${near}'?`,
    instead: near,
  });
}
