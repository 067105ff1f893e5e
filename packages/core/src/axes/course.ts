// All that a case rests on, by symbol, and how to build the case in plain numbers from it: what methods over a whole case
// are computed from, first and at replay.
import { type Values, valuesOf } from '../working/formula.ts';
import type { Inputs } from '../working/quantity.ts';
import type { Course } from './calc/course.ts';
import { lasts_s } from './calc/phase-torque.ts';
import { chain, type Motion } from './calc/segment.ts';
import type { Case } from './demand.ts';
import type { PlainForm } from './line.ts';
import type { Phase } from './phase.ts';
import { type Ramp, risingOf } from './phase-result.ts';
import { wayOf } from './steps.ts';

export interface CourseForm {
  readonly inputs: Inputs;
  readonly means: Readonly<Record<string, string>>;
  readonly build: (values: Values) => Course;
  /** As it is now. */
  readonly now: Course;
}

export function courseOf({ phases, form, ramp }: Pick<Case, 'phases' | 'form' | 'ramp'>): CourseForm {
  const all = phases.map(({ phase }) => phase);
  const inputs: Record<string, Inputs[string]> = {};
  const means: Record<string, string> = {};
  for (const [index, phase] of all.entries()) {
    for (const [symbol, input] of Object.entries(phase.inputs)) {
      inputs[`${symbol}_in_${index + 1}`] = input;
      means[`${symbol}_in_${index + 1}`] = `${phase.means[symbol] ?? ''}, ${phase.title}`;
    }
  }
  Object.assign(inputs, form.inputs, ramp && { R: ramp.t });
  Object.assign(means, form.means, { R: 'time of the master between standstill and full speed' });
  const build = (values: Values): Course => built(all, form, ramp, values);
  return { inputs, means, build, now: build(valuesOf(inputs)) };
}

function built(phases: readonly Phase[], form: PlainForm, ramp: Ramp | undefined, values: Values): Course {
  let at = 0;
  const motions = phases.map((phase): Motion => {
    const count = Object.keys(phase.inputs).length;
    const own = values.slice(at, at + count) as number[];
    at += count;
    return chain(phase.build(...own));
  });
  const line = form.build(values.slice(at, at + Object.keys(form.inputs).length));
  const rising_per_s = risingOf(ramp, values.at(-1) as number);
  let [from, start_s] = [0, 0];
  const stretches = motions.map((motion) => {
    const stretch = { motion, from, start_s, rising_per_s };
    from += wayOf(motion);
    start_s += lasts_s(motion);
    return stretch;
  });
  return { stretches, line };
}
