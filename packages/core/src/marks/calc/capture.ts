// What the position of a mark is off by: an input that is polled, stamped or latched; how close marks may follow each other,
// where the input listens, and when a lost mark is noticed. Speeds are those of the web, without a sign.
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

/** Two marks that are each off towards the other still find the input armed. */
export const closestMarks = formula({
  id: 'marks.rearm.spacing',
  title: 'closest spacing of marks that are all seen',
  text: 'v*r + 2*e',
  gives: 'm',
  symbols: { v: 'm/s', r: 's', e: 'm' },
  means: { ...speed, r: 'time until the input is armed again', e: 'how far a mark may be from its place' },
  try: { v: [0.01, 15], r: [1e-4, 0.05], e: [0, 0.02] },
  source: 'definition',
  proof: 'marks just far enough apart are all seen',
  of: (v: number, r: number, e: number) => v * r + 2 * e,
});

/** Captures that share an axis are armed in turn. */
export const sharedRearm = formula({
  id: 'marks.rearm.shared',
  title: 'time until every capture of an axis is armed again',
  text: 'r*ceil(n/m)',
  gives: 's',
  symbols: { r: 's', n: '1', m: '1' },
  means: {
    r: 'time until one capture is armed again',
    n: 'captures from mark to mark on the axis',
    m: 'captures that are armed at once',
  },
  try: { r: [1e-4, 0.05], n: [1, 6, 1], m: [1, 3, 1] },
  source: 'definition',
  proof: 'captures armed in turn, edge by edge',
  of: (r: number, n: number, m: number) => r * Math.ceil(n / m),
});

/** Where one capture takes both edges in turn. */
export const closestEdges = formula({
  id: 'marks.rearm.edges',
  title: 'least way between two edges',
  text: 'min(l, s - l)',
  gives: 'm',
  symbols: { l: 'm', s: 'm' },
  means: { l: 'length of the product', s: 'spacing of the products' },
  try: { l: [0.05, 0.5], s: [0.6, 2] },
  source: 'definition',
  proof: 'captures armed in turn, edge by edge',
  of: (l: number, s: number) => Math.min(l, s - l),
});

/** An edge that is no mark must leave the capture time to be armed again before the mark. */
export const closestStray = formula({
  id: 'marks.rearm.stray',
  title: 'least way from one edge that is taken to the next, strays among them',
  text: 'min(s, x)',
  gives: 'm',
  symbols: { s: 'm', x: 'm' },
  means: { s: 'least way between two edges of marks', x: 'way from a stray edge to the mark behind it' },
  try: { s: [0.05, 2], x: [0.01, 2] },
  source: 'definition',
  proof:
    'a stray edge costs the mark behind it just where the capture is not armed again, and a mark that is missing none',
  of: (s: number, x: number) => Math.min(s, x),
});

export const rearmSpeed = formula({
  id: 'marks.rearm.speed',
  title: 'highest speed at which all marks are seen',
  text: '(s - 2*e)/r',
  gives: 'm/s',
  symbols: { s: 'm', e: 'm', r: 's' },
  means: {
    s: 'spacing of the marks',
    e: 'how far a mark may be from its place',
    r: 'time until the input is armed again',
  },
  try: { s: [0.05, 2], e: [0, 0.02], r: [1e-4, 0.05] },
  source: 'definition',
  proof: 'marks just far enough apart are all seen',
  of: (s: number, e: number, r: number) => (s - 2 * e) / r,
});

/** A window that a program opens and closes in its cycle starts and ends up to one cycle late. */
export const windowNeeded = formula({
  id: 'marks.window.needed',
  title: 'narrowest window that loses no mark',
  text: '2*e + v*T',
  gives: 'm',
  symbols: { e: 'm', v: 'm/s', T: 's' },
  means: {
    e: 'how far a mark may be from its place',
    ...speed,
    T: 'cycle in which the window opens and closes, 0 for a latch',
  },
  try: { e: [1e-4, 0.02], v: [0.01, 15], T: [0, 0.01] },
  source: 'definition',
  proof: 'a window of the needed width loses no mark, and one of the allowed width sees no print',
  of: (e: number, v: number, T: number) => 2 * e + v * T,
});

/** The clear stretch is the same on both sides of the mark. */
export const windowAllowed = formula({
  id: 'marks.window.allowed',
  title: 'widest window that sees no other print',
  text: '2*(g - e) - v*T',
  gives: 'm',
  symbols: { g: 'm', e: 'm', v: 'm/s', T: 's' },
  means: {
    g: 'way from the mark to the next print on either side',
    e: 'how far a mark may be from its place',
    ...speed,
    T: 'cycle in which the window opens and closes, 0 for a latch',
  },
  try: { g: [0.02, 0.2], e: [1e-4, 0.02], v: [0.01, 15], T: [0, 0.01] },
  source: 'definition',
  proof: 'a window of the needed width loses no mark, and one of the allowed width sees no print',
  of: (g: number, e: number, v: number, T: number) => 2 * (g - e) - v * T,
});

/** The place of the first lost mark passes, then the others, then the window closes and a program sees it. */
export const lostMarkTime = formula({
  id: 'marks.lost.time',
  title: 'time from a lost mark until it is noticed',
  text: '((n - 1)*s + W/2)/v + T',
  gives: 's',
  symbols: { n: '1', s: 'm', W: 'm', v: 'm/s', T: 's' },
  means: {
    n: 'marks lost in a row that raise the alarm',
    s: 'spacing of the marks',
    W: 'width of the window',
    ...speed,
    T: 'time until a program looks, at most',
  },
  try: { n: [1, 5, 1], s: [0.05, 2], W: [1e-3, 0.05], v: [0.01, 15], T: [1e-4, 0.05] },
  source: 'definition',
  proof: 'lost marks are noticed when their windows have closed',
  of: (n: number, s: number, W: number, v: number, T: number) => ((n - 1) * s + W / 2) / v + T,
});

export const repeatsBetween = formula({
  id: 'marks.web.repeats',
  title: 'repeats between the eye and the tool',
  text: 'L/s',
  gives: '1',
  symbols: { L: 'm', s: 'm' },
  means: { L: 'web between the eye and the tool', s: 'repeat' },
  try: { L: [0.1, 20], s: [0.05, 2] },
  source: 'definition',
  proof: 'a web stretched like a chain of springs',
  of: (L: number, s: number) => L / s,
});

export const brakingWay = formula({
  id: 'marks.lost.braking',
  title: 'way of the web from the reaction to standstill',
  text: 'v*r + v^2/(2*a)',
  gives: 'm',
  symbols: { v: 'm/s', r: 's', a: 'm/s²' },
  means: { ...speed, r: 'reaction', a: 'deceleration, without its sign' },
  try: { v: [0.01, 15], r: [1e-3, 0.5], a: [0.5, 20] },
  source: 'definition',
  proof: 'the web that runs on, step by step',
  of: (v: number, r: number, a: number) => v * r + v ** 2 / (2 * a),
});

/** From the last good mark on, since everything behind it may be scrap. */
export const runOn = formula({
  id: 'marks.lost.run_on',
  title: 'web that runs from the last good mark until it stands',
  text: 's + w + b',
  gives: 'm',
  symbols: { s: 'm', w: 'm', b: 'm' },
  means: {
    s: 'way from the last good mark to the first that is lost',
    w: 'web that runs from there until it is noticed',
    b: 'web that runs from there until it stands',
  },
  try: { s: [0.05, 2], w: [0.01, 5], b: [0.01, 10] },
  source: 'definition',
  proof: 'the web that runs on, step by step',
  of: (s: number, w: number, b: number) => s + w + b,
});

export const lostMarkWeb = formula({
  ...wayIn,
  id: 'marks.lost.web',
  title: 'web that runs until a lost mark is noticed',
  means: { ...speed, t: 'time until it is noticed' },
  try: { v: [0.01, 15], t: [1e-3, 10] },
  proof: 'lost marks are noticed when their windows have closed',
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
