// The cycle as a whole: what opens it, the exchanges, the repeats kept in hand, the non-cyclic window, what is free.
import { formula, method } from '../../working/formula.ts';

/** Each repeat is reserved at the length of the longest exchange, since any of them may have to be done again. */
export const repeatsReserved = formula({
  id: 'networks.cycle.repeats',
  title: 'room for repeats at the end of the cycle',
  text: 'n*max(x)',
  gives: 's',
  symbols: { n: '1', x: 's[]' },
  means: { n: 'repeats reserved in each cycle', x: 'everything that may have to be repeated, of any cycle' },
  try: { n: [1, 6, 1], x: [1e-5, 3e-4] },
  source: 'judgement',
  at: 'any exchange may be the one that is lost',
  proof: 'cycle walked exchange by exchange',
  of: (n: number, x: readonly number[]) => n * Math.max(...x),
});

export const nonCyclicWindow = formula({
  id: 'networks.cycle.window',
  title: 'non-cyclic window: what opens it, one frame, what closes it',
  text: 'o + f + e',
  gives: 's',
  symbols: { o: 's', f: 's', e: 's' },
  means: {
    o: 'frame that opens it, on the line',
    f: 'non-cyclic frame on the line',
    e: 'frame that closes it, on the line',
  },
  try: { o: [0, 1e-4], f: [0, 2e-4], e: [0, 1e-4] },
  source: 'wilamowski-irwin',
  at: 'the asynchronous part of the cycle',
  proof: 'C10',
  of: (o: number, f: number, e: number) => o + f + e,
});

export const cycleUsed = formula({
  id: 'networks.cycle.used',
  title: 'what a cycle needs',
  text: 's + x + r + w',
  gives: 's',
  symbols: { s: 's', x: 's', r: 's', w: 's' },
  means: {
    s: 'start-of-cycle frame on the line',
    x: 'the exchanges of the fullest cycle',
    r: 'room for repeats',
    w: 'non-cyclic window',
  },
  try: { s: [0, 1e-4], x: [1e-5, 3e-3], r: [0, 1e-3], w: [0, 3e-4] },
  source: 'wilamowski-irwin',
  at: 'eq. 39.2 summed over the stations',
  proof: 'C10',
  of: (s: number, x: number, r: number, w: number) => s + x + r + w,
});

export const cycleFree = formula({
  id: 'networks.cycle.free',
  title: 'what a cycle leaves free',
  text: 'T - u',
  gives: 's',
  symbols: { T: 's', u: 's' },
  means: { T: 'cycle', u: 'what it needs' },
  try: { T: [1e-4, 1e-2], u: [1e-5, 1e-2] },
  source: 'definition',
  proof: 'the split adds up to the cycle',
  of: (T: number, u: number) => T - u,
});

/** Whole repeats that fit beside those that are reserved already. */
export const repeatsThatFit = formula({
  id: 'networks.cycle.repeats_that_fit',
  title: 'repeats that fit into the cycle',
  text: 'n + floor((T - u)/max(x))',
  gives: '1',
  symbols: { n: '1', T: 's', u: 's', x: 's[]' },
  means: { n: 'repeats reserved', T: 'cycle', u: 'what it needs', x: 'everything that may have to be repeated' },
  try: { n: [0, 4, 1], T: [1e-3, 1e-2], u: [1e-5, 1e-3], x: [1e-5, 3e-4] },
  source: 'definition',
  proof: 'one repeat more does not fit',
  of: (n: number, T: number, u: number, x: readonly number[]) => n + Math.floor((T - u) / Math.max(...x)),
});

/** The same with a wanted share of the cycle left free. */
export const repeatsWithReserve = formula({
  id: 'networks.cycle.repeats_with_reserve',
  title: 'repeats that fit into the cycle with the reserve kept',
  text: 'n + floor(((1 - q)*T - u)/max(x))',
  gives: '1',
  symbols: { n: '1', q: '1', T: 's', u: 's', x: 's[]' },
  means: {
    n: 'repeats reserved',
    q: 'share that shall stay free',
    T: 'cycle',
    u: 'what it needs',
    x: 'everything that may have to be repeated',
  },
  try: { n: [0, 4, 1], q: [0, 0.5], T: [1e-3, 1e-2], u: [1e-5, 1e-3], x: [1e-5, 3e-4] },
  source: 'definition',
  proof: 'one repeat more does not fit',
  of: (n: number, q: number, T: number, u: number, x: readonly number[]) =>
    n + Math.floor(((1 - q) * T - u) / Math.max(...x)),
});

/** How often a station is served. */
export const updatePeriod = formula({
  id: 'networks.update.period',
  title: 'period in which a station is served',
  text: 'n*T',
  gives: 's',
  symbols: { n: '1', T: 's' },
  means: { n: 'the station is served in every n-th cycle', T: 'cycle' },
  try: { n: [1, 8, 1], T: [1e-4, 1e-2] },
  source: 'definition',
  proof: 'F4',
  of: (n: number, T: number) => n * T,
});

/** The shortest cycle that keeps a wanted share free. */
export const shortestCycle = formula({
  id: 'networks.cycle.shortest',
  title: 'shortest cycle that keeps the reserve',
  text: 'u/(1 - q)',
  gives: 's',
  symbols: { u: 's', q: '1' },
  means: { u: 'what a cycle needs', q: 'share that shall stay free' },
  try: { u: [1e-5, 1e-2], q: [0, 0.9] },
  source: 'definition',
  proof: 'the shortest cycle just keeps its reserve',
  of: (u: number, q: number) => u / (1 - q),
});

/** The shortest cycle that keeps a wanted share free and that the profile allows. */
export const shortestAllowed = formula({
  id: 'networks.cycle.shortest_allowed',
  title: 'shortest cycle that keeps the reserve and that the profile allows',
  text: 'max(u/(1 - q), m)',
  gives: 's',
  symbols: { u: 's', q: '1', m: 's' },
  means: { u: 'what a cycle needs', q: 'share that shall stay free', m: 'shortest cycle of the profile' },
  try: { u: [1e-5, 1e-2], q: [0, 0.9], m: [1e-5, 1e-2] },
  source: 'definition',
  proof: 'the shortest cycle just keeps its reserve',
  of: (u: number, q: number, m: number) => Math.max(u / (1 - q), m),
});

/** A part of the cycle as a share of it. */
export const shareOfCycle = formula({
  id: 'networks.cycle.share',
  title: 'share of the cycle',
  text: 't/T',
  gives: '1',
  as: '%',
  symbols: { t: 's', T: 's' },
  means: { t: 'part of the cycle', T: 'cycle' },
  try: { t: [0, 1e-3], T: [1e-4, 1e-2] },
  source: 'definition',
  proof: 'the split adds up to the cycle',
  of: (t: number, T: number) => t / T,
});

/** What has to be kept free for one repeat more. */
export const oneRepeat = formula({
  id: 'networks.cycle.one_repeat',
  title: 'what one repeat costs',
  text: 'max(x)',
  gives: 's',
  symbols: { x: 's[]' },
  means: { x: 'everything that may have to be repeated, of any cycle' },
  try: { x: [1e-5, 3e-4] },
  source: 'judgement',
  at: 'any exchange may be the one that is lost',
  proof: 'one repeat more does not fit',
  of: (x: readonly number[]) => Math.max(...x),
});

/** Which cycle of the pattern counts. */
export const fullestCycle = method({
  id: 'networks.cycle.fullest',
  title: 'the fullest cycle of the pattern',
  prose:
    'the largest of b, after every station that is served in each n-th cycle was given the one of its n cycles that leaves the fullest as empty as possible',
  gives: 's',
  symbols: { b: 's[]', n: '1[]' },
  means: { b: 'what each cycle of the pattern takes', n: 'multiple of the cycle on which each station is served' },
  source: 'definition',
  proof: 'leave the fullest cycle as empty as the best of all choices',
  of: (b: readonly number[], _n: readonly number[]) => Math.max(...b),
});
