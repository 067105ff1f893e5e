// What a constant lead makes good of a delay that is not always the same, and what stays, in time and on the way.
// The distance of a time at a speed serves for jitter, for skew between arrivals and for lag alike.
import { formula } from '../../working/formula.ts';
import type { Quantity } from '../../working/quantity.ts';

const limits = {
  means: { b: 'shortest delay', w: 'longest delay' },
  try: { b: [0, 1e-2], w: [1e-2, 1e-1] },
  source: 'definition',
  proof: 'a lead by the middle leaves half of what varies',
} as const;

/** The shortest delay is the part that is always there; this comes on top. */
export const varyingDelay = formula({
  ...limits,
  id: 'timing.delay.varies',
  title: 'part of a delay that varies',
  text: 'w - b',
  gives: 's',
  symbols: { b: 's', w: 's' },
  of: (b: number, w: number) => w - b,
});

export const middleLead = formula({
  ...limits,
  id: 'timing.delay.lead',
  title: 'constant lead that makes the largest error least',
  text: '(b + w)/2',
  gives: 's',
  symbols: { b: 's', w: 's' },
  of: (b: number, w: number) => (b + w) / 2,
});

/** Early as well as late. */
export const leftByLead = formula({
  ...limits,
  id: 'timing.delay.left',
  title: 'error that the best constant lead leaves, either way',
  text: '(w - b)/2',
  gives: 's',
  symbols: { b: 's', w: 's' },
  of: (b: number, w: number) => (w - b) / 2,
});

const moved = {
  title: 'way that is gone in a time',
  text: 'v*t',
  means: { v: 'speed', t: 'delay, jitter or skew' },
  try: { v: [0.01, 10], t: [1e-6, 1e-1] },
  source: 'definition',
  of: (v: number, t: number) => v * t,
} as const;

export const wayGone = formula({
  ...moved,
  id: 'timing.way.gone',
  gives: 'm',
  symbols: { v: 'm/s', t: 's' },
  proof: 'J2',
});

export const angleGone = formula({
  ...moved,
  id: 'timing.angle.gone',
  gives: 'rad',
  symbols: { v: 'rad/s', t: 's' },
  proof: 'J1',
});

/** Along or turning, as the speed says. */
export const goneIn = (v: Quantity, t: Quantity<'s'>, about: string): Quantity<'m'> | Quantity<'rad'> =>
  v.unit === 'm/s'
    ? wayGone({ v: v as Quantity<'m/s'>, t }, about)
    : angleGone({ v: v as Quantity<'rad/s'>, t }, about);

const allowed = {
  title: 'time in which no more than a way is gone',
  text: 'e/v',
  gives: 's',
  means: { e: 'way that may be gone', v: 'speed' },
  try: { e: [1e-6, 1e-2], v: [0.01, 10] },
  source: 'definition',
  proof: 'what is allowed between setpoints gives back what it was asked for',
  of: (e: number, v: number) => e / v,
} as const;

export const timeForWay = formula({ ...allowed, id: 'timing.way.time', symbols: { e: 'm', v: 'm/s' } });
export const timeForAngle = formula({ ...allowed, id: 'timing.angle.time', symbols: { e: 'rad', v: 'rad/s' } });

/** Where an effect moves on the product with the speed, its cause is a latency that nothing compensates. */
const ofTwoSpeeds = {
  title: 'latency by which a position moves with the speed',
  text: 'x/(v - u)',
  gives: 's',
  means: { x: 'how far the position moves', v: 'higher speed', u: 'lower speed' },
  try: { x: [1e-5, 1e-2], v: [1, 10], u: [0, 0.9] },
  source: 'definition',
  proof: 'a mark that moves with the speed tells its latency',
  of: (x: number, v: number, u: number) => x / (v - u),
} as const;

export const latencyOfTwoSpeeds = formula({
  ...ofTwoSpeeds,
  id: 'timing.delay.of_two_speeds',
  symbols: { x: 'm', v: 'm/s', u: 'm/s' },
});

export const latencyOfTwoTurning = formula({
  ...ofTwoSpeeds,
  id: 'timing.delay.of_two_turning',
  symbols: { x: 'rad', v: 'rad/s', u: 'rad/s' },
});

/** Of clocks that nothing holds together. */
export const clockDrift = formula({
  id: 'timing.clock.drift',
  title: 'by how much two clocks drift apart',
  text: 'p*t',
  gives: 's',
  symbols: { p: '1', t: 's' },
  means: { p: 'difference of their rates, as a share', t: 'time since they were set' },
  try: { p: [1e-7, 1e-3], t: [1e-4, 1] },
  source: 'definition',
  proof: 'J3',
  of: (p: number, t: number) => p * t,
});

/** A task on one clock reads what another clock delivers: its wait grows or shrinks by the drift, and starts again. */
export const clockBeat = formula({
  id: 'timing.clock.beat',
  title: 'time after which two free-running clocks meet again',
  text: 'T/p',
  gives: 's',
  symbols: { T: 's', p: '1' },
  means: { T: 'cycle of both', p: 'difference of their rates, as a share' },
  try: { T: [1e-4, 1e-2], p: [1e-7, 1e-3] },
  source: 'definition',
  proof: 'two clocks that are walked meet after the beat',
  of: (T: number, p: number) => T / p,
});
