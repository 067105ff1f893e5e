// A choice of racks in sentences: how far it is, and what is to be said beside its tables.
import type { PointKind } from '../physics/point.ts';
import { printQuantity } from '../units/print-quantity.ts';
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

/** Whether it is proven that nothing is better, and by how much it may be where it is not. */
export function provenSays(choices: readonly Located[], prefer: Preference): readonly string[] {
  const chosen = choices.flatMap(({ location, answer }) =>
    'kind' in answer && answer.kind === 'chosen' ? [{ location, answer }] : [],
  );
  if (chosen.length > 0 && chosen.every(({ answer }) => answer.isBest))
    return [`It is proven that nothing has a smaller ${prefer}.`];
  return chosen.flatMap(({ location, answer: { isBest, weight, bound } }) => {
    if (isBest) return [];
    const lead = `At ${location} it is not proven that nothing is better`;
    if (!Number.isFinite(bound))
      return [`${lead}: the search ended before anything was known of how small the ${prefer} can be.`];
    return [
      `${lead}: the ${prefer} is ${weightOf(weight, prefer)}, none is below ${weightOf(bound, prefer)}, a gap of ${printQuantity(gapOf(weight, bound), '1', { as: '%' })}.`,
    ];
  });
}

/** By how much less it may be, as a share. */
const gapOf = (weight: number, bound: number): number => (weight > 0 ? (weight - bound) / weight : 0);

/** Where the search ended before there was anything. */
export const notFoundSays = (choices: readonly Located[]): readonly string[] =>
  choices.flatMap(({ location, answer }) =>
    'kind' in answer && answer.kind === 'none found'
      ? [`Nothing was found for ${location} before the search ended; it stays open.`]
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
