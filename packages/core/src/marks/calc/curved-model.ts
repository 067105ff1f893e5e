// The trials of a budget that is no plain sum: with a web that runs askew, or with products of contributions. Plain data, so
// that any thread can run it.
import { type ModelChunk, runModelTrials, type TrialResult } from './monte-carlo.ts';
import { sin } from './same-bits.ts';
import type { Model } from './second-order.ts';

export interface CurvedModel {
  readonly offset: number;
  /** How much the result changes with each input; 0 for the angle of a web askew. */
  readonly factors: readonly number[];
  /** The length that runs askew, and which of the inputs is its angle. */
  readonly askew: { readonly length: number; readonly angleAt: number } | undefined;
  /** Two inputs, or one twice, and how much the result changes with their product. */
  readonly products: readonly (readonly [one: number, other: number, factor: number])[];
}

export interface CurvedChunk {
  readonly chunk: ModelChunk;
  readonly model: CurvedModel;
}

export const curvedModel =
  ({ offset, factors, askew, products }: CurvedModel): Model =>
  (each) => {
    let sum = offset;
    if (askew !== undefined) {
      // One less the cosine, and the same bits in every engine.
      const half = sin(each[askew.angleAt]! / 2);
      sum += 2 * askew.length * half * half;
    }
    for (let at = 0; at < factors.length; at++) sum += factors[at]! * each[at]!;
    for (const [one, other, factor] of products) sum += factor * each[one]! * each[other]!;
    return sum;
  };

/** Runs a chunk of such trials. */
export const runCurvedTrials = ({ chunk, model }: CurvedChunk): TrialResult =>
  runModelTrials(chunk, curvedModel(model));
