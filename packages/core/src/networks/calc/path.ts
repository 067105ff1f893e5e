// How long the first bit takes from the controller to a station, through cables and the devices before it.
import { formula } from '../../working/formula.ts';
import { total } from '../../working/total.ts';

export const runDelay = formula({
  id: 'networks.run.delay',
  title: 'propagation along a cable',
  text: 'l*t',
  gives: 's',
  symbols: { l: 'm', t: 's/m' },
  means: { l: 'length of the cable', t: 'propagation time per metre' },
  try: { l: [0, 100], t: [4e-9, 6e-9] },
  source: 'ieee-802.3',
  at: '802.3u-1995 delay budget',
  proof: 'E6',
  of: (l: number, t: number) => l * t,
});

/** A device that waits for a frame, or for its start, before it passes it on. */
export const passingOn = formula({
  id: 'networks.hop.delay',
  title: 'a device that waits for a frame or its start passes it on',
  text: 'f + H/R',
  gives: 's',
  symbols: { f: 's', H: 'bit', R: 'bit/s' },
  means: { f: 'what it takes beside waiting', H: 'how much must have come in', R: 'bits per second' },
  try: { f: [0, 1e-5], H: [8, 12208], R: [1e7, 1e9] },
  source: 'inet',
  at: 'showcase "cut-through switching"',
  proof: 'C2',
  of: (f: number, H: number, R: number) => f + H / R,
});

/** What a device that stores frames waits for: the whole of it, preamble included. */
export const wholeFrame = formula({
  id: 'networks.hop.whole_frame',
  title: 'frame with its preamble, which must have come in whole',
  text: 'L + w',
  gives: 'bit',
  symbols: { L: 'bit', w: 'bit' },
  means: { L: 'frame', w: 'preamble and delimiter before it' },
  try: { L: [512, 12144], w: [1, 64] },
  source: 'inet',
  at: 'showcase "cut-through switching"',
  proof: 'C1',
  of: (L: number, w: number) => L + w,
});

export const pathDelay = formula({
  id: 'networks.path.delay',
  title: 'first bit of a frame between the controller and the station',
  text: 'sum(c) + sum(f)',
  gives: 's',
  symbols: { c: 's[]', f: 's[]' },
  means: { c: 'propagation along each cable on the way', f: 'time in which each device between passes the frame on' },
  try: { c: [0, 1e-6], f: [0, 1e-5] },
  source: 'definition',
  proof: 'arrival walked hop by hop',
  of: (c: readonly number[], f: readonly number[]) => total(c) + total(f),
});

export const answerArrival = formula({
  id: 'networks.path.back',
  title: 'first bit of the answer back at the controller, after the first bit of the command left',
  text: 'p + a - g/R + D + r',
  gives: 's',
  symbols: { p: 's', a: 's', g: 'bit', R: 'bit/s', D: 's', r: 's' },
  means: {
    p: 'first bit of the command to the station',
    a: 'command on the line, gap included',
    g: 'gap after a frame',
    R: 'bits per second',
    D: 'turnaround of the station',
    r: 'first bit of the answer back to the controller',
  },
  try: { p: [0, 1e-5], a: [5e-6, 2e-4], g: [8, 96], R: [1e7, 1e9], D: [0, 1e-4], r: [0, 1e-5] },
  source: 'definition',
  proof: 'arrival walked hop by hop',
  of: (p: number, a: number, g: number, R: number, D: number, r: number) => p + a - g / R + D + r,
});

/**
 * A frame that passes through all devices and comes back crosses each of them, and each cable, twice; one that branches
 * once more for each further branch.
 */
export const roundTrip = formula({
  id: 'networks.path.round_trip',
  title: 'through all devices and back',
  text: '2*(sum(c) + sum(f)) + sum(b)',
  gives: 's',
  symbols: { c: 's[]', f: 's[]', b: 's[]' },
  means: {
    c: 'propagation along every cable',
    f: 'time in which every device passes the frame on',
    b: 'the same once more for each further branch',
  },
  try: { c: [0, 1e-6], f: [0, 1e-5], b: [0, 1e-5] },
  source: 'common-practice',
  proof: 'C16',
  of: (c: readonly number[], f: readonly number[], b: readonly number[]) => 2 * (total(c) + total(f)) + total(b),
});

/** How much later one station sees the same frame than another. */
export const skew = formula({
  id: 'networks.path.skew',
  title: 'how much later the first bit is here than there',
  text: 'max(p, q) - min(p, q)',
  gives: 's',
  symbols: { p: 's', q: 's' },
  means: { p: 'way to the one', q: 'way to the other' },
  try: { p: [0, 1e-5], q: [0, 1e-5] },
  source: 'definition',
  proof: 'arrival walked hop by hop',
  of: (p: number, q: number) => Math.max(p, q) - Math.min(p, q),
});
