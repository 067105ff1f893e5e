// The trials of a budget with a web that runs askew: a sum with one cosine in it, as plain data, so that any thread can run it.
import { type ModelChunk, runModelTrials, type TrialResult } from './monte-carlo.ts';
import { sin } from './same-bits.ts';
import type { Model } from './second-order.ts';

export interface AskewModel {
  readonly offset: number;
  /** The length that runs askew, and which of the inputs is its angle. */
  readonly length: number;
  readonly angleAt: number;
  /** How much the result changes with each input; 0 for the angle. */
  readonly factors: readonly number[];
}

export interface AskewChunk {
  readonly chunk: ModelChunk;
  readonly model: AskewModel;
}

export const askewModel =
  ({ offset, length, angleAt, factors }: AskewModel): Model =>
  (each) => {
    // One less the cosine, and the same bits in every engine.
    const half = sin(each[angleAt]! / 2);
    let sum = offset + 2 * length * half * half;
    for (let at = 0; at < factors.length; at++) sum += factors[at]! * each[at]!;
    return sum;
  };

/** Runs a chunk of such trials. */
export const runAskewTrials = ({ chunk, model }: AskewChunk): TrialResult => runModelTrials(chunk, askewModel(model));
