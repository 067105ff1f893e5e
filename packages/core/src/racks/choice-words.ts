// A choice of racks in sentences: how far it is, and what is to be said beside its tables.
import type { PointKind } from '../physics/point.ts';
import { type Located, weightOf } from './choice-tables.ts';
import { kindNames } from './kind-names.ts';
import type { Preference } from './offers.ts';

/** One task among those that a solver gets, one after another. */
export interface TaskOfAll {
  readonly location: string;
  /** Of which one more point is tried. */
  readonly kind?: PointKind;
  /** From 1. */
  readonly nth: number;
  readonly all: number;
  /** The model that holds all loads alike was too rough: each is told apart now. */
  readonly exact?: true;
}

/** Where the solver is, with the best that it has found and what it has shown to be the least, as far as it tells. */
export function choosingSays(
  { location, kind, nth, all, exact }: TaskOfAll,
  prefer: Preference,
  best?: number | undefined,
  bound?: number | undefined,
): string {
  const what = kind === undefined ? location : `${location}, one more ${kindNames[kind]}`;
  const which = all === 1 ? what : `${what} (${nth} of ${all})`;
  const lead = exact ? `${which}, again with each load by itself` : which;
  const known = [
    ...(best === undefined ? [] : [`the best so far has a ${prefer} of ${weightOf(best, prefer)}`]),
    ...(bound === undefined ? [] : [`none is below ${weightOf(bound, prefer)}`]),
  ];
  return known.length === 0 ? lead : `${lead}: ${known.join(', ')}`;
}

/** Where the time was over first; nothing where all is the best that there is. */
export const notShownBest = (choices: readonly Located[]): readonly string[] =>
  choices.flatMap(({ location, answer }) =>
    'kind' in answer && answer.kind === 'chosen' && !answer.isBest
      ? [`At ${location} the time was over before it was shown that nothing is better.`]
      : [],
  );

/** How many points get a channel. */
export function placedSays(planned: readonly { readonly path: string }[]): string {
  const placed = planned.filter(({ path }) => path.startsWith('points.')).length;
  return `${placed === 1 ? 'One point gets its channel' : `${placed} points get their channels`}; points that have one stay there.`;
}

/** Parts that were passed over; nothing where there are none. */
export const leftOutSays = (leftOut: readonly string[]): readonly string[] =>
  leftOut.length === 0 ? [] : [`Not weighed, since they do not say all that counts: ${leftOut.join(', ')}.`];
