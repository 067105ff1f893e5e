// A rotary knife that meets the web at its speed: the length it cuts by itself, and the speeds for another length.
import { formula } from '../../working/formula.ts';

export const synchronousLength = formula({
  id: 'axes.cutter.synchronous_length',
  title: 'length that a knife cuts at the speed of the web all round',
  text: 'pi*D/n',
  gives: 'm',
  symbols: { D: 'm', n: '1' },
  means: { D: 'diameter over the blades', n: 'number of blades' },
  try: { D: [0.03, 1], n: [1, 8, 1] },
  source: 'common-practice',
  proof: 'W7',
  of: (D: number, n: number) => (Math.PI * D) / n,
});

export const circumferenceOf = formula({
  id: 'axes.wheel.circumference',
  title: 'circumference',
  text: 'pi*D',
  gives: 'm',
  symbols: { D: 'm' },
  means: { D: 'diameter' },
  try: { D: [0.01, 2] },
  source: 'definition',
  proof: 'W7',
  of: (D: number) => Math.PI * D,
});

/** In the cut the knife has the speed of a wheel at the web's speed; on the mean it goes from blade to blade in a cut. */
export const knifeMeanSpeed = formula({
  id: 'axes.cutter.mean_speed',
  title: 'mean speed of a knife',
  text: '2*pi/(n*t)',
  gives: 'rad/s',
  symbols: { n: '1', t: 's' },
  means: { n: 'number of blades', t: 'time from cut to cut' },
  try: { n: [1, 8, 1], t: [0.02, 5] },
  source: 'definition',
  proof: 'at the synchronous length a knife keeps the speed of the cut',
  of: (n: number, t: number) => (2 * Math.PI) / (n * t),
});

/** How far the web is on when something happens late: the error of a mark, of a cut, of a print. */
export const registrationError = formula({
  id: 'axes.web.registration_error',
  title: 'way of the web in a delay',
  text: 'v*t',
  gives: 'm',
  symbols: { v: 'm/s', t: 's' },
  means: { v: 'speed of the web', t: 'delay, or what is uncertain of it' },
  try: { v: [0.01, 10], t: [1e-6, 1e-2] },
  source: 'definition',
  proof: 'W6',
  of: (v: number, t: number) => v * t,
});
