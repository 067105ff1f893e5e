// Every combination of motor and gear against a load, in plain numbers: what the pages of the checks say, for thousands of
// combinations at once. A load is sampled once; losses of a gear are reckoned once for all gears that have the same; what a
// motor adds by its inertia is then a line or a square for each figure, and no walk along the cycle.
import { type CurrentPiece, longestOverload } from './drive-current.ts';
import { wear } from './gear-load.ts';
import { type MotorArea, peakAt } from './motor-area.ts';
import { farthestOut, highestAt, type OutermostLines } from './outermost-lines.ts';

/** A load as it is at the shaft that the gear, or without one the motor, sits on. All arrays are of one length. */
export interface ChoiceLoad {
  /** Torque beside acceleration, and for acceleration; over 0 in the direction of a positive motion. */
  readonly load_Nm: Float64Array;
  readonly inertial_Nm: Float64Array;
  /** Without its sign. */
  readonly speed_rad_per_s: Float64Array;
  readonly acceleration_rad_per_s2: Float64Array;
  /** Which way losses act: 1, −1, or 0 at rest. */
  readonly going: Float64Array;
  /** Time that a point stands for; 0 for one that only may be a peak. */
  readonly weight_s: Float64Array;
  /** By cases, in their order. */
  readonly cases: readonly CaseLoad[];
  readonly highest_rad_per_s: number;
  readonly inertia_kg_m2: number;
  readonly lossOnInertia: boolean;
}

/** A case as points from and up to, with its time, the part of it at rest included. */
export interface CaseLoad {
  readonly kind: 'cycle' | 'ramp' | 'stop';
  readonly phases: readonly PhaseLoad[];
  readonly steps: readonly StepLoad[];
  readonly lasts_s: number;
  readonly rest_s: number;
}

export interface PhaseLoad {
  readonly from: number;
  readonly to: number;
  readonly lasts_s: number;
  readonly stands: boolean;
}

/** The points at both ends of a short step. */
export interface StepLoad {
  readonly start: number;
  readonly end: number;
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

/** A load with the losses of a gear, still in torques and speeds at its output. */
export interface LossyLoad {
  readonly load: ChoiceLoad;
  readonly torque_Nm: Float64Array;
  /** The points that ask for the highest torque at some inertia. */
  readonly peaks: OutermostLines;
  /** Of the cases that go on. */
  readonly lasting: readonly LastingSquares[];
}

/** The mean square of torque over a time: of the load, of its product with acceleration, of acceleration. */
interface Squares {
  readonly own: number;
  readonly mixed: number;
  readonly inertial: number;
}

export interface LastingSquares extends Squares {
  readonly of: CaseLoad;
  readonly phases: readonly Squares[];
  readonly meanSpeed_rad_per_s: number;
}

export function withLosses(load: ChoiceLoad, { driving, driven }: Pick<ChoiceGear, 'driving' | 'driven'>): LossyLoad {
  const { load_Nm, inertial_Nm, going, acceleration_rad_per_s2, weight_s, speed_rad_per_s } = load;
  const torque_Nm = new Float64Array(going.length);
  for (let at = 0; at < going.length; at++) {
    const way = going[at]!;
    const [steady, inertial] = [load_Nm[at]!, inertial_Nm[at]!];
    const through = way * (load.lossOnInertia ? steady + inertial : steady);
    torque_Nm[at] = steady + inertial + way * (Math.max(through / driving, through * driven) - through);
  }
  const squaresOf = (from: number, to: number) => {
    let [own, mixed, inertial, turned] = [0, 0, 0, 0];
    for (let at = from; at < to; at++) {
      const [weight, torque, acceleration] = [weight_s[at]!, torque_Nm[at]!, acceleration_rad_per_s2[at]!];
      own += weight * torque * torque;
      mixed += 2 * weight * torque * acceleration;
      inertial += weight * acceleration * acceleration;
      turned += weight * speed_rad_per_s[at]!;
    }
    return { own, mixed, inertial, turned };
  };
  const lasting = load.cases
    .filter(({ kind }) => kind === 'cycle')
    .map((each): LastingSquares => {
      const found = each.phases.map(({ from, to }) => squaresOf(from, to));
      const sum = (key: 'own' | 'mixed' | 'inertial' | 'turned') => found.reduce((all, phase) => all + phase[key], 0);
      return {
        of: each,
        phases: found,
        own: sum('own'),
        mixed: sum('mixed'),
        inertial: sum('inertial'),
        meanSpeed_rad_per_s: sum('turned') / each.lasts_s,
      };
    });
  return { load, torque_Nm, peaks: farthestOut(acceleration_rad_per_s2, torque_Nm), lasting };
}

/** What a motor of an inertia, with that of the gear, meets behind a ratio. */
export interface Driven {
  readonly behind: LossyLoad;
  readonly ratio: number;
  /** At the output: inertia by the square of the ratio. */
  readonly atOutput_kg_m2: number;
}

export const drivenBy = (behind: LossyLoad, gear: ChoiceGear, motor: ChoiceMotor): Driven => ({
  behind,
  ratio: gear.ratio,
  atOutput_kg_m2: (motor.inertia_kg_m2 + gear.inertia_kg_m2) * gear.ratio ** 2,
});

export const peakOf_Nm = ({ behind, ratio, atOutput_kg_m2 }: Driven): number =>
  highestAt(behind.peaks, atOutput_kg_m2) / ratio;

/** Torque squared by time, at the motor. */
export const squareOf = ({ ratio, atOutput_kg_m2: J }: Omit<Driven, 'behind'>, { own, mixed, inertial }: Squares) =>
  Math.max(0, own + (mixed + inertial * J) * J) / ratio ** 2;

/** The case that asks for the most effective torque. */
export function warmestOf(driven: Driven, coolingAtRest: number) {
  let found: { readonly squares: LastingSquares; readonly rms_Nm: number } | undefined;
  for (const squares of driven.behind.lasting) {
    const { lasts_s, rest_s } = squares.of;
    const rms_Nm = Math.sqrt(squareOf(driven, squares) / (lasts_s - rest_s * (1 - coolingAtRest)));
    if (found === undefined || rms_Nm > found.rms_Nm) found = { squares, rms_Nm };
  }
  return found;
}

const torqueThere = ({ behind, ratio, atOutput_kg_m2 }: Driven, at: number): number =>
  (behind.torque_Nm[at]! + atOutput_kg_m2 * behind.load.acceleration_rad_per_s2[at]!) / ratio;

/** Of what the motor gives at each speed for a short time, the largest share that is asked for. */
export function strainAtSpeed(driven: Driven, area: MotorArea): number {
  const speeds = driven.behind.load.speed_rad_per_s;
  let most = 0;
  for (let at = 0; at < speeds.length; at++) {
    const speed = Math.min(speeds[at]! * driven.ratio, area.highest_rad_per_s);
    // Where the peak torque is given, the highest torque of all is the most that can be asked for.
    if (speed <= area.peakUpTo_rad_per_s) continue;
    const strain = Math.abs(torqueThere(driven, at)) / peakAt(area, speed);
    if (strain > most) most = strain;
  }
  return Math.max(most, peakOf_Nm(driven) / area.peak_Nm);
}

/** The longest overload of a drive in a case, as time at its peak current. */
export function overloadOf_s(
  driven: Driven,
  { steps }: CaseLoad,
  { continuous_A, peak_A, constant_Nm_per_A }: { continuous_A: number; peak_A: number; constant_Nm_per_A: number },
): number {
  const pieces = steps.map(
    ({ start, end, lasts_s }): CurrentPiece => ({
      lasts_s,
      start_A: torqueThere(driven, start) / constant_Nm_per_A,
      end_A: torqueThere(driven, end) / constant_Nm_per_A,
    }),
  );
  return longestOverload(pieces, { continuous_A, peak_A: Math.max(peak_A, continuous_A * (1 + 1e-9)) });
}

/** What a gear carries at its output, over all cases; as `gearDuty`, of a load that is sampled already. */
export function carriedOf({ load_Nm, inertial_Nm, speed_rad_per_s, weight_s, cases }: ChoiceLoad, exponent: number) {
  const duty = { peak_Nm: 0, stop_Nm: 0, mean_Nm: 0, peak_rad_per_s: 0, mean_rad_per_s: 0 };
  for (const { kind, steps, lasts_s } of cases) {
    const worn = wear(exponent);
    let [peak, fastest] = [0, 0];
    for (const { start, end } of steps) {
      for (const at of [start, end]) {
        peak = Math.max(peak, Math.abs(load_Nm[at]! + inertial_Nm[at]!));
        fastest = Math.max(fastest, speed_rad_per_s[at]!);
      }
      if (kind !== 'cycle') continue;
      for (let at = start + 1; at < end; at++)
        worn.add(load_Nm[at]! + inertial_Nm[at]!, speed_rad_per_s[at]! * weight_s[at]!);
    }
    if (kind === 'stop') duty.stop_Nm = Math.max(duty.stop_Nm, peak);
    else {
      duty.peak_Nm = Math.max(duty.peak_Nm, peak);
      duty.peak_rad_per_s = Math.max(duty.peak_rad_per_s, fastest);
    }
    if (kind !== 'cycle') continue;
    duty.mean_Nm = Math.max(duty.mean_Nm, worn.mean());
    duty.mean_rad_per_s = Math.max(duty.mean_rad_per_s, worn.turned_rad() / lasts_s);
  }
  return duty;
}
