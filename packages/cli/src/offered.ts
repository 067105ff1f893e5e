// What is offered for a word that means nothing: names that hold it, then names a few letters away.
import { nearest } from '@layshaft/core';

/** A handful (our judgement). */
const most = 5;

/** The names that hold what was typed go first, the shortest before longer ones. */
export function offered(typed: string, names: readonly string[]): readonly string[] {
  const found = names.filter((each) => each.includes(typed)).sort((a, b) => a.length - b.length);
  const left = new Set(names.filter((each) => !found.includes(each)));
  for (let next = nearest(typed, left); next !== undefined && found.length < most; next = nearest(typed, left)) {
    left.delete(next);
    found.push(next);
  }
  return found.slice(0, most);
}
