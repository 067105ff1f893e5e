// Every combination of motor and gear against a load, in plain numbers: what the pages of the checks say, for thousands of
// combinations at once. A load is sampled once; a gear turns it into two numbers a point, a motor adds its inertia.

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
  readonly lasts_s: number;
  readonly rest_s: number;
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

/** Demand for each part of what there is, by what is asked; and the torques that a drive has to give current for. */
export interface Strains {
  readonly torque_peak: number;
  readonly torque_at_speed: number;
  readonly torque_rms: number;
  readonly peak_Nm: number;
  readonly rms_Nm: number;
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
  readonly load: ChoiceLoad;
  readonly gear: ChoiceGear;
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
  return { torque_Nm, speed_rad_per_s, acceleration_rad_per_s2, highest_rad_per_s, load, gear };
}

/** Demand for each part of what there is, of what needs no walk along the cycle; `inertiaRatioAtMost` is what the axis allows. */
export const firstStrainsOf = (
  { highest_rad_per_s, load, gear }: GearedLoad,
  { area, inertia_kg_m2 }: ChoiceMotor,
  inertiaRatioAtMost: number,
) => ({
  speed: highest_rad_per_s / area.highest_rad_per_s,
  inertia_ratio: (load.inertia_kg_m2 / gear.ratio ** 2 + gear.inertia_kg_m2) / inertia_kg_m2 / inertiaRatioAtMost,
});

/** How a motor is strained along the cycle. */
export function strainsOf(
  { torque_Nm, speed_rad_per_s, acceleration_rad_per_s2, load, gear }: GearedLoad,
  { area, left, inertia_kg_m2, coolingAtRest }: ChoiceMotor,
): Strains {
  const own = inertia_kg_m2 + gear.inertia_kg_m2;
  const { peak_Nm: most, highest_rad_per_s: end } = area;
  let [peak_Nm, atSpeed] = [0, 0];
  for (let at = 0; at < torque_Nm.length; at++) {
    const torque = Math.abs(torque_Nm[at]! + own * acceleration_rad_per_s2[at]!);
    // Beyond the highest speed it is that one that is asked about first.
    const strain = torque / peakAt(area, Math.min(speed_rad_per_s[at]!, end));
    if (torque > peak_Nm) peak_Nm = torque;
    if (strain > atSpeed) atSpeed = strain;
  }
  let [rms_Nm, warmest] = [0, 0];
  for (const { phases, lasts_s, rest_s } of load.lasting) {
    let [squares, turned] = [0, 0];
    for (const { from, to } of phases) {
      for (let at = from; at < to; at++) {
        const torque = torque_Nm[at]! + own * acceleration_rad_per_s2[at]!;
        squares += load.weight_s[at]! * torque * torque;
        turned += load.weight_s[at]! * speed_rad_per_s[at]!;
      }
    }
    const rms = Math.sqrt(squares / (lasts_s - rest_s * (1 - coolingAtRest)));
    // The case that asks for the most effective torque is the one that is weighed.
    if (rms <= rms_Nm) continue;
    rms_Nm = rms;
    warmest = rms / (left * continuousAt(area, Math.min(turned / lasts_s, end)));
  }
  return {
    torque_peak: peak_Nm / most,
    torque_at_speed: atSpeed,
    torque_rms: warmest,
    peak_Nm,
    rms_Nm,
  };
}
