// Every combination of motor and gear against a load, in plain numbers: what the pages of the checks say, for thousands of
// combinations at once. A load is sampled once; a gear turns it into two numbers a point, a motor adds its inertia.

import type { TorqueLine } from './course.ts';
import { continuousAt, type MotorArea, peakAt } from './motor-area.ts';

/** A load as it is at the shaft that the gear, or without one the motor, sits on. All arrays are of one length. */
export interface ChoiceLoad {
  /** Torque beside acceleration, and for acceleration; over 0 in the direction of a positive motion. */
  readonly load_Nm: Float64Array;
  readonly inertial_Nm: Float64Array;
  readonly speed_rad_per_s: Float64Array;
  readonly acceleration_rad_per_s2: Float64Array;
  /** Which way losses act: 1, −1, or 0 at rest. */
  readonly going: Float64Array;
  /** Time that a point stands for; 0 for one that only may be a peak. */
  readonly weight_s: Float64Array;
  /** The cases that a motor gets warm by, as points from and up to, with their time, the part of it at rest included. */
  readonly lasting: readonly LastingLoad[];
  readonly inertia_kg_m2: number;
  readonly lossOnInertia: boolean;
}

/** The phases of a case that goes on, as points from and up to. */
export interface LastingLoad {
  readonly phases: readonly LastingPhase[];
  readonly steps: readonly LastingStep[];
  readonly lasts_s: number;
  readonly rest_s: number;
}

/** A short step, with the points at both of its ends. */
export interface LastingStep {
  readonly start: number;
  readonly end: number;
  readonly lasts_s: number;
}

export interface LastingPhase {
  readonly from: number;
  readonly to: number;
  readonly lasts_s: number;
}

/** A motor at the mains and in the surroundings of the machine. */
export interface ChoiceMotor {
  readonly inertia_kg_m2: number;
  readonly area: MotorArea;
  /** What the surroundings leave of its continuous torque. */
  readonly left: number;
  /** How much of its cooling it keeps at rest. */
  readonly coolingAtRest: number;
}

export interface ChoiceGear {
  readonly ratio: number;
  readonly driving: number;
  readonly driven: number;
  readonly inertia_kg_m2: number;
}

/** Without a gear. */
export const direct: ChoiceGear = { ratio: 1, driving: 1, driven: 1, inertia_kg_m2: 0 };

/** A load behind a gear, at the shaft of the motor. */
export interface GearedLoad {
  /** Torque without rotor and gear. */
  readonly torque_Nm: Float64Array;
  readonly speed_rad_per_s: Float64Array;
  readonly acceleration_rad_per_s2: Float64Array;
  readonly highest_rad_per_s: number;
  /** One for each lasting case of the load. */
  readonly lasting: readonly GearedLasting[];
  readonly load: ChoiceLoad;
  readonly gear: ChoiceGear;
}

export interface GearedLasting {
  readonly phases: readonly PhaseSquares[];
  readonly meanSpeed_rad_per_s: number;
  readonly lasts_s: number;
  readonly rest_s: number;
}

/** The square of the torque over the phase is a + 2·b·J + c·J² with J as the inertia of rotor and gear. */
export interface PhaseSquares {
  readonly lasts_s: number;
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

export function geared(load: ChoiceLoad, gear: ChoiceGear): GearedLoad {
  const { ratio, driving, driven } = gear;
  const count = load.going.length;
  const torque_Nm = new Float64Array(count);
  const speed_rad_per_s = new Float64Array(count);
  const acceleration_rad_per_s2 = new Float64Array(count);
  let highest_rad_per_s = 0;
  for (let at = 0; at < count; at++) {
    const going = load.going[at]!;
    const inertial = load.inertial_Nm[at]!;
    const steady = load.load_Nm[at]!;
    const through = going * (load.lossOnInertia ? steady + inertial : steady);
    const loss = going * (Math.max(through / driving, through * driven) - through);
    torque_Nm[at] = (steady + inertial + loss) / ratio;
    const speed = Math.abs(load.speed_rad_per_s[at]!) * ratio;
    speed_rad_per_s[at] = speed;
    acceleration_rad_per_s2[at] = load.acceleration_rad_per_s2[at]! * ratio;
    if (speed > highest_rad_per_s) highest_rad_per_s = speed;
  }
  const lasting = load.lasting.map(({ phases, lasts_s, rest_s }): GearedLasting => {
    let turned = 0;
    const squares = phases.map(({ from, to, lasts_s: phase_s }): PhaseSquares => {
      let [a, b, c] = [0, 0, 0];
      for (let at = from; at < to; at++) {
        const weight = load.weight_s[at]!;
        if (weight === 0) continue;
        const torque = torque_Nm[at]!;
        const acceleration = acceleration_rad_per_s2[at]!;
        a += weight * torque * torque;
        b += weight * torque * acceleration;
        c += weight * acceleration * acceleration;
        turned += weight * speed_rad_per_s[at]!;
      }
      return { lasts_s: phase_s, a, b, c };
    });
    return { phases: squares, meanSpeed_rad_per_s: turned / lasts_s, lasts_s, rest_s };
  });
  return { torque_Nm, speed_rad_per_s, acceleration_rad_per_s2, highest_rad_per_s, lasting, load, gear };
}

/** Of a phase with an inertia of rotor and gear, in N²·m²·s. */
export const squaresOf = ({ a, b, c }: PhaseSquares, inertia_kg_m2: number): number =>
  Math.max(0, a + inertia_kg_m2 * (2 * b + c * inertia_kg_m2));

/** Demand for each part of what there is, of what needs no walk along the cycle; `inertiaRatioAtMost` is what the axis allows. */
export const firstStrainsOf = (
  { highest_rad_per_s, load, gear }: GearedLoad,
  { area, inertia_kg_m2 }: ChoiceMotor,
  inertiaRatioAtMost: number,
) => ({
  speed: highest_rad_per_s / area.highest_rad_per_s,
  inertia_ratio: (load.inertia_kg_m2 / gear.ratio ** 2 + gear.inertia_kg_m2) / inertia_kg_m2 / inertiaRatioAtMost,
});

/** The effective torque of the lasting case that asks for the most, which case that is, and its demand for each part of what there is. */
export function warmthOf({ lasting, gear }: GearedLoad, { area, left, inertia_kg_m2, coolingAtRest }: ChoiceMotor) {
  const own = inertia_kg_m2 + gear.inertia_kg_m2;
  let [rms_Nm, torque_rms, warmest] = [0, 0, 0];
  for (let at = 0; at < lasting.length; at++) {
    const { phases, lasts_s, rest_s, meanSpeed_rad_per_s } = lasting[at]!;
    let squares = 0;
    for (const phase of phases) squares += squaresOf(phase, own);
    const rms = Math.sqrt(squares / (lasts_s - rest_s * (1 - coolingAtRest)));
    if (rms <= rms_Nm) continue;
    rms_Nm = rms;
    warmest = at;
    // Beyond the highest speed it is that one that is asked about first.
    torque_rms = rms / (left * continuousAt(area, Math.min(meanSpeed_rad_per_s, area.highest_rad_per_s)));
  }
  return { rms_Nm, torque_rms, warmest };
}

/** The highest torque, and how near any point comes to what the motor gives for a short time. */
export function peaksOf(
  { torque_Nm, speed_rad_per_s, acceleration_rad_per_s2, gear }: GearedLoad,
  { area, inertia_kg_m2 }: ChoiceMotor,
) {
  const own = inertia_kg_m2 + gear.inertia_kg_m2;
  const { peak_Nm: most, highest_rad_per_s: end, peakUpTo_rad_per_s: upTo } = area;
  let [peak_Nm, slow_Nm, torque_at_speed] = [0, 0, 0];
  for (let at = 0; at < torque_Nm.length; at++) {
    const torque = Math.abs(torque_Nm[at]! + own * acceleration_rad_per_s2[at]!);
    const speed = speed_rad_per_s[at]!;
    if (torque > peak_Nm) peak_Nm = torque;
    if (speed <= upTo) {
      if (torque > slow_Nm) slow_Nm = torque;
      continue;
    }
    const strain = torque / peakAt(area, Math.min(speed, end));
    if (strain > torque_at_speed) torque_at_speed = strain;
  }
  return { peak_Nm, torque_peak: peak_Nm / most, torque_at_speed: Math.max(torque_at_speed, slow_Nm / most) };
}

/** The torque of a lasting case as straight lines, one behind the other. */
export function linesOf(
  { torque_Nm, acceleration_rad_per_s2, load, gear }: GearedLoad,
  { inertia_kg_m2 }: ChoiceMotor,
  lasting: number,
): readonly TorqueLine[] {
  const own = inertia_kg_m2 + gear.inertia_kg_m2;
  const torque = (at: number): number => torque_Nm[at]! + own * acceleration_rad_per_s2[at]!;
  return load.lasting[lasting]!.steps.map(({ start, end, lasts_s }) => ({
    lasts_s,
    start_Nm: torque(start),
    end_Nm: torque(end),
  }));
}
