// How far an axis is behind its master, and two axes apart from each other: cycles in which a value waits, what delays it
// beside them, position loops that differ. Each is a time; what it costs on the way is the speed times it. A faster cycle
// helps the part that waits in cycles and no other.
import { formula } from '../../working/formula.ts';
import { total } from '../../working/total.ts';

/** Buffers between a master and its follower, each of which holds a value for a cycle, and what else delays it. */
const lag = {
  title: 'way that is gone in cycles and in what is beside them',
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

/** Below 0 where what is beside the cycles takes too long by itself: no cycle will do then. */
const timeLeft = {
  title: 'time that an error leaves for cycles',
  text: 'e/v - d',
  gives: 's',
  means: { e: 'error allowed', v: 'speed', d: 'what delays beside the cycles' },
  try: { e: [1e-6, 1e-1], v: [0.01, 10], d: [0, 1e-2] },
  source: 'definition',
  proof: 'what is allowed gives back what it was asked for',
  of: (e: number, v: number, d: number) => e / v - d,
} as const;

export const timeLeftOnWay = formula({
  ...timeLeft,
  id: 'timing.rate.time_left',
  symbols: { e: 'm', v: 'm/s', d: 's' },
});

export const timeLeftInAngle = formula({
  ...timeLeft,
  id: 'timing.rate.time_left_turning',
  symbols: { e: 'rad', v: 'rad/s', d: 's' },
});

const carriedTimeLeft = {
  title: 'time that an error leaves for cycles, where the speed carries the master on',
  text: 'sqrt(2*e/a) - d',
  gives: 's',
  means: { e: 'error allowed', a: 'acceleration of the master', d: 'what delays beside the cycles' },
  try: { e: [1e-6, 1e-1], a: [0.1, 100], d: [0, 1e-2] },
  source: 'definition',
  proof: 'what is allowed gives back what it was asked for',
  of: (e: number, a: number, d: number) => Math.sqrt((2 * e) / a) - d,
} as const;

export const carriedTimeLeftOnWay = formula({
  ...carriedTimeLeft,
  id: 'timing.rate.carried_time_left',
  symbols: { e: 'm', a: 'm/s²', d: 's' },
});

export const carriedTimeLeftInAngle = formula({
  ...carriedTimeLeft,
  id: 'timing.rate.carried_time_left_turning',
  symbols: { e: 'rad', a: 'rad/s²', d: 's' },
});

export const cycleInTime = formula({
  id: 'timing.rate.cycle_in_time',
  title: 'slowest cycle of which so many have room in a time',
  text: 't/n',
  gives: 's',
  symbols: { t: 's', n: '1' },
  means: { t: 'time that is left for cycles', n: 'cycles that a value waits' },
  try: { t: [1e-4, 1e-2], n: [1, 6] },
  source: 'definition',
  proof: 'what is allowed gives back what it was asked for',
  of: (t: number, n: number) => t / n,
});

export const cyclesTogether = formula({
  id: 'timing.rate.cycles',
  title: 'cycles that a value waits, one after another',
  text: 'sum(n)',
  gives: '1',
  symbols: { n: '1[]' },
  means: { n: 'cycles in each place' },
  try: { n: [0, 4, 1] },
  source: 'definition',
  proof: 'a follower behind buffers lags by what they hold',
  of: (n: readonly number[]) => total(n),
});

export const delaysTogether = formula({
  id: 'timing.rate.delays',
  title: 'what delays beside the cycles, taken together',
  text: 'sum(d)',
  gives: 's',
  symbols: { d: 's[]' },
  means: { d: 'each delay, as if all went the same way' },
  try: { d: [0, 1e-2] },
  source: 'definition',
  proof: 'a follower behind buffers lags by what they hold',
  of: (d: readonly number[]) => total(d),
});

/** At constant speed, behind one master: a loop with a gain is behind by what is not fed forward, over the gain. */
export const gainsApart = formula({
  id: 'timing.apart.gains',
  title: 'time between axes whose position loops differ',
  text: 'abs((1 - f)/k - (1 - g)/l)',
  gives: 's',
  symbols: { f: '1', k: '1/s', g: '1', l: '1/s' },
  means: {
    f: 'share of the speed that one loop is fed forward',
    k: 'its gain',
    g: 'share that the other one is fed forward',
    l: 'its gain',
  },
  try: { f: [0, 1], k: [5, 500], g: [0, 1], l: [5, 500] },
  source: 'definition',
  proof: 'two position loops that are integrated part by their gains',
  of: (f: number, k: number, g: number, l: number) => Math.abs((1 - f) / k - (1 - g) / l),
});

/** In cycles of the first, since both become slower together. */
export const cyclesApart = formula({
  id: 'timing.apart.cycles',
  title: 'cycles by which setpoints wait longer for one axis than for another',
  text: 'abs(n - m*S/T)',
  gives: '1',
  symbols: { n: '1', m: '1', S: 's', T: 's' },
  means: { n: 'cycles of the first', m: 'cycles of the other', S: 'period of the other', T: 'period of the first' },
  try: { n: [1, 5, 1], m: [1, 5, 1], S: [1e-3, 4e-3], T: [1e-3, 4e-3] },
  source: 'definition',
  proof: 'two axes behind buffers of their own are apart by what the longer line holds',
  of: (n: number, m: number, S: number, T: number) => Math.abs(n - (m * S) / T),
});

export const arrivalsApart = formula({
  id: 'timing.apart.arrivals',
  title: 'time between the arrivals of two commands',
  text: 'abs(t - u)',
  gives: 's',
  symbols: { t: 's', u: 's' },
  means: { t: 'one command is at its station', u: 'the other one is at its own' },
  try: { t: [1e-6, 1e-3], u: [1e-6, 1e-3] },
  source: 'definition',
  proof: 'two axes behind buffers of their own are apart by what the longer line holds',
  of: (t: number, u: number) => Math.abs(t - u),
});
