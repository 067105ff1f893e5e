// Whether every mark is caught: how close marks may follow each other, where the input listens, and when a lost mark is noticed.
// Speeds are those of the web, without a sign.
import { formula } from '../../working/formula.ts';

const speed = { v: 'speed of the web' } as const;

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
  id: 'marks.lost.web',
  title: 'web that runs until a lost mark is noticed',
  text: 'v*t',
  gives: 'm',
  symbols: { v: 'm/s', t: 's' },
  means: { ...speed, t: 'time until it is noticed' },
  try: { v: [0.01, 15], t: [1e-3, 10] },
  source: 'definition',
  proof: 'lost marks are noticed when their windows have closed',
  of: (v: number, t: number) => v * t,
});
