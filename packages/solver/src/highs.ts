// Loads the solver library HiGHS; nothing else imports it, and it is read and compiled when it is first asked for.
import type { Highs } from 'highs';

export type { Highs, Model, ModelData } from 'highs';

let loaded: Promise<Highs> | undefined;

/** One for the thread; a load that failed is tried again by the next who asks. */
export function highs(): Promise<Highs> {
  loaded ??= import('highs').then(({ default: load }) => load());
  loaded.catch(() => {
    loaded = undefined;
  });
  return loaded;
}
