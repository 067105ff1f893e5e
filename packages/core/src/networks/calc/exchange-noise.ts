// What noise meets of an exchange: how many bits over how many runs, and for how long one of its frames is on a cable.
import { formula } from '../../working/formula.ts';

/** Each run spoils the bits that it carries anew, whatever passes the frame on between them. */
export const bitsOnTheWay = formula({
  id: 'networks.noise.bits_on_the_way',
  title: 'bits of a frame over all runs that it passes',
  text: 'n*L',
  gives: 'bit',
  symbols: { n: '1', L: 'bit' },
  means: { n: 'runs that the frame passes', L: 'frame, from destination address to check sequence' },
  try: { n: [1, 40, 1], L: [512, 12144] },
  source: 'definition',
  proof: 'a frame lost run by run',
  of: (n: number, L: number) => n * L,
});

/** Wherever the pulse gets in, some run of the way carries the frame then; the gap behind it carries nothing. */
export const openOnTheWay = formula({
  id: 'networks.noise.open_on_the_way',
  title: 'time in which a pulse spoils the frame on its way',
  text: 'p + a - g/R',
  gives: 's',
  symbols: { p: 's', a: 's', g: 'bit', R: 'bit/s' },
  means: { p: 'way of the first bit', a: 'frame on the line, gap included', g: 'gap after it', R: 'bits per second' },
  try: { p: [1e-8, 1e-4], a: [1e-4, 1e-3], g: [1, 96], R: [1e7, 1e9] },
  source: 'definition',
  proof: 'an exchange and a burst at every phase',
  of: (p: number, a: number, g: number, R: number) => p + a - g / R,
});

export const commandBegins = formula({
  id: 'networks.noise.command_begins',
  title: 'the first bit of the command leaves',
  text: 'c - a',
  gives: 's',
  symbols: { c: 's', a: 's' },
  means: { c: 'end of the command, gap included', a: 'command on the line' },
  try: { c: [1e-4, 1e-3], a: [5e-6, 9e-5] },
  source: 'definition',
  proof: 'an exchange and a burst at every phase',
  of: (c: number, a: number) => c - a,
});

export const answerBegins = formula({
  id: 'networks.noise.answer_begins',
  title: 'the first bit of the answer leaves its station',
  text: 'e - b - r',
  gives: 's',
  symbols: { e: 's', b: 's', r: 's' },
  means: { e: 'end of the answer at the controller, gap included', b: 'answer on the line', r: 'way back' },
  try: { e: [3e-4, 1e-3], b: [5e-6, 9e-5], r: [1e-8, 1e-4] },
  source: 'definition',
  proof: 'an exchange and a burst at every phase',
  of: (e: number, b: number, r: number) => e - b - r,
});

export const answerLeaves = formula({
  id: 'networks.noise.answer_leaves',
  title: 'the first bit of the answer leaves its station, if it waits for no other there',
  text: 'c + p + D',
  gives: 's',
  symbols: { c: 's', p: 's', D: 's' },
  means: { c: 'end of the command, gap included', p: 'way to the station', D: 'turnaround of the station' },
  try: { c: [1e-5, 1e-3], p: [1e-8, 1e-4], D: [1e-6, 1e-4] },
  source: 'definition',
  proof: 'pulses on files, frame by frame',
  of: (c: number, p: number, D: number) => c + p + D,
});

/** Where it waits is not known: it may be on each run from when it could be at the soonest until it must be at the latest. */
export const openWhileWaiting = formula({
  id: 'networks.noise.open_while_waiting',
  title: 'time in which a pulse may spoil an answer that waits for others on its way',
  text: 'L + (e - b - r - o)',
  gives: 's',
  symbols: { L: 's', e: 's', b: 's', r: 's', o: 's' },
  means: {
    L: 'time in which a pulse spoils it if it does not wait',
    e: 'end of the answer at the controller, gap included',
    b: 'answer on the line',
    r: 'way back',
    o: 'it leaves its station',
  },
  try: { L: [1e-5, 1e-4], e: [3e-4, 1e-3], b: [5e-6, 9e-5], r: [1e-8, 1e-4], o: [1e-5, 1e-4] },
  source: 'definition',
  proof: 'pulses on files, frame by frame',
  of: (L: number, e: number, b: number, r: number, o: number) => L + (e - b - r - o),
});

export const beginsOnRun = formula({
  id: 'networks.noise.begins_on_run',
  title: 'the first bit of the frame leaves the sender’s end of the run',
  text: 'o + p',
  gives: 's',
  symbols: { o: 's', p: 's' },
  means: { o: 'the first bit leaves', p: 'way up to the run' },
  try: { o: [0, 1e-3], p: [1e-8, 1e-4] },
  source: 'definition',
  proof: 'pulses on files, frame by frame',
  of: (o: number, p: number) => o + p,
});

/** A burst that reaches from before the one frame to behind the other is as bad as one that spoils both. */
export const exchangeOpen = formula({
  id: 'networks.noise.exchange_open',
  title: 'time in which the exchange is open to noise, from its first bit to its last',
  text: 'max(c, e) - min(c - a, e - b) - g/R',
  gives: 's',
  symbols: { c: 's', a: 's', e: 's', b: 's', g: 'bit', R: 'bit/s' },
  means: {
    c: 'end of the command, gap included',
    a: 'command on the line',
    e: 'end of the answer at the controller, gap included',
    b: 'answer on the line',
    g: 'gap after a frame',
    R: 'bits per second',
  },
  try: { c: [1e-4, 1e-3], a: [5e-6, 9e-5], e: [1e-4, 1e-3], b: [5e-6, 9e-5], g: [1, 96], R: [1e7, 1e9] },
  source: 'definition',
  proof: 'an exchange and a burst at every phase',
  of: (c: number, a: number, e: number, b: number, g: number, R: number) =>
    Math.max(c, e) - Math.min(c - a, e - b) - g / R,
});

/** The two ways round a ring have no run in common: what chance does on one tells nothing of the other. */
export const lostBothWays = formula({
  id: 'networks.ring.both_ways',
  title: 'chance that both copies of a frame are lost that go round a ring both ways',
  text: 'c*d',
  gives: '1',
  symbols: { c: '1', d: '1' },
  means: { c: 'chance that the copy is lost that goes the one way', d: 'the same for the other way' },
  try: { c: [1e-4, 0.5], d: [1e-4, 0.5] },
  source: 'definition',
  proof: 'a ring that sends both ways, run by run and state by state',
  of: (c: number, d: number) => c * d,
});

export const longestBurst = formula({
  id: 'networks.burst.longest',
  title: 'longest burst that couples into the way of the station',
  text: 'max(B)',
  gives: 's',
  symbols: { B: 's[]' },
  means: { B: 'burst of each source' },
  try: { B: [1e-3, 0.2] },
  source: 'definition',
  proof: 'a burst walked through all phases',
  of: (B: readonly number[]) => Math.max(...B),
});

/** The m-th loss in a row trips: one fewer is the most that an axis has to live with. */
export const missedAtMost = formula({
  id: 'networks.missed.time',
  title: 'longest time without an update that does not trip',
  text: '(m - 1)*T',
  gives: 's',
  symbols: { m: '1', T: 's' },
  means: { m: 'losses in a row that trip', T: 'period of the updates' },
  try: { m: [1, 6, 1], T: [1e-4, 4e-3] },
  source: 'definition',
  proof: 'motion walked while updates are missing',
  of: (m: number, T: number) => (m - 1) * T,
});

export const noTripChance = formula({
  id: 'networks.trip.none',
  title: 'chance of no trip by random losses within a time',
  text: '1 - c',
  gives: '1',
  as: '%',
  symbols: { c: '1' },
  means: { c: 'chance of a trip' },
  try: { c: [0, 1] },
  source: 'definition',
  proof: 'recursion over runs of losses',
  of: (c: number) => 1 - c,
});
