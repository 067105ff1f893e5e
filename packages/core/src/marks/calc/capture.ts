// What the position of a mark is off by: an input that is polled, stamped or latched. Speeds are those of the web, without a
// sign.
import { formula } from '../../working/formula.ts';

const speed = { v: 'speed of the web' } as const;

const wayIn = {
  text: 'v*t',
  gives: 'm',
  symbols: { v: 'm/s', t: 's' },
  try: { v: [0.01, 15], t: [1e-7, 1e-2] },
  source: 'definition',
  of: (v: number, t: number) => v * t,
} as const;

/** The position may be anywhere in it. */
export const pollWindow = formula({
  ...wayIn,
  id: 'marks.poll.window',
  title: 'window of position of an input that is polled',
  means: { ...speed, t: 'period of the polling' },
  proof: 'a polled mark is anywhere in its window',
});

/** What is anywhere in a window is late by half of it on average, and as much off to either side. */
export const halfWindow = formula({
  id: 'marks.poll.half',
  title: 'half of the window of position that a step of time makes',
  text: 'v*q/2',
  gives: 'm',
  symbols: { v: 'm/s', q: 's' },
  means: { ...speed, q: 'period of the polling, or step of the stamp' },
  try: { v: [0.01, 15], q: [1e-8, 1e-2] },
  source: 'definition',
  proof: 'a polled mark is anywhere in its window',
  of: (v: number, q: number) => (v * q) / 2,
});

/** The same at every mark of one speed: what a lead or a shift takes away. */
export const delayOffset = formula({
  ...wayIn,
  id: 'marks.capture.offset',
  title: 'offset of position that a fixed delay makes',
  means: { ...speed, t: 'delay that is the same each time' },
  proof: 'a mark that moves with the speed tells its latency',
});

export const normalJitter = formula({
  ...wayIn,
  id: 'marks.capture.normal',
  title: 'standard deviation of position of a normally distributed delay',
  means: { ...speed, t: 'standard deviation of the delay' },
  proof: 'a captured mark at 5 m/s has 16 µm and Cpk 2.06',
});

export const evenJitter = formula({
  id: 'marks.capture.jitter',
  title: 'standard deviation of position of a delay that is anywhere within limits',
  text: 'v*j/sqrt(3)',
  gives: 'm',
  symbols: { v: 'm/s', j: 's' },
  means: { ...speed, j: 'jitter: half of the width between the limits' },
  try: { v: [0.01, 15], j: [1e-7, 1e-2] },
  source: 'jcgm-100',
  at: '4.3.7',
  proof: 'a captured mark at 5 m/s has 16 µm and Cpk 2.06',
  of: (v: number, j: number) => (v * j) / Math.sqrt(3),
});

const stepped = {
  text: 'v*q/sqrt(12)',
  gives: 'm',
  symbols: { v: 'm/s', q: 's' },
  try: { v: [0.01, 15], q: [1e-8, 1e-2] },
  source: 'jcgm-100',
  at: 'F.2.2.1',
  of: (v: number, q: number) => (v * q) / Math.sqrt(12),
} as const;

export const pollSpread = formula({
  ...stepped,
  id: 'marks.poll.spread',
  title: 'standard deviation of position of an input that is polled',
  means: { ...speed, q: 'period of the polling' },
  proof: 'a polled mark is anywhere in its window',
});

export const stampSpread = formula({
  ...stepped,
  id: 'marks.stamp.spread',
  title: 'standard deviation of position of an edge that is stamped',
  means: { ...speed, q: 'step of the stamp' },
  proof: 'a captured mark at 5 m/s has 16 µm and Cpk 2.06',
});

/** The position at the stamp is drawn from two samples around it as if the speed were constant between them. */
export const stampInterpolation = formula({
  id: 'marks.stamp.interpolation',
  title: 'largest error of a position between two samples',
  text: 'a*T^2/8',
  gives: 'm',
  symbols: { a: 'm/s²', T: 's' },
  means: { a: 'largest acceleration, without its sign', T: 'time between the samples' },
  try: { a: [0.01, 100], T: [1e-4, 1e-2] },
  source: 'pang',
  at: 'p. 17',
  proof: 'between two samples the error is largest in the middle',
  of: (a: number, T: number) => (a * T * T) / 8,
});

/** A latch holds the count itself; its delays are those of the input stage. */
export const latchSpread = formula({
  id: 'marks.latch.spread',
  title: 'standard deviation of a position that is latched in counts',
  text: 'w/sqrt(12)',
  gives: 'm',
  symbols: { w: 'm' },
  means: { w: 'way for one count' },
  try: { w: [1e-6, 1e-3] },
  source: 'jcgm-100',
  at: 'F.2.2.1',
  proof: 'a polled mark is anywhere in its window',
  of: (w: number) => w / Math.sqrt(12),
});

export const halfCount = formula({
  id: 'marks.latch.half',
  title: 'half of the way for one count',
  text: 'w/2',
  gives: 'm',
  symbols: { w: 'm' },
  means: { w: 'way for one count' },
  try: { w: [1e-6, 1e-3] },
  source: 'definition',
  proof: 'a polled mark is anywhere in its window',
  of: (w: number) => w / 2,
});

export const rampAcceleration = formula({
  id: 'marks.stamp.acceleration',
  title: 'acceleration of the web in a ramp',
  text: 'v/t',
  gives: 'm/s²',
  symbols: { v: 'm/s', t: 's' },
  means: { ...speed, t: 'time of the shortest ramp' },
  try: { v: [0.01, 15], t: [0.5, 60] },
  source: 'definition',
  proof: 'between two samples the error is largest in the middle',
  of: (v: number, t: number) => v / t,
});

export const timeAllowed = formula({
  id: 'marks.capture.allowed',
  title: 'time that all errors of time may have together',
  text: 'e/v',
  gives: 's',
  symbols: { e: 'm', v: 'm/s' },
  means: { e: 'error allowed', ...speed },
  try: { e: [1e-5, 1e-2], v: [0.01, 15] },
  source: 'definition',
  proof: 'a tenth of a millimetre at 300 m/min is 20 µs',
  of: (e: number, v: number) => e / v,
});

/** Of all delays between the edge and what is seen of it. */
export const latencyFound = formula({
  id: 'marks.capture.latency',
  title: 'delay that a mark tells which moves with the speed',
  text: 'x/(v - w)',
  gives: 's',
  symbols: { x: 'm', v: 'm/s', w: 'm/s' },
  means: { x: 'what it moves by, later is positive', v: 'the higher speed', w: 'the lower speed' },
  try: { x: [-0.1, 0.1], v: [5, 15], w: [0.01, 4] },
  source: 'definition',
  proof: 'a mark that moves with the speed tells its latency',
  of: (x: number, v: number, w: number) => x / (v - w),
});

export const latencySaid = formula({
  id: 'marks.capture.latency_said',
  title: 'delay that an offset stands for at a speed',
  text: 'b/v',
  gives: 's',
  symbols: { b: 'm', v: 'm/s' },
  means: { b: 'what the mark is off by through times that nothing takes out', ...speed },
  try: { b: [-1e-2, 1e-2], v: [0.01, 15] },
  source: 'definition',
  proof: 'a mark that moves with the speed tells its latency',
  of: (b: number, v: number) => b / v,
});

export const latencyLeft = formula({
  id: 'marks.capture.latency_left',
  title: 'delay that nobody has said',
  text: 'f - s',
  gives: 's',
  symbols: { f: 's', s: 's' },
  means: { f: 'delay that the mark tells', s: 'delay that is said and not taken out' },
  try: { f: [-0.1, 0.1], s: [-0.1, 0.1] },
  source: 'definition',
  proof: 'a mark that moves with the speed tells its latency',
  of: (f: number, s: number) => f - s,
});

/** Between eye and tool, of a web that is elastic. */
export const tensionStretch = formula({
  id: 'marks.web.stretch',
  title: 'way that a mark moves when the tension of the web changes',
  text: 'F*L/(E*b*h)',
  gives: 'm',
  symbols: { F: 'N', L: 'm', E: 'Pa', b: 'm', h: 'm' },
  means: {
    F: 'change of the tension',
    L: 'web between the eye and the tool',
    E: "Young's modulus of the web",
    b: 'its width',
    h: 'its thickness',
  },
  try: { F: [0.1, 50], L: [0.1, 20], E: [1e8, 5e9], b: [0.05, 2], h: [1e-5, 5e-4] },
  source: 'definition',
  proof: 'a web stretched like a chain of springs',
  of: (F: number, L: number, E: number, b: number, h: number) => (F * L) / (E * b * h),
});
