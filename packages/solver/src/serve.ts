// The answering side, the same in every thread: a model comes in, what it is known so far and the solution go out.
import type { Found, LinearModel, Solution } from '@layshaft/core/linear-model';
import { highs } from './highs.ts';
import { solveWith } from './solve-with.ts';

export interface Ask {
  readonly model: LinearModel;
  readonly most_s?: number | undefined;
  /** Whether progress is to be told. */
  readonly tells: boolean;
  /** Whether every better solution is to be handed over, since it may be taken for the answer. */
  readonly hands: boolean;
}

export type Answer =
  | { readonly best: number | undefined; readonly bound: number | undefined }
  | { readonly better: Found }
  | { readonly solution: Solution }
  | { readonly failed: { readonly kind: 'RangeError' | 'Error'; readonly message: string } };

/** The last answer is a solution or a failure. */
export async function serve({ model, most_s, tells, hands }: Ask, say: (answer: Answer) => void): Promise<void> {
  try {
    const library = await highs();
    const onProgress = tells ? (best?: number, bound?: number) => say({ best, bound }) : undefined;
    const onBetter = hands ? (better: Found) => say({ better }) : undefined;
    say({ solution: solveWith(library, model, { most_s, onProgress, onBetter }) });
  } catch (error) {
    const kind = error instanceof RangeError ? 'RangeError' : 'Error';
    say({ failed: { kind, message: error instanceof Error ? error.message : String(error) } });
  }
}
