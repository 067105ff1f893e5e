// How fast a move from rest to rest becomes and how long it takes, within limits of velocity, acceleration and jerk.
// Strokes are over 0. The published distinction of cases is drawn together into the smallest of what each limit allows.
// Each formula stands twice, in m and in rad, since a quantity says which of the two it is.
import { formula } from '../../working/formula.ts';

const steppedPeak = {
  title: 'velocity that a move with stepped acceleration reaches',
  text: 'min(v, sqrt(2*L/(1/a + 1/d)))',
  means: { L: 'stroke', v: 'velocity allowed', a: 'acceleration allowed', d: 'deceleration allowed' },
  try: { L: [0.001, 10], v: [0.1, 5], a: [0.1, 50], d: [0.1, 50] },
  source: 'khurmi-gupta',
  at: 'ex. 3.2',
  proof: 'the published distinction of cases gives the same times',
  of: (L: number, v: number, a: number, d: number) => Math.min(v, Math.sqrt((2 * L) / (1 / a + 1 / d))),
} as const;

const steppedTime = {
  title: 'time for a move with stepped acceleration',
  text: 'L/p + p*(1/a + 1/d)/2',
  means: { L: 'stroke', p: 'velocity reached', a: 'acceleration', d: 'deceleration' },
  try: { L: [0.001, 10], p: [0.1, 5], a: [0.1, 50], d: [0.1, 50] },
  source: 'khurmi-gupta',
  at: 'ex. 3.2',
  proof: 'P1',
  of: (L: number, p: number, a: number, d: number) => L / p + (p * (1 / a + 1 / d)) / 2,
} as const;

const smoothAcceleration = {
  title: 'acceleration that a move with limited jerk reaches',
  text: 'min(a, sqrt(v*j), cbrt(L*j^2/2))',
  means: { L: 'stroke', v: 'velocity allowed', a: 'acceleration allowed', j: 'jerk allowed' },
  try: { L: [0.001, 10], v: [0.1, 5], a: [0.1, 50], j: [1, 1000] },
  source: 'ruckig',
  at: 'rest to rest',
  proof: 'P5',
  of: (L: number, v: number, a: number, j: number) => Math.min(a, Math.sqrt(v * j), Math.cbrt((L * j ** 2) / 2)),
} as const;

const smoothPeak = {
  title: 'velocity that a move with limited jerk reaches',
  text: 'min(v, p*(sqrt(p^2/j^2 + 4*L/p) - p/j)/2)',
  means: { L: 'stroke', v: 'velocity allowed', p: 'acceleration reached', j: 'jerk' },
  try: { L: [0.001, 10], v: [0.1, 5], p: [0.1, 50], j: [1, 1000] },
  source: 'ruckig',
  at: 'rest to rest',
  proof: 'the published distinction of cases gives the same times',
  of: (L: number, v: number, p: number, j: number) =>
    Math.min(v, (p * (Math.sqrt((p / j) ** 2 + (4 * L) / p) - p / j)) / 2),
} as const;

const smoothTime = {
  title: 'time for a move with limited jerk',
  text: 'L/w + w/p + p/j',
  means: { L: 'stroke', w: 'velocity reached', p: 'acceleration reached', j: 'jerk' },
  try: { L: [0.001, 10], w: [0.1, 5], p: [0.1, 50], j: [1, 1000] },
  source: 'ruckig',
  at: 'rest to rest',
  proof: 'P4',
  of: (L: number, w: number, p: number, j: number) => L / w + w / p + p / j,
} as const;

export const steppedMoveVelocity = formula({
  ...steppedPeak,
  id: 'axes.stepped_move.velocity',
  gives: 'm/s',
  symbols: { L: 'm', v: 'm/s', a: 'm/s²', d: 'm/s²' },
});

export const steppedTurnVelocity = formula({
  ...steppedPeak,
  id: 'axes.stepped_turn.velocity',
  gives: 'rad/s',
  symbols: { L: 'rad', v: 'rad/s', a: 'rad/s²', d: 'rad/s²' },
});

export const steppedMoveTime = formula({
  ...steppedTime,
  id: 'axes.stepped_move.time',
  gives: 's',
  symbols: { L: 'm', p: 'm/s', a: 'm/s²', d: 'm/s²' },
});

export const steppedTurnTime = formula({
  ...steppedTime,
  id: 'axes.stepped_turn.time',
  gives: 's',
  symbols: { L: 'rad', p: 'rad/s', a: 'rad/s²', d: 'rad/s²' },
});

export const smoothMoveAcceleration = formula({
  ...smoothAcceleration,
  id: 'axes.smooth_move.acceleration',
  gives: 'm/s²',
  symbols: { L: 'm', v: 'm/s', a: 'm/s²', j: 'm/s³' },
});

export const smoothTurnAcceleration = formula({
  ...smoothAcceleration,
  id: 'axes.smooth_turn.acceleration',
  gives: 'rad/s²',
  symbols: { L: 'rad', v: 'rad/s', a: 'rad/s²', j: 'rad/s³' },
});

export const smoothMoveVelocity = formula({
  ...smoothPeak,
  id: 'axes.smooth_move.velocity',
  gives: 'm/s',
  symbols: { L: 'm', v: 'm/s', p: 'm/s²', j: 'm/s³' },
});

export const smoothTurnVelocity = formula({
  ...smoothPeak,
  id: 'axes.smooth_turn.velocity',
  gives: 'rad/s',
  symbols: { L: 'rad', v: 'rad/s', p: 'rad/s²', j: 'rad/s³' },
});

export const smoothMoveTime = formula({
  ...smoothTime,
  id: 'axes.smooth_move.time',
  gives: 's',
  symbols: { L: 'm', w: 'm/s', p: 'm/s²', j: 'm/s³' },
});

export const smoothTurnTime = formula({
  ...smoothTime,
  id: 'axes.smooth_turn.time',
  gives: 's',
  symbols: { L: 'rad', w: 'rad/s', p: 'rad/s²', j: 'rad/s³' },
});

/** The formulas on plain numbers, positions in m or in rad. */
export const moveKernels = {
  steppedVelocity: steppedPeak.of,
  steppedTime_s: steppedTime.of,
  smoothAcceleration: smoothAcceleration.of,
  smoothVelocity: smoothPeak.of,
  smoothTime_s: smoothTime.of,
};
