// What lies between two setpoints: how far straight lines and cubic curves leave the motion, and how far the speed steps,
// each with its inverse, the slowest cycle for what is allowed. A setpoint that is held until the next one errs by the way
// that is gone in a cycle (`lead.ts`).
import { formula } from '../../working/formula.ts';

const linearError = {
  title: 'error of straight lines between setpoints',
  text: 'a*T^2/8',
  means: { a: 'highest acceleration', T: 'cycle of the setpoints' },
  try: { a: [0.1, 100], T: [1e-4, 1e-2] },
  source: 'pang',
  at: 'linear interpolation, p. 17',
  proof: 'the bound on linear interpolation, sine between π/4 and π/2',
  of: (a: number, T: number) => (a * T ** 2) / 8,
} as const;

export const linearWayError = formula({
  ...linearError,
  id: 'timing.rate.linear_way_error',
  gives: 'm',
  symbols: { a: 'm/s²', T: 's' },
});

export const linearAngleError = formula({
  ...linearError,
  id: 'timing.rate.linear_angle_error',
  gives: 'rad',
  symbols: { a: 'rad/s²', T: 's' },
});

const cycleForLinear = {
  title: 'slowest cycle for straight lines between setpoints',
  text: 'sqrt(8*e/a)',
  gives: 's',
  means: { e: 'error allowed', a: 'highest acceleration' },
  try: { e: [1e-7, 1e-3], a: [0.1, 100] },
  source: 'pang',
  at: 'linear interpolation, p. 17',
  proof: 'what is allowed between setpoints gives back what it was asked for',
  of: (e: number, a: number) => Math.sqrt((8 * e) / a),
} as const;

export const cycleForLinearWay = formula({
  ...cycleForLinear,
  id: 'timing.rate.cycle_for_linear_way',
  symbols: { e: 'm', a: 'm/s²' },
});

export const cycleForLinearAngle = formula({
  ...cycleForLinear,
  id: 'timing.rate.cycle_for_linear_angle',
  symbols: { e: 'rad', a: 'rad/s²' },
});

/**
 * Position and speed are met at both ends of a cycle (Hermite). The error of the middle is the integral of what the
 * acceleration, or the jerk, does over the cycle, weighed by a kernel whose sign changes: at most a/16 and j/96, and both
 * are reached where they turn with it. Both bounds hold, so the tighter one counts. A spline, which is given positions
 * alone, errs by up to five times as much (Hall and Meyer, Journal of Approximation Theory 16, 1976, from memory).
 */
const cubicError = {
  title: 'error of cubic curves between setpoints',
  text: 'min(a*T^2/16, j*T^3/96)',
  means: { a: 'highest acceleration', j: 'highest jerk', T: 'cycle of the setpoints' },
  try: { a: [1, 50], j: [100, 50000], T: [1e-3, 2e-2] },
  source: 'definition',
  at: 'remainder of Hermite interpolation by the kernel of Peano',
  proof: 'cubic curves between setpoints err by no more than their bound',
  of: (a: number, j: number, T: number) => Math.min((a * T ** 2) / 16, (j * T ** 3) / 96),
} as const;

export const cubicWayError = formula({
  ...cubicError,
  id: 'timing.rate.cubic_way_error',
  gives: 'm',
  symbols: { a: 'm/s²', j: 'm/s³', T: 's' },
});

export const cubicAngleError = formula({
  ...cubicError,
  id: 'timing.rate.cubic_angle_error',
  gives: 'rad',
  symbols: { a: 'rad/s²', j: 'rad/s³', T: 's' },
});

/** Where the acceleration jumps, no jerk bounds it. */
const cubicJumpError = {
  title: 'error of cubic curves between setpoints, where the acceleration jumps',
  text: 'a*T^2/16',
  means: { a: 'highest acceleration', T: 'cycle of the setpoints' },
  try: { a: [0.1, 100], T: [1e-4, 1e-2] },
  source: 'definition',
  at: 'remainder of Hermite interpolation by the kernel of Peano',
  proof: 'cubic curves between setpoints err by no more than their bound',
  of: (a: number, T: number) => (a * T ** 2) / 16,
} as const;

export const cubicJumpWayError = formula({
  ...cubicJumpError,
  id: 'timing.rate.cubic_jump_way_error',
  gives: 'm',
  symbols: { a: 'm/s²', T: 's' },
});

export const cubicJumpAngleError = formula({
  ...cubicJumpError,
  id: 'timing.rate.cubic_jump_angle_error',
  gives: 'rad',
  symbols: { a: 'rad/s²', T: 's' },
});

const cycleForCubic = {
  title: 'slowest cycle for cubic curves between setpoints',
  text: 'max(sqrt(16*e/a), (96*e/j)^(1/3))',
  gives: 's',
  means: { e: 'error allowed', a: 'highest acceleration', j: 'highest jerk' },
  try: { e: [1e-6, 1e-3], a: [1, 50], j: [100, 50000] },
  source: 'definition',
  at: 'remainder of Hermite interpolation by the kernel of Peano',
  proof: 'what is allowed between setpoints gives back what it was asked for',
  of: (e: number, a: number, j: number) => Math.max(Math.sqrt((16 * e) / a), Math.cbrt((96 * e) / j)),
} as const;

export const cycleForCubicWay = formula({
  ...cycleForCubic,
  id: 'timing.rate.cycle_for_cubic_way',
  symbols: { e: 'm', a: 'm/s²', j: 'm/s³' },
});

export const cycleForCubicAngle = formula({
  ...cycleForCubic,
  id: 'timing.rate.cycle_for_cubic_angle',
  symbols: { e: 'rad', a: 'rad/s²', j: 'rad/s³' },
});

const cycleForCubicJump = {
  title: 'slowest cycle for cubic curves between setpoints, where the acceleration jumps',
  text: 'sqrt(16*e/a)',
  gives: 's',
  means: { e: 'error allowed', a: 'highest acceleration' },
  try: { e: [1e-7, 1e-3], a: [0.1, 100] },
  source: 'definition',
  at: 'remainder of Hermite interpolation by the kernel of Peano',
  proof: 'what is allowed between setpoints gives back what it was asked for',
  of: (e: number, a: number) => Math.sqrt((16 * e) / a),
} as const;

export const cycleForCubicJumpWay = formula({
  ...cycleForCubicJump,
  id: 'timing.rate.cycle_for_cubic_jump_way',
  symbols: { e: 'm', a: 'm/s²' },
});

export const cycleForCubicJumpAngle = formula({
  ...cycleForCubicJump,
  id: 'timing.rate.cycle_for_cubic_jump_angle',
  symbols: { e: 'rad', a: 'rad/s²' },
});

/** Positions that are held, or joined by straight lines, make the speed step by this in every cycle. */
const speedJump = {
  title: 'step of the speed from cycle to cycle',
  text: 'a*T',
  means: { a: 'highest acceleration', T: 'cycle of the setpoints' },
  try: { a: [0.1, 100], T: [1e-4, 1e-2] },
  source: 'definition',
  proof: 'setpoints of a ramp step by acceleration times cycle',
  of: (a: number, T: number) => a * T,
} as const;

export const speedJumpOnWay = formula({
  ...speedJump,
  id: 'timing.rate.speed_jump',
  gives: 'm/s',
  symbols: { a: 'm/s²', T: 's' },
});

export const speedJumpOfTurning = formula({
  ...speedJump,
  id: 'timing.rate.turning_jump',
  gives: 'rad/s',
  symbols: { a: 'rad/s²', T: 's' },
});

const cycleForJump = {
  title: 'slowest cycle for a step of the speed',
  text: 'v/a',
  gives: 's',
  means: { v: 'step of the speed allowed', a: 'highest acceleration' },
  try: { v: [1e-4, 0.1], a: [0.1, 100] },
  source: 'definition',
  proof: 'what is allowed between setpoints gives back what it was asked for',
  of: (v: number, a: number) => v / a,
} as const;

export const cycleForSpeedJump = formula({
  ...cycleForJump,
  id: 'timing.rate.cycle_for_jump',
  symbols: { v: 'm/s', a: 'm/s²' },
});

export const cycleForTurningJump = formula({
  ...cycleForJump,
  id: 'timing.rate.cycle_for_turning_jump',
  symbols: { v: 'rad/s', a: 'rad/s²' },
});
