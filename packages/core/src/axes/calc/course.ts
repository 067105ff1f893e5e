// A whole case in plain numbers, walked in short steps: powers at the shaft, points of torque and speed, what a gear carries.
import { sumOver, total } from '../../working/total.ts';
import type { PowerPiece } from './bus.ts';
import type { CurrentPiece } from './drive-current.ts';
import { type Going, goingOf, type PlainLine, shaftRatio, shaftTorque } from './drive-line.ts';
import { wear } from './gear-load.ts';
import { gaussLegendre } from './integral.ts';
import { movingOffTorque, movingsOff } from './moving-off.ts';
import { lasts_s, type Stretch } from './phase-torque.ts';
import { stateOf } from './segment.ts';
import { cuttingOf, stepEnds } from './step-ends.ts';

export interface Course {
  readonly stretches: readonly Stretch[];
  readonly line: PlainLine;
}

/** How long all of it takes. */
export const courseLasts_s = ({ stretches }: Course): number => total(stretches.map(({ motion }) => lasts_s(motion)));

/** Whether it is constant speed from end to end, and no load depends on where the tool is. */
export const isSteady = ({ stretches, line }: Course): boolean =>
  line.stages.every(({ placed }) => placed.length === 0) &&
  stretches.every(({ motion }) => motion.every(({ sine, polynomial }) => sine === undefined && polynomial.length <= 2));

/** What is met at an instant, at the end of the line. */
export interface Met {
  readonly torque_Nm: number;
  readonly speed_rad_per_s: number;
  /** What of the torque is not for acceleration. */
  readonly load_Nm: number;
  readonly acceleration_rad_per_s2: number;
}

/** A short stretch of a course: both of its ends, and points inside with their weights in s. */
export interface Step {
  /** Which way friction and losses act. */
  readonly going: Going;
  readonly from_s: number;
  readonly to_s: number;
  readonly start: Met;
  readonly end: Met;
  readonly inside: readonly (Met & { readonly weight_s: number })[];
}

const rule = gaussLegendre(3);
/** A quarter of a sine in so many steps is right to 1e-6 (our judgement, held by a test against the exact energies). */
const stepsOnPiece = 16;
/** Where speed and torque are straight lines but for their kinks. */
const stepsOnStraight = 4;

export function* stepsOf({ stretches, line }: Course): Generator<Step> {
  const ratio = shaftRatio(line);
  const cutting = cuttingOf(line);
  const parts = { load: 0, inertial: 0 };
  for (const { motion, from, start_s, rising_per_s } of stretches) {
    const first_s = motion[0]?.start_s ?? 0;
    for (const segment of motion) {
      const base_s = start_s + segment.start_s - first_s;
      const ends = stepEnds(segment, cutting, { from, begun_s: base_s, bent: stepsOnPiece, straight: stepsOnStraight });
      const met = (t: number, going: Going): Met => {
        const { position, velocity, acceleration } = stateOf(segment, t);
        const state = {
          position: from + position,
          velocity,
          acceleration: acceleration + rising_per_s * velocity,
        };
        const torque_Nm = shaftTorque(line, state, base_s + t, going, { parts });
        return {
          torque_Nm,
          speed_rad_per_s: ratio * velocity,
          load_Nm: parts.load,
          acceleration_rad_per_s2: ratio * state.acceleration,
        };
      };
      for (let step = 1; step < ends.length; step++) {
        const [a, b] = [ends[step - 1]!, ends[step]!];
        const [middle, half] = [(a + b) / 2, (b - a) / 2];
        const { velocity, acceleration } = stateOf(segment, middle);
        const going = goingOf(velocity, acceleration + rising_per_s * velocity);
        // At the ends the torque is taken from inside: an edge of a load stands at one of them.
        const inset = 1e-9 * (b - a);
        yield {
          going,
          from_s: base_s + a,
          to_s: base_s + b,
          start: { ...met(a + inset, going), speed_rad_per_s: ratio * stateOf(segment, a).velocity },
          end: { ...met(b - inset, going), speed_rad_per_s: ratio * stateOf(segment, b).velocity },
          inside: rule.nodes.map((node, at) => ({
            ...met(middle + half * node, going),
            weight_s: half * rule.weights[at]!,
          })),
        };
      }
    }
  }
}

const powerAt = ({ torque_Nm, speed_rad_per_s }: Met): number => torque_Nm * speed_rad_per_s;

/** What the motor gives to the shaft over time, below 0 where it brakes, piece by piece. */
export const powerPieces = (course: Course): readonly PowerPiece[] =>
  [...stepsOf(course)].map(({ from_s, to_s, start, end, inside }) => ({
    from_s,
    to_s,
    start_W: powerAt(start),
    end_W: powerAt(end),
    energy_J: sumOver(inside, (each) => each.weight_s * powerAt(each)),
  }));

export interface TorqueAtSpeed {
  readonly torque_Nm: number;
  readonly speed_rad_per_s: number;
}

/** Torque and speed, both without their sign, at the ends of all steps and inside. */
export const torqueSpeedPoints = (course: Course): readonly TorqueAtSpeed[] =>
  [...stepsOf(course)].flatMap(({ start, end, inside }) =>
    [start, ...inside, end].map(({ torque_Nm, speed_rad_per_s }) => ({
      torque_Nm: Math.abs(torque_Nm),
      speed_rad_per_s: Math.abs(speed_rad_per_s),
    })),
  );

export interface TorqueEnds {
  readonly lowest_Nm: number;
  readonly highest_Nm: number;
}

/** Between which torques a course goes, with their signs: over 0 in the direction of a positive motion. */
export function torqueEnds(course: Course): TorqueEnds {
  let [lowest_Nm, highest_Nm] = [Infinity, -Infinity];
  for (const { start, end, inside } of stepsOf(course)) {
    for (const { torque_Nm } of [start, ...inside, end]) {
      lowest_Nm = Math.min(lowest_Nm, torque_Nm);
      highest_Nm = Math.max(highest_Nm, torque_Nm);
    }
  }
  return { lowest_Nm, highest_Nm };
}

/** The current for the torque as straight lines, one behind the other. */
export const currentLines = (course: Course, constant_Nm_per_A: number): readonly CurrentPiece[] =>
  [...stepsOf(course)].map(({ from_s, to_s, start, end }) => ({
    lasts_s: to_s - from_s,
    start_A: start.torque_Nm / constant_Nm_per_A,
    end_A: end.torque_Nm / constant_Nm_per_A,
  }));

/** A line that ends at the shaft of a stage, in front of what leads on from it. */
export function upTo(line: PlainLine, stage: number): PlainLine {
  const { ratio, inertia, constant, coulomb, breakaway, viscous, placed } = line.stages[stage]!;
  // Written out in the order in which stages are made: a stage of another shape would slow down every torque.
  const last = { ratio, inertia, constant, coulomb, breakaway, viscous, placed, pass: 1, driving: 1, driven: 1 };
  return { ...line, stages: [...line.stages.slice(0, stage), last] };
}

export interface GearDuty {
  /** At the output shaft, without its sign. */
  readonly peak_Nm: number;
  /** The mean torque of equal wear, each instant counted by how far the shaft turns in it. */
  readonly mean_Nm: number;
  /** Of the output shaft. */
  readonly peak_rad_per_s: number;
  readonly mean_rad_per_s: number;
}

/** What passes through the transform at the end of a stage of the line, at its side of the tool. */
export function gearDuty({ stretches, line }: Course, stage: number, exponent: number): GearDuty {
  const course = { stretches, line: upTo(line, stage) };
  const worn = wear(exponent);
  let [peak_Nm, peak_rad_per_s, lasts_s] = [0, 0, 0];
  for (const { from_s, to_s, start, end, inside } of stepsOf(course)) {
    for (const { torque_Nm, speed_rad_per_s } of [start, end]) {
      peak_Nm = Math.max(peak_Nm, Math.abs(torque_Nm));
      peak_rad_per_s = Math.max(peak_rad_per_s, Math.abs(speed_rad_per_s));
    }
    for (const { torque_Nm, speed_rad_per_s, weight_s } of inside)
      worn.add(torque_Nm, Math.abs(speed_rad_per_s) * weight_s);
    lasts_s += to_s - from_s;
  }
  for (const stretch of stretches)
    for (const moving of movingsOff(course.line, stretch))
      peak_Nm = Math.max(peak_Nm, Math.abs(movingOffTorque(course.line, stretch, moving)));
  return {
    peak_Nm,
    mean_Nm: worn.mean(),
    peak_rad_per_s,
    mean_rad_per_s: lasts_s === 0 ? 0 : worn.turned_rad() / lasts_s,
  };
}
