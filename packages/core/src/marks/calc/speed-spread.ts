// What a speed that varies makes of all that is off by a time, and speeds that are tried.
import { formula } from '../../working/formula.ts';

/** Of first order: a time that scatters as well makes another part of second order, the product of both shares. */
export const speedOffset = formula({
  id: 'marks.budget.speed',
  title: 'standard deviation of what is off by a time, since the speed varies',
  text: 'abs(b)*s',
  gives: 'm',
  symbols: { b: 'm', s: '1' },
  means: { b: 'what it is off by on average by times, at the speed', s: 'standard deviation of the speed, as a share' },
  try: { b: [-1e-3, 1e-3], s: [1e-4, 0.05] },
  source: 'jcgm-100',
  at: 'eq. 11a',
  proof: 'a delay at a speed that varies, drawn many times',
  of: (b: number, s: number) => Math.abs(b) * s,
});

export const shareOfSpeed = formula({
  id: 'marks.budget.speed_tried',
  title: 'speed that is tried',
  text: 'v*x',
  gives: 'm/s',
  symbols: { v: 'm/s', x: '1' },
  means: { v: 'speed of the web', x: 'share of it' },
  try: { v: [0.01, 15], x: [0.1, 2] },
  source: 'definition',
  proof: 'a delay at a speed that varies, drawn many times',
  of: (v: number, x: number) => v * x,
});
