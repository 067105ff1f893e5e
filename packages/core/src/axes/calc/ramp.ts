// Speeds and accelerations of moves whose acceleration is constant piece by piece.
// Each formula stands twice, in m and in rad, since a quantity says which of the two it is.
import { formula } from '../../working/formula.ts';

const timed = {
  title: 'speed of a move that takes a given time',
  text: 'L/(T - (u + d)/2)',
  means: { L: 'stroke', T: 'time for the move', u: 'time of speeding up', d: 'time of slowing down' },
  source: 'definition',
  proof: 'S1',
  of: (L: number, T: number, u: number, d: number) => L / (T - (u + d) / 2),
} as const;

const up = {
  title: 'acceleration from rest',
  text: 'v/t',
  means: { v: 'speed reached', t: 'time for it' },
  source: 'definition',
  proof: 'S1',
  of: (v: number, t: number) => v / t,
} as const;

const down = {
  title: 'acceleration to rest, along the motion',
  text: '-v/t',
  means: { v: 'speed before', t: 'time for it' },
  source: 'definition',
  proof: 'S1',
  of: (v: number, t: number) => -v / t,
} as const;

/** A deceleration is over 0, the acceleration along the motion below. */
const braking = {
  title: 'acceleration along the motion while it slows down',
  text: '-d',
  means: { d: 'deceleration' },
  source: 'definition',
  proof: 'P1',
  of: (d: number) => -d,
} as const;

const rampTime = {
  title: 'time for a change of speed',
  text: 'v/a',
  means: { v: 'change of speed', a: 'acceleration' },
  source: 'definition',
  proof: 'P1',
  of: (v: number, a: number) => v / a,
} as const;

/** Of a triangle nothing, but for rounding. */
const cruise = {
  title: 'time at constant speed',
  text: 'L/v - v*(1/a + 1/d)/2',
  means: { L: 'stroke', v: 'speed reached', a: 'acceleration', d: 'deceleration' },
  source: 'definition',
  proof: 'P1',
  of: (L: number, v: number, a: number, d: number) => L / v - (v * (1 / a + 1 / d)) / 2,
} as const;

const size = {
  title: 'length of a stroke, whichever way it goes',
  text: 'abs(L)',
  means: { L: 'stroke' },
  source: 'definition',
  proof: 'P1',
  of: (L: number) => Math.abs(L),
} as const;

export const timedSpeed = formula({
  ...timed,
  id: 'axes.timed_move.speed',
  gives: 'm/s',
  symbols: { L: 'm', T: 's', u: 's', d: 's' },
  try: { L: [0.01, 5], T: [1, 3], u: [0.1, 0.4], d: [0.1, 0.4] },
});
export const timedTurning = formula({
  ...timed,
  id: 'axes.timed_turn.speed',
  gives: 'rad/s',
  symbols: { L: 'rad', T: 's', u: 's', d: 's' },
  try: { L: [0.1, 50], T: [1, 3], u: [0.1, 0.4], d: [0.1, 0.4] },
});

const linear = { gives: 'm/s²', symbols: { v: 'm/s', t: 's' }, try: { v: [0.01, 10], t: [0.01, 5] } } as const;
const turning = { gives: 'rad/s²', symbols: { v: 'rad/s', t: 's' }, try: { v: [0.1, 500], t: [0.01, 5] } } as const;
export const rampUp = formula({ ...up, ...linear, id: 'axes.ramp.up' });
export const turningUp = formula({ ...up, ...turning, id: 'axes.ramp.turning_up' });
export const rampDown = formula({ ...down, ...linear, id: 'axes.ramp.down' });
export const turningDown = formula({ ...down, ...turning, id: 'axes.ramp.turning_down' });

export const brakingMove = formula({
  ...braking,
  id: 'axes.ramp.braking',
  gives: 'm/s²',
  symbols: { d: 'm/s²' },
  try: { d: [0.1, 50] },
});
export const brakingTurn = formula({
  ...braking,
  id: 'axes.ramp.turning_braking',
  gives: 'rad/s²',
  symbols: { d: 'rad/s²' },
  try: { d: [0.1, 500] },
});

export const moveRampTime = formula({
  ...rampTime,
  id: 'axes.ramp.time',
  gives: 's',
  symbols: { v: 'm/s', a: 'm/s²' },
  try: { v: [0.1, 5], a: [0.1, 50] },
});
export const turnRampTime = formula({
  ...rampTime,
  id: 'axes.ramp.turning_time',
  gives: 's',
  symbols: { v: 'rad/s', a: 'rad/s²' },
  try: { v: [0.1, 500], a: [0.1, 500] },
});

export const moveCruiseTime = formula({
  ...cruise,
  id: 'axes.stepped_move.cruise',
  gives: 's',
  symbols: { L: 'm', v: 'm/s', a: 'm/s²', d: 'm/s²' },
  try: { L: [0.1, 10], v: [0.1, 5], a: [0.1, 50], d: [0.1, 50] },
});
export const turnCruiseTime = formula({
  ...cruise,
  id: 'axes.stepped_turn.cruise',
  gives: 's',
  symbols: { L: 'rad', v: 'rad/s', a: 'rad/s²', d: 'rad/s²' },
  try: { L: [0.1, 100], v: [0.1, 50], a: [0.1, 50], d: [0.1, 50] },
});

export const strokeLength = formula({
  ...size,
  id: 'axes.stroke.length',
  gives: 'm',
  symbols: { L: 'm' },
  try: { L: [-5, 5] },
});
export const strokeAngle = formula({
  ...size,
  id: 'axes.stroke.angle',
  gives: 'rad',
  symbols: { L: 'rad' },
  try: { L: [-50, 50] },
});
