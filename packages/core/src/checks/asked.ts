// How much of a long work is asked for, as somebody types it: '1e7', '10 000 000'.
import { leaf, type Quantity } from '../working/quantity.ts';
import type { Asked, LongWork } from './view.ts';

/** What cannot be done, of which of the two, and what can. */
export interface NotAsked {
  readonly of: keyof Asked;
  readonly advice: string;
}

export const greatestSeed = 2 ** 32 - 1;

export function readAsked(
  { counts, least, most }: Pick<LongWork, 'counts' | 'least' | 'most'>,
  texts: Readonly<Record<keyof Asked, string>>,
): Asked | NotAsked {
  const [count, seed] = [wholeOf(texts.count), wholeOf(texts.seed)];
  if (!(count >= least && count <= most))
    return {
      of: 'count',
      advice: `The number of ${counts} is a whole one from ${grouped(least)} to ${grouped(most)}.`,
    };
  if (!(seed >= 0 && seed <= greatestSeed))
    return { of: 'seed', advice: `A seed is a whole number from 0 to ${grouped(greatestSeed)}.` };
  return { count, seed };
}

/** A count or a seed as it was asked for; it stands in no file, so its path is that of the work. */
export const saidOf = (path: string, value: number): Quantity<'1'> =>
  leaf(value, '1', { kind: 'given', path, via: [], writtenAt: path, written: String(value), writtenUnit: '1' });

/** '10 000 000': easier to count than without the gaps. */
export const grouped = (count: number): string => String(count).replace(/\B(?=(\d{3})+$)/g, ' ');

/** '3 120 000 of 10 000 000 trials, 31 %': never more than is done. */
export const doneOf = ({ counts, count }: { readonly counts: string; readonly count: number }, share: number): string =>
  `${grouped(Math.floor(count * share))} of ${grouped(count)} ${counts}, ${Math.floor(100 * share)} %`;

function wholeOf(text: string): number {
  const digits = text.trim().replaceAll(/[ \u00a0\u202f]/g, '');
  const value = /^\d+(\.\d+)?(e\d{1,2})?$/i.test(digits) ? Number(digits) : Number.NaN;
  return Number.isSafeInteger(value) ? value : Number.NaN;
}
