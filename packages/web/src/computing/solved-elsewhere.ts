// Work that needs a solver where there is none: it stops at each model, and goes on when somebody brings the solution.
import type { LinearModel, Solution, Solve } from '@layshaft/core';

export type Stop<R> = { readonly model: LinearModel } | { readonly result: R };

export interface Stopping<R> {
  /** Up to the first model; to the end where it needs none. */
  readonly start: () => Promise<Stop<R>>;
  /** On with the solution of the model that was given last. */
  readonly goOn: (solution: Solution) => Promise<Stop<R>>;
}

export function solvedElsewhere<R>(work: (solve: Solve) => Promise<R>): Stopping<R> {
  let stop: (at: Stop<R>) => void = () => undefined;
  let fail: (error: unknown) => void = () => undefined;
  let bring: (solution: Solution) => void = () => undefined;
  const nextStop = (): Promise<Stop<R>> =>
    new Promise((resolve, reject) => {
      stop = resolve;
      fail = reject;
    });
  const solve: Solve = (model) =>
    new Promise((resolve) => {
      bring = resolve;
      stop({ model });
    });
  return {
    start: () => {
      const next = nextStop();
      work(solve).then(
        (result) => stop({ result }),
        (error: unknown) => fail(error),
      );
      return next;
    },
    goOn: (solution) => {
      const next = nextStop();
      bring(solution);
      return next;
    },
  };
}
