// An encoder that gives the position of a master: its counts, and what counting, sampling and a filter do to the speed.
// A measuring wheel goes a way in each turn and has the master in m; an encoder on a shaft goes one turn and has it in rad.
// What a wheel has to give for the accelerations seen here is `accelerationTorque`.
import { formula } from '../../working/formula.ts';

export const encoderCounts = formula({
  id: 'axes.encoder.counts',
  title: 'counts of an encoder in one turn',
  text: 'z*q',
  gives: '1',
  symbols: { z: '1', q: '1' },
  means: { z: 'lines', q: 'counts for each line: 4 where both edges of both tracks count' },
  try: { z: [100, 10000, 1], q: [1, 4, 1] },
  source: 'definition',
  proof: 'a turn is counted whole',
  of: (z: number, q: number) => z * q,
});

const perCount = {
  title: 'way for one count of an encoder',
  text: 'W/n',
  means: { W: 'way in one turn of the encoder', n: 'counts in one turn' },
  try: { W: [0.05, 7], n: [100, 40000, 1] },
  source: 'definition',
  proof: 'a turn is counted whole',
  of: (W: number, n: number) => W / n,
} as const;

export const encoderWay = formula({
  ...perCount,
  id: 'axes.encoder.way',
  gives: 'm',
  symbols: { W: 'm', n: '1' },
});

export const encoderAngle = formula({
  ...perCount,
  id: 'axes.encoder.angle',
  gives: 'rad',
  symbols: { W: 'rad', n: '1' },
});

const frequency = {
  title: 'counts of an encoder in a second',
  text: 'v/w',
  gives: 'Hz',
  means: { v: 'speed, without its sign', w: 'way for one count' },
  try: { v: [0.01, 10], w: [1e-6, 1e-3] },
  source: 'definition',
  proof: 'a turn is counted whole',
  of: (v: number, w: number) => v / w,
} as const;

export const countFrequency = formula({
  ...frequency,
  id: 'axes.encoder.frequency',
  symbols: { v: 'm/s', w: 'm' },
});

export const turningCountFrequency = formula({
  ...frequency,
  id: 'axes.encoder.turning_frequency',
  symbols: { v: 'rad/s', w: 'rad' },
});

/** What the data of an input usually limit. */
export const trackFrequency = formula({
  id: 'axes.encoder.track_frequency',
  title: 'frequency of one track of an encoder',
  text: 'f/q',
  gives: 'Hz',
  symbols: { f: 'Hz', q: '1' },
  means: { f: 'counts in a second', q: 'counts for each line' },
  try: { f: [10, 1e7], q: [1, 4, 1] },
  source: 'definition',
  proof: 'a turn is counted whole',
  of: (f: number, q: number) => f / q,
});

/** Each period of a track changes the signal twice. */
export const longestCable = formula({
  id: 'axes.encoder.longest_cable',
  title: 'longest cable of a differential signal',
  text: 'min(L, L*r/(2*f))',
  gives: 'm',
  symbols: { L: 'm', r: 'Hz', f: 'Hz' },
  means: {
    L: 'length that a slow signal reaches',
    r: 'changes in a second up to which it does',
    f: 'frequency of one track',
  },
  try: { L: [500, 1500], r: [5e4, 2e5], f: [1e4, 5e6] },
  source: 'tia-422',
  proof: 'a differential line of 1200 m carries 100 kbit/s, one of 12 m carries 10 Mbit/s',
  of: (L: number, r: number, f: number) => Math.min(L, (L * r) / (2 * f)),
});

/** A sample holds a whole number of counts, so at constant speed the speed seen changes between two values this far apart. */
const speedStep = {
  title: 'step of a speed that is counted',
  text: 'w/T',
  means: { w: 'way for one count', T: 'time between two samples' },
  try: { w: [1e-6, 1e-3], T: [1e-4, 1e-2] },
  source: 'common-practice',
  proof: 'a counted speed has two values one step apart',
  of: (w: number, T: number) => w / T,
} as const;

export const countedSpeedStep = formula({
  ...speedStep,
  id: 'axes.encoder.speed_step',
  gives: 'm/s',
  symbols: { w: 'm', T: 's' },
});

export const countedTurningStep = formula({
  ...speedStep,
  id: 'axes.encoder.turning_step',
  gives: 'rad/s',
  symbols: { w: 'rad', T: 's' },
});

/**
 * Behind a filter that adds T/(τ + T) of the difference to its input at each sample. At constant speed the counts are
 * spread as evenly as whole numbers can be, and what comes out swings by this much from its lowest to its highest value,
 * or by less where the pattern of counts repeats soon.
 */
const filteredStep = {
  title: 'swing of a speed that is counted, behind a filter of first order',
  text: 's*T/(τ + T)',
  means: { s: 'step of the speed', T: 'time between two samples', τ: 'time constant of the filter, 0 without one' },
  try: { s: [1e-4, 1], T: [1e-4, 1e-2], τ: [1e-4, 0.05] },
  source: 'judgement',
  at: 'the filter as a backward difference',
  proof: 'a filtered count swings by its share of the step',
  of: (s: number, T: number, tau: number) => (s * T) / (tau + T),
} as const;

export const filteredSpeedStep = formula({
  ...filteredStep,
  id: 'axes.encoder.filtered_step',
  gives: 'm/s',
  symbols: { s: 'm/s', T: 's', τ: 's' },
});

export const filteredTurningStep = formula({
  ...filteredStep,
  id: 'axes.encoder.filtered_turning_step',
  gives: 'rad/s',
  symbols: { s: 'rad/s', T: 's', τ: 's' },
});

/** The same share at every follower, whatever its ratio to the master. */
export const speedRipple = formula({
  id: 'axes.encoder.ripple',
  title: 'ripple of the speed of a master, as a share of it',
  text: 's/v',
  gives: '1',
  as: '%',
  symbols: { s: 'same', v: 'same' },
  means: { s: 'step or swing of the speed', v: 'speed, without its sign' },
  try: { s: [1e-4, 1], v: [0.01, 10] },
  source: 'definition',
  proof: 'followers of every ratio have the ripple of their master',
  of: (s: number, v: number) => s / v,
});

export const followerRipple = formula({
  id: 'axes.encoder.follower_ripple',
  title: 'ripple of the speed of a motor behind a counted master',
  text: 'r*ω',
  gives: 'rad/s',
  as: 'rpm',
  symbols: { r: '1', ω: 'rad/s' },
  means: { r: 'ripple of the speed of the master, as a share of it', ω: 'highest speed of the motor' },
  try: { r: [1e-5, 0.1], ω: [1, 600] },
  source: 'definition',
  proof: 'followers of every ratio have the ripple of their master',
  of: (r: number, omega: number) => r * omega,
});

/** One way per count over T² without a filter; behind one, with its swing for the step, at most this. */
const accelerationStep = {
  title: 'acceleration that a step of a counted speed looks like',
  text: 's/T',
  means: { s: 'step or swing of the speed', T: 'time between two samples' },
  try: { s: [1e-4, 1], T: [1e-4, 1e-2] },
  source: 'common-practice',
  proof: 'at constant speed a count seen twice differentiated is an acceleration',
  of: (s: number, T: number) => s / T,
} as const;

export const countedAcceleration = formula({
  ...accelerationStep,
  id: 'axes.encoder.acceleration',
  gives: 'm/s²',
  symbols: { s: 'm/s', T: 's' },
});

export const countedTurningAcceleration = formula({
  ...accelerationStep,
  id: 'axes.encoder.turning_acceleration',
  gives: 'rad/s²',
  symbols: { s: 'rad/s', T: 's' },
});

export const rippleTorqueAtMost = formula({
  id: 'axes.encoder.ripple_torque_at_most',
  title: 'torque of a ripple that a motor bears without humming',
  text: 's*T',
  gives: 'N·m',
  symbols: { s: '1', T: 'N·m' },
  means: { s: 'share of its torque', T: 'torque that the motor gives for any length of time' },
  try: { s: [0.01, 0.3], T: [0.1, 200] },
  source: 'judgement',
  proof: 'shakes its follower: by hand from the inertia at the motor',
  of: (s: number, T: number) => s * T,
});

/** In the steady state, at constant speed. */
const filterLag = {
  title: 'lag of a position behind a filter of first order',
  text: 'v*τ',
  means: { v: 'speed', τ: 'time constant of the filter' },
  try: { v: [0.01, 10], τ: [1e-4, 0.5] },
  source: 'definition',
  proof: 'a filter that is integrated lags and settles',
  of: (v: number, tau: number) => v * tau,
} as const;

export const filterWayLag = formula({
  ...filterLag,
  id: 'axes.filter.lag',
  gives: 'm',
  symbols: { v: 'm/s', τ: 's' },
});

export const filterAngleLag = formula({
  ...filterLag,
  id: 'axes.filter.angle_lag',
  gives: 'rad',
  symbols: { v: 'rad/s', τ: 's' },
});

export const filterLeaves = formula({
  id: 'axes.filter.leaves',
  title: 'share of a step that a filter of first order has not followed yet',
  text: 'exp(-t/τ)',
  gives: '1',
  as: '%',
  symbols: { t: 's', τ: 's' },
  means: { t: 'time since the step', τ: 'time constant of the filter' },
  try: { t: [0.001, 0.2], τ: [0.002, 0.1] },
  source: 'definition',
  proof: 'a filter that is integrated lags and settles',
  of: (t: number, tau: number) => Math.exp(-t / tau),
});
