// Which cycle is needed, reason by reason: smoothness of the setpoints, bandwidth of a loop, lag behind a master. Each comes
// with its inverse, the slowest cycle for what is allowed; a faster cycle helps the reason that is asked about and no other.
// Jitter and skew are a way gone in a time (`lead.ts`), and no cycle makes them less; pulses, watchdogs and what jitter costs
// in torque stand in `signal-rate.ts`.
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
  proof: 'what is allowed gives back what it was asked for',
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
 * Position and speed are met at both ends of a cycle (Hermite). The fourth derivative is a·ω² for an acceleration that
 * swings by a at ω. A spline, which is given positions alone, errs by up to five times as
 * much (Hall and Meyer, Journal of Approximation Theory 16, 1976).
 */
const cubicError = {
  title: 'error of cubic curves between setpoints',
  text: 'a*ω^2*T^4/384',
  means: { a: 'amplitude of the acceleration', ω: 'angular frequency at which it swings', T: 'cycle of the setpoints' },
  try: { a: [0.1, 100], ω: [1, 300], T: [1e-4, 1e-2] },
  source: 'definition',
  at: 'remainder of Hermite interpolation, at most the fourth derivative over 4! times (T/2)^4',
  proof: 'cubic curves between samples of a sine err by no more, and nearly as much',
  of: (a: number, omega: number, T: number) => (a * omega ** 2 * T ** 4) / 384,
} as const;

export const cubicWayError = formula({
  ...cubicError,
  id: 'timing.rate.cubic_way_error',
  gives: 'm',
  symbols: { a: 'm/s²', ω: 'rad/s', T: 's' },
});

export const cubicAngleError = formula({
  ...cubicError,
  id: 'timing.rate.cubic_angle_error',
  gives: 'rad',
  symbols: { a: 'rad/s²', ω: 'rad/s', T: 's' },
});

const cycleForCubic = {
  title: 'slowest cycle for cubic curves between setpoints',
  text: 'sqrt(sqrt(384*e/a)/ω)',
  gives: 's',
  means: { e: 'error allowed', a: 'amplitude of the acceleration', ω: 'angular frequency at which it swings' },
  try: { e: [1e-7, 1e-3], a: [0.1, 100], ω: [1, 300] },
  source: 'definition',
  at: 'remainder of Hermite interpolation, at most the fourth derivative over 4! times (T/2)^4',
  proof: 'what is allowed gives back what it was asked for',
  of: (e: number, a: number, omega: number) => Math.sqrt(Math.sqrt((384 * e) / a) / omega),
} as const;

export const cycleForCubicWay = formula({
  ...cycleForCubic,
  id: 'timing.rate.cycle_for_cubic_way',
  symbols: { e: 'm', a: 'm/s²', ω: 'rad/s' },
});

export const cycleForCubicAngle = formula({
  ...cycleForCubic,
  id: 'timing.rate.cycle_for_cubic_angle',
  symbols: { e: 'rad', a: 'rad/s²', ω: 'rad/s' },
});

/** Where a drive does not interpolate, its setpoint of the speed jumps by this in every cycle. */
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
  proof: 'what is allowed gives back what it was asked for',
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

/** Of a loop that an integrator closes; its dead time is some cycles, and what does not depend on the cycle. */
export const sampledBandwidth = formula({
  id: 'timing.rate.bandwidth',
  title: 'bandwidth that a cycle leaves a loop',
  text: '(pi/2 - φ)/(2*pi*(n*T + d))',
  gives: 'Hz',
  symbols: { φ: 'rad', n: '1', T: 's', d: 's' },
  means: {
    φ: 'phase margin',
    n: 'cycles from a measurement to the middle of its effect',
    T: 'cycle',
    d: 'dead time beside them',
  },
  try: { φ: [0.3, 1.4], n: [1, 6], T: [1e-4, 1e-2], d: [0, 1e-2] },
  source: 'definition',
  proof: 'dead time: 1 ms leaves 125 Hz at 45°, 83.3 Hz at 60°',
  of: (phi: number, n: number, T: number, d: number) => (Math.PI / 2 - phi) / (2 * Math.PI * (n * T + d)),
});

/** Below 0 where the dead time beside the cycles alone is too long. */
export const cycleForBandwidth = formula({
  id: 'timing.rate.cycle_for_bandwidth',
  title: 'slowest cycle for the bandwidth of a loop',
  text: '((pi/2 - φ)/(2*pi*f) - d)/n',
  gives: 's',
  symbols: { φ: 'rad', f: 'Hz', n: '1', d: 's' },
  means: {
    φ: 'phase margin',
    f: 'bandwidth wanted',
    n: 'cycles from a measurement to the middle of its effect',
    d: 'dead time beside them',
  },
  try: { φ: [0.3, 1.4], f: [5, 200], n: [1, 6], d: [0, 1e-2] },
  source: 'definition',
  proof: 'what is allowed gives back what it was asked for',
  of: (phi: number, f: number, n: number, d: number) => ((Math.PI / 2 - phi) / (2 * Math.PI * f) - d) / n,
});

/** Buffers between a master and its follower, each of which holds a value for a cycle, and what else delays it. */
const lag = {
  title: 'lag behind a master',
  text: 'v*(n*T + d)',
  means: { v: 'speed', n: 'cycles that a value waits in buffers', T: 'cycle', d: 'delay beside them' },
  try: { v: [0.01, 10], n: [1, 6], T: [1e-4, 1e-2], d: [0, 1e-2] },
  source: 'definition',
  proof: 'a follower behind buffers lags by what they hold',
  of: (v: number, n: number, T: number, d: number) => v * (n * T + d),
} as const;

export const wayLag = formula({
  ...lag,
  id: 'timing.rate.lag',
  gives: 'm',
  symbols: { v: 'm/s', n: '1', T: 's', d: 's' },
});

export const angleLag = formula({
  ...lag,
  id: 'timing.rate.angle_lag',
  gives: 'rad',
  symbols: { v: 'rad/s', n: '1', T: 's', d: 's' },
});

/** Below 0 where the delay beside the cycles alone is too long. */
const cycleForLag = {
  title: 'slowest cycle for a lag behind a master',
  text: '(e/v - d)/n',
  gives: 's',
  means: { e: 'lag allowed', v: 'speed', n: 'cycles that a value waits in buffers', d: 'delay beside them' },
  try: { e: [1e-6, 1e-1], v: [0.01, 10], n: [1, 6], d: [0, 1e-2] },
  source: 'definition',
  proof: 'what is allowed gives back what it was asked for',
  of: (e: number, v: number, n: number, d: number) => (e / v - d) / n,
} as const;

export const cycleForWayLag = formula({
  ...cycleForLag,
  id: 'timing.rate.cycle_for_lag',
  symbols: { e: 'm', v: 'm/s', n: '1', d: 's' },
});

export const cycleForAngleLag = formula({
  ...cycleForLag,
  id: 'timing.rate.cycle_for_angle_lag',
  symbols: { e: 'rad', v: 'rad/s', n: '1', d: 's' },
});

/** Where the follower carries the position of its master on at the speed last seen. */
const carriedLag = {
  title: 'lag that is left where the speed carries the master on',
  text: 'a*(n*T + d)^2/2',
  means: { a: 'acceleration of the master', n: 'cycles that a value waits', T: 'cycle', d: 'delay beside them' },
  try: { a: [0.1, 100], n: [1, 6], T: [1e-4, 1e-2], d: [0, 1e-2] },
  source: 'definition',
  proof: 'a follower behind buffers lags by what they hold',
  of: (a: number, n: number, T: number, d: number) => (a * (n * T + d) ** 2) / 2,
} as const;

export const carriedWayLag = formula({
  ...carriedLag,
  id: 'timing.rate.carried_lag',
  gives: 'm',
  symbols: { a: 'm/s²', n: '1', T: 's', d: 's' },
});

export const carriedAngleLag = formula({
  ...carriedLag,
  id: 'timing.rate.carried_angle_lag',
  gives: 'rad',
  symbols: { a: 'rad/s²', n: '1', T: 's', d: 's' },
});

/** At constant speed, of two axes behind one master with a gain each and nothing fed forward. */
const gainMismatch = {
  title: 'distance between axes whose position loops differ',
  text: 'v*abs(1/k - 1/l)',
  means: { v: 'speed', k: 'gain of one position loop', l: 'gain of the other' },
  try: { v: [0.01, 10], k: [5, 500], l: [5, 500] },
  source: 'definition',
  proof: 'two position loops that are integrated part by their gains',
  of: (v: number, k: number, l: number) => v * Math.abs(1 / k - 1 / l),
} as const;

export const gainMismatchWay = formula({
  ...gainMismatch,
  id: 'timing.mismatch.way',
  gives: 'm',
  symbols: { v: 'm/s', k: '1/s', l: '1/s' },
});

export const gainMismatchAngle = formula({
  ...gainMismatch,
  id: 'timing.mismatch.angle',
  gives: 'rad',
  symbols: { v: 'rad/s', k: '1/s', l: '1/s' },
});

/** How far the gain of one axis may be below that of another, as a share of the higher one. */
const mismatchAllowed = {
  title: 'share by which the gain of one position loop may be lower',
  text: 'e*k/(v + e*k)',
  gives: '1',
  as: '%',
  means: { e: 'distance allowed', k: 'gain of the other position loop', v: 'speed' },
  try: { e: [1e-6, 1e-2], k: [5, 500], v: [0.01, 10] },
  source: 'definition',
  proof: 'what is allowed gives back what it was asked for',
  of: (e: number, k: number, v: number) => (e * k) / (v + e * k),
} as const;

export const mismatchForWay = formula({
  ...mismatchAllowed,
  id: 'timing.mismatch.for_way',
  symbols: { e: 'm', k: '1/s', v: 'm/s' },
});

export const mismatchForAngle = formula({
  ...mismatchAllowed,
  id: 'timing.mismatch.for_angle',
  symbols: { e: 'rad', k: '1/s', v: 'rad/s' },
});

/** Of a position loop around a much quicker speed loop: an integrator with a gain. */
export const loopBandwidth = formula({
  id: 'timing.rate.loop_bandwidth',
  title: 'bandwidth of a position loop',
  text: 'k/(2*pi)',
  gives: 'Hz',
  symbols: { k: '1/s' },
  means: { k: 'gain of the position loop' },
  try: { k: [5, 500] },
  source: 'definition',
  proof: 'of a loop over the network is that of its gain',
  of: (k: number) => k / (2 * Math.PI),
});

export const slowestOf = formula({
  id: 'timing.rate.slowest',
  title: 'slowest cycle that all reasons bear',
  text: 'min(T)',
  gives: 's',
  symbols: { T: 's[]' },
  means: { T: 'slowest cycle of each reason' },
  try: { T: [1e-4, 1e-2] },
  source: 'definition',
  proof: 'takes the stricter of both',
  of: (T: readonly number[]) => Math.min(...T),
});
