// A field reads one value of a file: what may stand there, what becomes of it, and how it is described in the schema.
import type { Known, Missing } from '../working/missing.ts';
import type { JsonSchema } from './json-schema.ts';
import type { Cursor, Reading } from './reading.ts';

export interface Field<T> {
  /** Reads what stands at the cursor; without one the value is absent, and `path` is where it would stand. */
  readonly read: (at: Cursor | undefined, path: string, reading: Reading) => T;
  readonly schema: () => JsonSchema;
}

export type Read<F> = F extends Field<infer T> ? T : never;
export type { Known, Missing };

/** What a field says about itself in the reference and in editors. */
export interface About {
  /** One or two sentences: what it is, and what odd values do. */
  readonly about: string;
}
