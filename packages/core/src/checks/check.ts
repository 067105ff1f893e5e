// What a check is: one question, asked of each subject, answered by a demand against a capacity or by yes or no.
import type { Missing } from '../working/missing.ts';
import type { Quantity } from '../working/quantity.ts';
import type { SourceId } from '../working/sources.ts';

type Value<T> = T | Missing;

interface Common<S> {
  readonly id: `${string}.${string}`;
  /** The title of a line in the margins: 'Cycle'. */
  readonly title: string;
  /** The question in a sentence. */
  readonly asks: string;
  /** The page of the check: how demand and capacity come about, what is left out. */
  readonly page: string;
  /** What helps when it fails or is thin, in a line: 'a longer cycle, shorter payloads'. */
  readonly advice: string;
  /** What the check is asked of, by the name that stands after the @ of the finding's address. */
  readonly name: (subject: S) => string;
  /** The paths of the file that the finding is about first of all. */
  readonly path: (subject: S) => string;
}

/** Demand and capacity share one unit with a true zero; capacity at least demand is good. */
export interface MarginCheck<S> extends Common<S> {
  readonly reserve: { readonly share: number; readonly source: SourceId; readonly because: string };
  /** What a subject wants kept free, where each subject has a wish of its own; it goes before that of the file. */
  readonly wish?: (subject: S) => Value<Quantity<'1'>>;
  readonly demand: (subject: S) => Value<Quantity>;
  readonly capacity: (subject: S) => Value<Quantity>;
  /** The finding in a sentence, from the printed demand and capacity. */
  readonly says: (demand: string, capacity: string, subject: S) => string;
  /** For a capacity that is to be chosen. */
  readonly whenOpen?: {
    /** The least capacity that keeps the reserve. */
    readonly enough: (demand: Quantity, reserve: Quantity<'1'>, subject: S) => Quantity;
    /** What is needed, in a sentence; `enough` is absent where no reserve is known or none can be kept. */
    readonly says: (demand: Quantity, enough: Quantity | undefined, subject: S) => string;
  };
}

export interface Answer {
  readonly yes: boolean;
  /** Why, and what would change it. */
  readonly because: string;
}

export interface YesNoCheck<S> extends Common<S> {
  readonly answer: (subject: S) => Value<Answer>;
}

/** The subjects that a check is asked of, found in what the domain has computed. */
export interface Asked<In, S> {
  readonly subjects: (input: In) => readonly S[];
}

export type Check<S> = MarginCheck<S> | YesNoCheck<S>;

export const hasMargin = <S>(check: Check<S>): check is MarginCheck<S> => 'demand' in check;
