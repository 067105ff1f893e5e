// What a motor gives at a speed, for any length of time and for a short one, and how near points of a cycle come to it.
// The continuous area is bounded by heat, a straight line from the torque at rest through the one at rated speed. The
// intermittent one is bounded by the peak torque and, from a speed on, by the voltage: from there a straight line goes to
// the rated torque at the highest speed.
import { formula } from '../../working/formula.ts';
import { mustBeOverZero } from './over-zero.ts';

export interface MotorArea {
  /** For any length of time, at rest and at rated speed. */
  readonly torque_Nm: number;
  readonly ratedTorque_Nm: number;
  readonly ratedSpeed_rad_per_s: number;
  /** For a short time, up to a speed. */
  readonly peak_Nm: number;
  readonly peakUpTo_rad_per_s: number;
  /** Beyond it the motor gives nothing. */
  readonly highest_rad_per_s: number;
}

/** A point of a cycle, and how much the motor has over there, as a share of what it gives; −∞ where it gives nothing. */
export interface NearestPoint {
  readonly at: number;
  readonly margin: number;
}

/** Torque at a speed for any length of time. Of both, the sign does not count, in the others either. */
export function continuousAt(area: MotorArea, speed_rad_per_s: number): number {
  const speed = Math.abs(speed_rad_per_s);
  if (speed > area.highest_rad_per_s) return 0;
  return continuous(area.torque_Nm, area.ratedTorque_Nm, area.ratedSpeed_rad_per_s, speed);
}

/** Torque at a speed for a short time. */
export function peakAt(area: MotorArea, speed_rad_per_s: number): number {
  const { peak_Nm, ratedTorque_Nm, peakUpTo_rad_per_s, highest_rad_per_s } = area;
  return peak(peak_Nm, ratedTorque_Nm, peakUpTo_rad_per_s, highest_rad_per_s, Math.abs(speed_rad_per_s));
}

/**
 * The area where mains have a share of the voltage that it is stated for: what the voltage bounds is reached at lower
 * speeds, what heat bounds stays. Throws a RangeError for a share that is not over 0.
 */
export function areaAtVoltage(area: MotorArea, share: number): MotorArea {
  mustBeOverZero({ 'the share of the voltage': share });
  return {
    ...area,
    peakUpTo_rad_per_s: share * area.peakUpTo_rad_per_s,
    highest_rad_per_s: share * area.highest_rad_per_s,
  };
}

/** The first of the points that have the least margin against one of the areas; undefined without a point. */
export function nearestPoint(
  givenAt: (speed_rad_per_s: number) => number,
  speeds_rad_per_s: ArrayLike<number>,
  torques_Nm: ArrayLike<number>,
): NearestPoint | undefined {
  let nearest: NearestPoint | undefined;
  for (let at = 0; at < speeds_rad_per_s.length; at++) {
    const given_Nm = givenAt(speeds_rad_per_s[at]!);
    const margin = given_Nm > 0 ? (given_Nm - Math.abs(torques_Nm[at]!)) / given_Nm : -Infinity;
    if (nearest === undefined || margin < nearest.margin) nearest = { at, margin };
  }
  return nearest;
}

function continuous(torque: number, rated: number, ratedSpeed: number, speed: number): number {
  const lost = ((torque - rated) * speed) / ratedSpeed;
  return Math.max(torque, lost) - lost;
}

function peak(most: number, rated: number, upTo: number, highest: number, speed: number): number {
  if (speed > highest) return 0;
  if (speed <= upTo) return most;
  return Math.min(most, most - ((most - rated) * (speed - upTo)) / (highest - upTo));
}

const speed = 'speed, without its sign and at most the highest one';

export const continuousTorqueAt = formula({
  id: 'axes.motor.continuous_torque_at',
  title: 'torque that a motor gives at a speed for any length of time',
  text: 'max(C, (C - R)*ω/r) - (C - R)*ω/r',
  gives: 'N·m',
  symbols: { C: 'N·m', R: 'N·m', r: 'rad/s', ω: 'rad/s' },
  means: { C: 'continuous torque at rest', R: 'continuous torque at rated speed', r: 'rated speed', ω: speed },
  try: { C: [5, 20], R: [0.5, 4.9], r: [100, 500], ω: [0, 700] },
  source: 'common-practice',
  proof: 'points of both areas lie on lines drawn between their corners',
  of: continuous,
});

export const peakTorqueAt = formula({
  id: 'axes.motor.peak_torque_at',
  title: 'torque that a motor gives at a speed for a short time',
  cases: [{ when: 'ω > n', text: '0*P' }, { text: 'min(P, P - (P - R)*(ω - c)/(n - c))' }],
  gives: 'N·m',
  symbols: { P: 'N·m', R: 'N·m', c: 'rad/s', n: 'rad/s', ω: 'rad/s' },
  means: {
    P: 'peak torque',
    R: 'torque at the highest speed: the continuous one at rated speed',
    c: 'speed up to which it gives its peak torque',
    n: 'highest speed, beyond which it gives nothing',
    ω: 'speed, without its sign',
  },
  try: { P: [5, 50], R: [0.5, 4.9], c: [100, 300], n: [310, 400, 10], ω: [0, 450, 10] },
  source: 'common-practice',
  proof: 'points of both areas lie on lines drawn between their corners',
  of: peak,
});

/**
 * Of speeds that the voltage bounds: the voltage induced in the motor goes with its speed, and there it has used up what
 * the mains give. What the resistance of the winding takes is left out; it makes the speed lower still.
 */
export const speedAtVoltage = formula({
  id: 'axes.motor.speed_at_voltage',
  title: 'speed that a motor reaches at low mains',
  text: 'ω*u/U',
  gives: 'rad/s',
  as: 'rpm',
  symbols: { ω: 'rad/s', u: 'V', U: 'V' },
  means: { ω: 'speed at the mains that it is stated for', u: 'lowest voltage of the mains', U: 'stated voltage' },
  try: { ω: [50, 700], u: [180, 400], U: [200, 500] },
  source: 'common-practice',
  proof: 'a voltage equation gives speeds that go with the voltage',
  of: (omega: number, u: number, U: number) => (omega * u) / U,
});
