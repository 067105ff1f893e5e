// Solves a model with HiGHS in this thread, which does nothing else meanwhile. No answer is taken on trust: whole numbers are
// made exactly whole, the cost is summed again, and what breaks a constraint is refused.
import { broken, type Found, type LinearModel, type Solution, type SolveOptions } from '@layshaft/core/linear-model';
import { conflictAmong } from './conflict.ts';
import type { Highs } from './highs.ts';
import { run, withModel } from './run.ts';
import { withEarlier } from './with-earlier.ts';

/** How long it is asked why there is no solution, where no time is given (our judgement). */
const explaining_s = 30;
/** What the solver's own tolerances leave open of a cost, as a share. */
const costTolerance = 1e-6;

export interface SolveWithOptions extends Omit<SolveOptions, 'signal' | 'enough'> {
  /** Told every solution that is better than the one before and keeps the model, as long as it works. */
  readonly onBetter?: ((found: Found) => void) | undefined;
}

/** Throws where the model is none, where HiGHS ends without a clear status, and where its answer is wrong. */
export function solveWith(
  highs: Highs,
  model: LinearModel,
  { most_s, onProgress, onBetter }: SolveWithOptions = {},
): Solution {
  if (most_s !== undefined && !(most_s > 0)) throw new RangeError(`A time of ${most_s} s to solve is not above 0.`);
  const end_ms = performance.now() + 1000 * (most_s ?? Infinity);
  const all: Found[] = [];
  const better = (found: readonly number[]): void => {
    const values = rounded(model, found);
    // The last word on whole and part is had at the end; until then what does not fit is not told.
    if (broken(model, values).length > 0) return;
    all.unshift({ values, cost: sumOfCosts(model, values) });
    onBetter?.(all[0]!);
  };
  const first = run(highs, model, { costs: true, most_s, onProgress, onBetter: better });
  if (first.values !== undefined && (first.ended === 'optimal' || first.ended === 'time')) {
    const values = exactly(highs, model, first.values);
    const end = priced(model, values, first.bound, first.ended === 'optimal');
    return { ...end, values, ...withEarlier(all, end.cost) };
  }
  if (first.ended === 'time') return { status: 'nothing found' };
  // The solver may stop where it knows only that there is no least cost, or no solution at all.
  const { ended } = first.ended === 'infeasible' ? first : anySolution(highs, model, end_ms);
  if (ended === 'optimal') return { status: 'unbounded' };
  if (ended !== 'infeasible') return { status: 'nothing found' };
  return whyInfeasible(highs, model, most_s === undefined ? performance.now() + 1000 * explaining_s : end_ms);
}

/** Whether there is a solution at all, and that it keeps everything. */
function anySolution(highs: Highs, model: LinearModel, end_ms: number): { ended: 'optimal' | 'infeasible' | 'time' } {
  const most_s = (end_ms - performance.now()) / 1000;
  if (most_s <= 0) return { ended: 'time' };
  const { ended, values } = run(highs, model, { costs: false, ...(Number.isFinite(most_s) && { most_s }) });
  if (values !== undefined) exactly(highs, model, values);
  if (ended === 'unbounded or infeasible') throw new Error('The solver calls a sum without costs unbounded.');
  return { ended: values === undefined ? ended : 'optimal' };
}

/** The values with whole ones exactly whole; the others are found again for these, so that they fit exactly, too. */
function exactly(highs: Highs, model: LinearModel, found: readonly number[]): readonly number[] {
  const values = rounded(model, found);
  const wrong = broken(model, values);
  if (model.variables.some(({ whole }) => whole) && !model.variables.every(({ whole }) => whole)) {
    const again = run(highs, fixed(model, values), { costs: true }).values;
    const better = again && rounded(model, again);
    if (better !== undefined && broken(model, better).length === 0) return better;
  }
  if (wrong.length > 0) throw new Error(`The solver's answer is wrong: ${wrong.slice(0, 3).join('; ')}.`);
  return values;
}

const rounded = ({ variables }: LinearModel, values: readonly number[]): readonly number[] =>
  variables.map(({ whole }, place) => (whole ? Math.round(values[place]!) + 0 : values[place]!));

/** With the whole variables held at their values. */
const fixed = (model: LinearModel, values: readonly number[]): LinearModel => ({
  ...model,
  variables: model.variables.map((variable, place) =>
    variable.whole ? { ...variable, least: values[place]!, most: values[place]! } : variable,
  ),
});

const sumOfCosts = ({ variables }: Pick<LinearModel, 'variables'>, values: readonly number[]): number =>
  variables.reduce((all, { cost }, place) => all + cost * values[place]!, 0);

function priced(
  { variables }: LinearModel,
  values: readonly number[],
  bound: number,
  isOptimal: boolean,
): { status: 'optimal' | 'stopped'; cost: number; bound: number } {
  const cost = sumOfCosts({ variables }, values);
  const open =
    costTolerance * variables.reduce((all, { cost: each }, place) => all + Math.abs(each * values[place]!), 1);
  if (bound > cost + open) throw new Error(`The solver says that nothing costs less than ${bound}, but ${cost} does.`);
  if (!isOptimal) return { status: 'stopped', cost, bound: Math.min(bound, cost) };
  if (bound < cost - open)
    throw new Error(`The solver calls ${cost} the least cost, but has shown ${bound} only to be too little.`);
  return { status: 'optimal', cost, bound: cost };
}

/** The needs to blame. What always stands may contradict itself; then no need is to blame. */
function whyInfeasible(highs: Highs, model: LinearModel, end_ms: number): Solution {
  const needs = needsOf(model);
  const contradicts = (some: readonly string[]): boolean | undefined => {
    const { ended } = anySolution(highs, withNeeds(model, new Set(some)), end_ms);
    return ended === 'time' ? undefined : ended === 'infeasible';
  };
  const seed = seedOf(highs, model, end_ms);
  const isConflict = seed.length < needs.length && contradicts(seed) === true;
  return { status: 'infeasible', ...conflictAmong(isConflict ? seed : needs, contradicts) };
}

/**
 * The needs that the solver's own set of conflicting constraints touches: few, quickly, and not always a conflict, since the
 * set is that of the model in which nothing must be whole.
 */
function seedOf(highs: Highs, model: LinearModel, end_ms: number): readonly string[] {
  const quarter_s = (end_ms - performance.now()) / 4000;
  if (quarter_s <= 0) return [];
  return withModel(highs, model, { costs: false }, (native) => {
    native.options.set({ iis_strategy: 31, iis_time_limit: quarter_s, time_limit: quarter_s });
    const rows = new Set(native.getIis().rowIndex);
    return needsOf({ ...model, constraints: model.constraints.filter((_, place) => rows.has(place)) });
  });
}

const needsOf = ({ constraints }: LinearModel): readonly string[] => [
  ...new Set(constraints.flatMap(({ need }) => (need === undefined ? [] : [need]))),
];

const withNeeds = (model: LinearModel, needs: ReadonlySet<string>): LinearModel => ({
  ...model,
  constraints: model.constraints.filter(({ need }) => need === undefined || needs.has(need)),
});
