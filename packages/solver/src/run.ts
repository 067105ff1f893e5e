// One run of HiGHS on one model, and how it ended.
import { broken, type LinearModel } from '@layshaft/core/linear-model';
import type { Highs, Model } from './highs.ts';
import { dataOf } from './model-data.ts';

export interface RunOptions {
  /** Where false, every solution is as good as any other: asks only whether there is one. */
  readonly costs: boolean;
  readonly most_s?: number | undefined;
  readonly onProgress?: ((best: number | undefined, bound: number | undefined) => void) | undefined;
  /** Told every solution that is better than the one before, as the solver has it. */
  readonly onBetter?: ((values: readonly number[]) => void) | undefined;
}

export interface Run {
  readonly ended: 'optimal' | 'infeasible' | 'unbounded or infeasible' | 'time';
  /** As the solver has them: whole ones nearly whole. Absent where there is no solution. */
  readonly values?: readonly number[];
  readonly bound: number;
}

/** What the library tells while it works. */
interface Told {
  readonly mip_primal_bound?: number;
  readonly mip_dual_bound?: number;
  readonly mip_solution?: Float64Array;
}

/** Throws with the solver's words where it ends in any other way, or refuses the model. */
export function run(highs: Highs, model: LinearModel, { costs, most_s, onProgress, onBetter }: RunOptions): Run {
  // To the library a model without variables is none, whatever its constraints say of an empty sum.
  if (model.variables.length === 0)
    return broken(model, []).length === 0
      ? { ended: 'optimal', values: [], bound: 0 }
      : { ended: 'infeasible', bound: Infinity };
  return withModel(highs, model, { costs }, (native) => {
    if (most_s !== undefined) native.options.set('time_limit', most_s);
    const { callbackType, modelStatus } = highs.constants;
    const tell = ({ data }: { data: Told }): undefined => {
      if (data.mip_solution !== undefined) onBetter?.([...data.mip_solution]);
      onProgress?.(finite(data.mip_primal_bound), finite(data.mip_dual_bound));
    };
    const { modelStatus: status } = native.run(
      (onProgress ?? onBetter) && { [callbackType.mipImprovingSolution]: tell, [callbackType.mipLogging]: tell },
    );
    const found = native.info.get('primal_solution_status') === feasiblePoint;
    const end = {
      ...(found && { values: [...native.getSolution().colValue] }),
      bound: boundOf(native, model, status === modelStatus.optimal),
    };
    if (status === modelStatus.optimal && found) return { ended: 'optimal', ...end };
    if (status === modelStatus.infeasible) return { ended: 'infeasible', bound: Infinity };
    if (status === modelStatus.unbounded || status === modelStatus.unboundedOrInfeasible)
      return { ended: 'unbounded or infeasible', bound: -Infinity };
    if (status === modelStatus.timeLimit) return { ended: 'time', ...end };
    throw new Error(`The solver ended without an answer: ${statusName(highs, status)}.`);
  });
}

/** Where nothing must be whole, the library tells no bound before the end. */
function boundOf(native: Model, { variables }: LinearModel, isOptimal: boolean): number {
  if (variables.some(({ whole }) => whole)) return Number(native.info.get('mip_dual_bound'));
  return isOptimal ? native.getObjectiveValue() : -Infinity;
}

/** The code of HiGHS for a point that keeps all constraints. */
const feasiblePoint = 2;

/** By how much a constraint or a whole number may be missed; usual are 1e-7 and 1e-6, and twice as quick (our judgement). */
const tight = 1e-9;

/** The model lives in the memory of the solver until `use` is done. */
export function withModel<T>(
  highs: Highs,
  model: LinearModel,
  options: { readonly costs: boolean },
  use: (native: Model) => T,
): T {
  const native = highs.createModel(dataOf(model, options));
  try {
    // The best is wanted, not one that is nearly as good.
    native.options.set({ output_flag: false, mip_rel_gap: 0, mip_min_logging_interval: 0.25 });
    // A part may gain by what a tolerance lets pass; where all must be whole, being made whole takes it away.
    if (!model.variables.every(({ whole }) => whole))
      native.options.set({ mip_feasibility_tolerance: tight, primal_feasibility_tolerance: tight });
    return use(native);
  } finally {
    native.dispose();
  }
}

const finite = (value: number | undefined): number | undefined =>
  value !== undefined && Math.abs(value) < Infinity ? value : undefined;

const statusName = (highs: Highs, status: number): string =>
  Object.entries(highs.constants.modelStatus).find(([, code]) => code === status)?.[0] ?? `status ${status}`;
