// How closely a position loop follows, and how fast a loop may be that learns of its effect after a dead time.
// What counts and sampling do to the speed that a loop sees stands in `encoder.ts`: `countedTurningStep` is 2π/(N·T) on
// `encoderAngle`, and the torque that it costs is `accelerationTorque` of `countedTurningAcceleration`.
import { formula } from '../../working/formula.ts';

/** At constant speed: what is not fed forward, the loop makes out of its error. */
const followingError = {
  title: 'following error of a position loop',
  text: 'v*(1 - f)/k',
  source: 'definition',
  proof: 'a position loop that is integrated settles behind its setpoint',
  means: {
    v: 'speed',
    f: 'share of the speed that is fed forward',
    k: 'gain of the position loop: speed asked for by each part of the error',
  },
  of: (v: number, f: number, k: number) => (v * (1 - f)) / k,
} as const;

export const followingWay = formula({
  ...followingError,
  id: 'axes.following.way',
  gives: 'm',
  symbols: { v: 'm/s', f: '1', k: '1/s' },
  try: { v: [-10, 10], f: [0, 1], k: [5, 500] },
});

export const followingAngle = formula({
  ...followingError,
  id: 'axes.following.angle',
  gives: 'rad',
  symbols: { v: 'rad/s', f: '1', k: '1/s' },
  try: { v: [-600, 600], f: [0, 1], k: [5, 500] },
});

/** Of a loop that an integrator closes: it spends a quarter turn, the dead time spends what is left up to the margin. */
export const deadTimeBandwidth = formula({
  id: 'axes.loop.dead_time_bandwidth',
  title: 'bandwidth that a dead time leaves a loop',
  text: '(pi/2 - φ)/(2*pi*τ)',
  gives: 'Hz',
  symbols: { φ: 'rad', τ: 's' },
  means: { φ: 'phase margin', τ: 'dead time in the loop, from a measurement to the effect of its answer' },
  try: { φ: [0.3, 1.4], τ: [1e-5, 0.1] },
  source: 'definition',
  proof: 'a loop with dead time has its margin at this frequency',
  of: (phi: number, tau: number) => (Math.PI / 2 - phi) / (2 * Math.PI * tau),
});
