// A load sampled for the choice of a motor: every case walked in short steps, at the shaft in front of the open gear.
import type { ChoiceLoad, LastingLoad, LastingPhase, LastingStep } from './choosing.ts';
import { type Course, stepsOf, upTo } from './course.ts';
import { goingOf, shaftRatio, shaftTorque } from './drive-line.ts';
import { lasts_s } from './phase-torque.ts';
import { stateOf } from './segment.ts';

export interface CaseToChoose {
  readonly course: Course;
  /** Whether a motor gets warm by it. */
  readonly lasting: boolean;
  /** For each stretch whether it moves off against friction at rest, and whether it stands. */
  readonly starts: readonly boolean[];
  readonly stands: readonly boolean[];
}

/** `stage` is the one that the gear, or the motor, sits on; `inertia_kg_m2` that of the load there. */
export function choiceLoad(cases: readonly CaseToChoose[], stage: number, inertia_kg_m2: number): ChoiceLoad {
  const rows: number[][] = [];
  const lasting: LastingLoad[] = [];
  for (const { course, lasting: warms, starts, stands } of cases) {
    const line = upTo(course.line, stage);
    const phases: LastingPhase[] = [];
    const steps: LastingStep[] = [];
    let from = rows.length;
    for (const [index, { motion, from: position, start_s, rising_per_s }] of course.stretches.entries()) {
      for (const { start, end, inside, going, from_s, to_s } of stepsOf({
        stretches: [course.stretches[index]!],
        line,
      })) {
        const push = (met: typeof start, weight_s: number): void => {
          rows.push([
            met.load_Nm,
            met.torque_Nm - met.load_Nm,
            met.speed_rad_per_s,
            met.acceleration_rad_per_s2,
            going,
            weight_s,
          ]);
        };
        steps.push({ start: rows.length, end: rows.length + inside.length + 1, lasts_s: to_s - from_s });
        push(start, 0);
        for (const each of inside) push(each, each.weight_s);
        push(end, 0);
      }
      const [first] = motion;
      if (starts[index] === true && first !== undefined) {
        const state = stateOf(first, 0);
        const acceleration = state.acceleration + rising_per_s * state.velocity;
        const going = goingOf(0, acceleration);
        const parts = { load: 0, inertial: 0 };
        const moved = { position: position + state.position, velocity: 0, acceleration };
        shaftTorque(line, moved, start_s, going, { starting: true, parts });
        rows.push([parts.load, parts.inertial, 0, shaftRatio(line) * acceleration, going, 0]);
      }
      phases.push({ from, to: rows.length, lasts_s: lasts_s(motion) });
      from = rows.length;
    }
    if (warms) {
      const sum = (of: (index: number) => boolean): number =>
        phases.reduce((all, phase, index) => all + (of(index) ? phase.lasts_s : 0), 0);
      lasting.push({ phases, steps, lasts_s: sum(() => true), rest_s: sum((index) => stands[index] === true) });
    }
  }
  const column = (at: number): Float64Array => Float64Array.from(rows, (row) => row[at]!);
  return {
    load_Nm: column(0),
    inertial_Nm: column(1),
    speed_rad_per_s: column(2),
    acceleration_rad_per_s2: column(3),
    going: column(4),
    weight_s: column(5),
    lasting,
    inertia_kg_m2,
    lossOnInertia: cases[0]?.course.line.lossOnInertia ?? true,
  };
}
