// A mixed-integer linear model as plain data: what is handed to a solver, and the check that its answer keeps every constraint.

/** Its bounds always stand; one that somebody asked for, and may give up, is a constraint of one term. */
export interface Variable {
  readonly name: string;
  readonly least: number;
  /** Infinity where nothing bounds it. */
  readonly most: number;
  /** Whether it must be a whole number. */
  readonly whole: boolean;
  /** What one of it adds to the sum that is made as small as can be. */
  readonly cost: number;
}

export interface Term {
  /** Its place among the variables. */
  readonly variable: number;
  readonly factor: number;
}

/** least ≤ sum of the terms ≤ most. */
export interface Constraint {
  readonly name: string;
  readonly terms: readonly Term[];
  readonly least: number;
  readonly most: number;
  /**
   * What it is there for. All constraints of one need are kept or given up together when it is asked why there is no
   * solution; a constraint without one always stands.
   */
  readonly need?: string | undefined;
}

export interface LinearModel {
  readonly variables: readonly Variable[];
  readonly constraints: readonly Constraint[];
}

/** A solution as it was found, which need not be the best. */
export interface Found {
  /** In the order of the variables; whole ones are exactly whole. */
  readonly values: readonly number[];
  readonly cost: number;
}

export type Solution =
  | (Found & {
      readonly status: 'optimal' | 'stopped';
      /** No solution costs less than this. */
      readonly bound: number;
      /** What was found on the way and costs more, the best first, as far as it was kept. */
      readonly earlier?: readonly Found[];
    })
  | {
      readonly status: 'infeasible';
      /** Needs that cannot be met together, in the order of the model; none where what always stands contradicts itself. */
      readonly needs: readonly string[];
      /** Whether it was shown that without any one of them there is a solution; the time may have been too short. */
      readonly irreducible: boolean;
    }
  /** Stopped before there was any solution. */
  | { readonly status: 'nothing found' }
  | { readonly status: 'unbounded' };

/** What of an AbortSignal is asked; core knows no host that has one. */
export interface CancelSignal {
  readonly aborted: boolean;
  readonly reason: unknown;
  addEventListener(kind: 'abort', listener: () => void): void;
  removeEventListener(kind: 'abort', listener: () => void): void;
}

export interface SolveOptions {
  /** For the solution and for what is to blame where there is none; without it there is no end to the search. */
  readonly most_s?: number | undefined;
  /** Ends the work; the promise rejects with the reason of the signal. */
  readonly signal?: CancelSignal | undefined;
  /** Ends the search as if its time were over: the best so far is the answer, and not shown to be the least. */
  readonly enough?: CancelSignal | undefined;
  /** Told the best cost so far and the bound, where there are any. */
  readonly onProgress?: ((best: number | undefined, bound: number | undefined) => void) | undefined;
}

/** Is handed in by the host: core neither finds a solver nor starts one. */
export type Solve = (model: LinearModel, options?: SolveOptions) => Promise<Solution>;

/** What a solution does not keep, in words with the name of the constraint or variable; nothing where it keeps all. */
export function broken(
  { variables, constraints }: LinearModel,
  values: readonly number[],
  tolerance = 1e-6,
): readonly string[] {
  const within = (value: number, least: number, most: number): boolean => {
    const room = tolerance * Math.max(1, Math.abs(value));
    return value >= least - room && value <= most + room;
  };
  return [
    ...variables.flatMap(({ name, least, most, whole }, place) => {
      const value = values[place];
      if (value === undefined || !Number.isFinite(value)) return [`${name} has no value`];
      if (!within(value, least, most)) return [`${name} = ${value} is outside ${least} to ${most}`];
      return whole && !Number.isInteger(value) ? [`${name} = ${value} is not whole`] : [];
    }),
    ...constraints.flatMap(({ name, terms, least, most }) => {
      const sum = terms.reduce((all, { variable, factor }) => all + factor * values[variable]!, 0);
      return within(sum, least, most) ? [] : [`${name}: ${sum} is outside ${least} to ${most}`];
    }),
  ];
}
