// A load sampled for the choice of a motor: every case walked in short steps, at the shaft in front of the open gear.
import type { CaseLoad, ChoiceLoad, PhaseLoad, StepLoad } from './choosing.ts';
import { type Course, type Met, stepsOf, upTo } from './course.ts';
import { shaftRatio } from './drive-line.ts';
import { movingOffTorque, movingsOff } from './moving-off.ts';
import { lasts_s } from './phase-torque.ts';

export interface CaseToChoose {
  readonly course: Course;
  readonly kind: CaseLoad['kind'];
  /** For each stretch whether it stands. */
  readonly stands: readonly boolean[];
}

/** `stage` is the one that the gear, or the motor, sits on; `inertia_kg_m2` that of the load there. */
export function choiceLoad(cases: readonly CaseToChoose[], stage: number, inertia_kg_m2: number): ChoiceLoad {
  const [load, inertial, speed, acceleration, ways, weights] = [[], [], [], [], [], []] as number[][] as [
    number[],
    number[],
    number[],
    number[],
    number[],
    number[],
  ];
  let highest_rad_per_s = 0;
  const point = (met: Met, going: number, weight_s: number) => {
    const quick = Math.abs(met.speed_rad_per_s);
    load.push(met.load_Nm);
    inertial.push(met.torque_Nm - met.load_Nm);
    speed.push(quick);
    acceleration.push(met.acceleration_rad_per_s2);
    ways.push(going);
    weights.push(weight_s);
    if (quick > highest_rad_per_s) highest_rad_per_s = quick;
    return load.length - 1;
  };
  const made = cases.map(({ course, kind, stands }): CaseLoad => {
    const line = upTo(course.line, stage);
    const steps: StepLoad[] = [];
    const phases = course.stretches.map((stretch, index): PhaseLoad => {
      const from = load.length;
      for (const { start, end, inside, going, from_s, to_s } of stepsOf({ stretches: [stretch], line })) {
        const first = point(start, going, 0);
        for (const each of inside) point(each, going, each.weight_s);
        steps.push({ start: first, end: point(end, going, 0), lasts_s: to_s - from_s });
      }
      for (const moving of movingsOff(line, stretch)) {
        const parts = { load: 0, inertial: 0 };
        const torque_Nm = movingOffTorque(line, stretch, moving, { parts });
        const acceleration_rad_per_s2 = shaftRatio(line) * moving.quickening;
        point({ load_Nm: parts.load, torque_Nm, speed_rad_per_s: 0, acceleration_rad_per_s2 }, moving.going, 0);
      }
      return { from, to: load.length, lasts_s: lasts_s(stretch.motion), stands: stands[index] === true };
    });
    const sum = (of: (phase: PhaseLoad) => boolean): number =>
      phases.reduce((all, phase) => all + (of(phase) ? phase.lasts_s : 0), 0);
    return { kind, phases, steps, lasts_s: sum(() => true), rest_s: sum((phase) => phase.stands) };
  });
  return {
    load_Nm: Float64Array.from(load),
    inertial_Nm: Float64Array.from(inertial),
    speed_rad_per_s: Float64Array.from(speed),
    acceleration_rad_per_s2: Float64Array.from(acceleration),
    going: Float64Array.from(ways),
    weight_s: Float64Array.from(weights),
    cases: made,
    highest_rad_per_s,
    inertia_kg_m2,
    lossOnInertia: cases[0]?.course.line.lossOnInertia ?? true,
  };
}
