// How an axis goes with its master: times of a product and a cycle, speeds by a gear, what a ramp of the master adds.
// Where a formula stands twice, it is in m and in rad, since a quantity says which of the two it is.
import { formula } from '../../working/formula.ts';
import { total } from '../../working/total.ts';

export const wayTime = formula({
  id: 'axes.master.way_time',
  title: 'time in which the master runs a way',
  text: 'l/v',
  gives: 's',
  symbols: { l: 'm', v: 'm/s' },
  means: { l: 'way of the master', v: 'its speed' },
  try: { l: [0.01, 3], v: [0.1, 10] },
  source: 'definition',
  proof: 'W7',
  of: (l: number, v: number) => l / v,
});

export const turnTime = formula({
  id: 'axes.master.turn_time',
  title: 'time in which the master turns once',
  text: '2*pi/ω',
  gives: 's',
  symbols: { ω: 'rad/s' },
  means: { ω: 'speed of the master' },
  try: { ω: [0.1, 700] },
  source: 'definition',
  proof: 'M1',
  of: (omega: number) => (2 * Math.PI) / omega,
});

export const productsTime = formula({
  id: 'axes.cycle.products_time',
  title: 'cycle of an axis that works on every so many products',
  text: 'n*t',
  gives: 's',
  symbols: { n: '1', t: 's' },
  means: { n: 'products in a cycle', t: 'time for one product' },
  try: { n: [1, 12, 1], t: [0.01, 5] },
  source: 'definition',
  proof: 'cycle of a follower by hand',
  of: (n: number, t: number) => n * t,
});

export const timeTaken = formula({
  id: 'axes.cycle.taken',
  title: 'time that the steps of a cycle take',
  text: 'sum(t)',
  gives: 's',
  symbols: { t: 's[]' },
  means: { t: 'each step' },
  try: { t: [0.01, 2] },
  source: 'definition',
  proof: 'cycle of a follower by hand',
  of: (t: readonly number[]) => total(t),
});

export const restOfCycle = formula({
  id: 'axes.cycle.rest',
  title: 'what is left of a cycle to stand still',
  text: 'c - t',
  gives: 's',
  symbols: { c: 's', t: 's' },
  means: { c: 'cycle', t: 'time that the steps take' },
  try: { c: [1, 5], t: [0.1, 1] },
  source: 'definition',
  proof: 'cycle of a follower by hand',
  of: (c: number, t: number) => c - t,
});

const geared = {
  title: 'speed by an electronic gear',
  text: 'v*z/n',
  means: { v: 'speed of the master', z: 'way of the axis', n: 'way of the master in which it is made' },
  source: 'definition',
  proof: 'cycle of a follower by hand',
  of: (v: number, z: number, n: number) => (v * z) / n,
} as const;

export const gearedSpeed = formula({
  ...geared,
  id: 'axes.follow.speed',
  gives: 'm/s',
  symbols: { v: 'm/s', z: '1', n: '1' },
  try: { v: [0.1, 10], z: [1, 100, 1], n: [1, 100, 1] },
});

export const gearedTurning = formula({
  ...geared,
  id: 'axes.follow.turning_speed',
  gives: 'rad/s',
  as: 'rpm',
  symbols: { v: 'rad/s', z: '1', n: '1' },
  try: { v: [0.1, 700], z: [1, 100, 1], n: [1, 100, 1] },
});

export const turnsEverySpeed = formula({
  id: 'axes.follow.turns_every',
  title: 'speed of an axis that turns once in a way of the master',
  text: '2*pi*v/l',
  gives: 'rad/s',
  as: 'rpm',
  symbols: { v: 'm/s', l: 'm' },
  means: { v: 'speed of the master', l: 'way of the master for one turn' },
  try: { v: [0.1, 10], l: [0.05, 3] },
  source: 'definition',
  proof: 'cycle of a follower by hand',
  of: (v: number, l: number) => (2 * Math.PI * v) / l,
});

/** While a master gets quicker along a ramp, whatever follows it gets quicker in the same proportion. */
const rising = {
  title: 'acceleration of a follower while its master gets quicker, at full speed',
  text: 'a + u/t',
  means: {
    a: 'acceleration at constant speed of the master',
    u: 'speed of the follower',
    t: 'time of the master from standstill to full speed',
  },
  source: 'definition',
  proof: 'a follower behind a master on its ramp, differentiated twice',
  of: (a: number, u: number, t: number) => a + u / t,
} as const;

const falling = {
  title: 'acceleration of a follower while its master gets slower, at full speed',
  text: 'a - u/t',
  means: { ...rising.means, t: 'time of the master from full speed to standstill' },
  source: 'definition',
  proof: 'a follower behind a master on its ramp, differentiated twice',
  of: (a: number, u: number, t: number) => a - u / t,
} as const;

const linear = {
  gives: 'm/s²',
  symbols: { a: 'm/s²', u: 'm/s', t: 's' },
  try: { a: [-50, 50], u: [0.1, 5], t: [0.2, 9] },
} as const;
const turning = {
  gives: 'rad/s²',
  symbols: { a: 'rad/s²', u: 'rad/s', t: 's' },
  try: { a: [-500, 500], u: [0.1, 500], t: [0.2, 9] },
} as const;

export const risingFollower = formula({ ...rising, ...linear, id: 'axes.follow.rising' });
export const risingTurning = formula({ ...rising, ...turning, id: 'axes.follow.rising_turning' });
export const fallingFollower = formula({ ...falling, ...linear, id: 'axes.follow.falling' });
export const fallingTurning = formula({ ...falling, ...turning, id: 'axes.follow.falling_turning' });

export const shareTime = formula({
  id: 'axes.cycle.share_time',
  title: 'part of a cycle',
  text: 's*c',
  gives: 's',
  symbols: { s: '1', c: 's' },
  means: { s: 'share of the cycle', c: 'cycle' },
  try: { s: [0.05, 1], c: [0.05, 5] },
  source: 'definition',
  proof: 'cycle of a follower by hand',
  of: (s: number, c: number) => s * c,
});

const strokes = {
  title: 'time for a stroke to and one fro',
  text: '2*l/v',
  gives: 's',
  means: { l: 'way of the master for one stroke', v: 'its speed' },
  source: 'definition',
  proof: 'cycle of a follower by hand',
  of: (l: number, v: number) => (2 * l) / v,
} as const;

export const strokesTime = formula({
  ...strokes,
  id: 'axes.master.strokes_time',
  symbols: { l: 'm', v: 'm/s' },
  try: { l: [0.01, 3], v: [0.1, 10] },
});

export const strokesTurningTime = formula({
  ...strokes,
  id: 'axes.master.strokes_turning_time',
  symbols: { l: 'rad', v: 'rad/s' },
  try: { l: [0.1, 30], v: [0.1, 100] },
});

const between = {
  title: 'time of the master between two positions',
  text: '(b - a)/v',
  gives: 's',
  means: { a: 'position before', b: 'position after', v: 'speed of the master' },
  source: 'definition',
  proof: 'cycle of a follower by hand',
  of: (a: number, b: number, v: number) => (b - a) / v,
} as const;

export const positionsTime = formula({
  ...between,
  id: 'axes.master.positions_time',
  symbols: { a: 'm', b: 'm', v: 'm/s' },
  try: { a: [0, 1], b: [1.1, 3], v: [0.1, 10] },
});

export const anglesTime = formula({
  ...between,
  id: 'axes.master.angles_time',
  symbols: { a: 'rad', b: 'rad', v: 'rad/s' },
  try: { a: [0, 1], b: [1.1, 7], v: [0.1, 100] },
});
