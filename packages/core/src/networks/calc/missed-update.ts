// What a missed update does at the axis: the drive holds its set position, or goes on with the velocity it had, while the
// master's motion goes on.
import { formula } from '../../working/formula.ts';

/** Held: the axis stands where it was told to be, as if the master had stopped. */
export const heldAlong = formula({
  id: 'networks.missed.held_along',
  title: 'position error of a drive that holds its set position',
  text: 'v*t + a*t^2/2',
  gives: 'm',
  symbols: { v: 'm/s', t: 's', a: 'm/s²' },
  means: { v: 'speed when updates cease', t: 'time without an update', a: 'acceleration, below 0 to slow down' },
  try: { v: [0.1, 10], t: [1e-3, 0.5], a: [1, 50] },
  source: 'definition',
  proof: 'motion walked while updates are missing',
  of: (v: number, t: number, a: number) => v * t + (a * t ** 2) / 2,
});

export const heldAround = formula({
  id: 'networks.missed.held_around',
  title: 'angle error of a drive that holds its set position',
  text: 'v*t + a*t^2/2',
  gives: 'rad',
  symbols: { v: 'rad/s', t: 's', a: 'rad/s²' },
  means: { v: 'speed when updates cease', t: 'time without an update', a: 'acceleration, below 0 to slow down' },
  try: { v: [0.1, 10], t: [1e-3, 0.5], a: [1, 50] },
  source: 'definition',
  proof: 'motion walked while updates are missing',
  of: (v: number, t: number, a: number) => v * t + (a * t ** 2) / 2,
});

/** Extrapolated: only what the speed changes is missing. */
export const extrapolatedAlong = formula({
  id: 'networks.missed.extrapolated_along',
  title: 'position error of a drive that goes on at the speed it had',
  text: 'a*t^2/2',
  gives: 'm',
  symbols: { a: 'm/s²', t: 's' },
  means: { a: 'acceleration while updates are missing', t: 'time without an update' },
  try: { a: [1, 50], t: [1e-3, 0.5] },
  source: 'definition',
  proof: 'motion walked while updates are missing',
  of: (a: number, t: number) => (a * t ** 2) / 2,
});

export const extrapolatedAround = formula({
  id: 'networks.missed.extrapolated_around',
  title: 'angle error of a drive that goes on at the speed it had',
  text: 'a*t^2/2',
  gives: 'rad',
  symbols: { a: 'rad/s²', t: 's' },
  means: { a: 'acceleration while updates are missing', t: 'time without an update' },
  try: { a: [1, 50], t: [1e-3, 0.5] },
  source: 'definition',
  proof: 'motion walked while updates are missing',
  of: (a: number, t: number) => (a * t ** 2) / 2,
});
