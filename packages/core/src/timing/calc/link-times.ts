// What a link of a chain takes, from what is said of a signal or of a station that a network serves.
import { formula } from '../../working/formula.ts';
import { total } from '../../working/total.ts';

export const slowestSignal = formula({
  id: 'timing.link.slowest',
  title: 'longest delay of a signal',
  text: 'd + j',
  gives: 's',
  symbols: { d: 's', j: 's' },
  means: { d: 'its delay', j: 'by how much it may be longer' },
  try: { d: [0, 2e-2], j: [0, 5e-3] },
  source: 'definition',
  proof: 'a signal takes its delay and at most its jitter more',
  of: (d: number, j: number) => d + j,
});

/** Of a chain with the link and without it. */
export const linkAdds = formula({
  id: 'timing.link.adds',
  title: 'what a link adds to the longest delay of its chain',
  text: 'w - o',
  gives: 's',
  symbols: { w: 's', o: 's' },
  means: { w: 'longest delay of the chain', o: 'that of the chain without the link' },
  try: { w: [1e-3, 1e-1], o: [1e-4, 9e-4] },
  source: 'definition',
  proof: 'what a link adds is told beside it',
  of: (w: number, o: number) => w - o,
});

/** A station takes its inputs as the command arrives, and its answer brings them. */
export const wayBack = formula({
  id: 'timing.link.way_back',
  title: 'from the look of a station at its inputs until the controller has them',
  text: 'a - t',
  gives: 's',
  symbols: { a: 's', t: 's' },
  means: { a: 'its answer arrives, from the start of the cycle', t: 'the command arrives at it' },
  try: { a: [1e-4, 2e-3], t: [1e-6, 9e-5] },
  source: 'definition',
  proof: 'a signal takes its delay and at most its jitter more',
  of: (a: number, t: number) => a - t,
});

/** From the start of the period in which a command leaves until its axis goes by it. */
export const setpointTakes = formula({
  id: 'timing.link.setpoint',
  title: 'from the command until the axis goes by it',
  text: 'sum(n)*T + sum(d)',
  gives: 's',
  symbols: { n: '1[]', T: 's', d: 's[]' },
  means: { n: 'periods that it waits, one after another', T: 'period of the axis', d: 'what delays it beside them' },
  try: { n: [0, 3, 1], T: [1e-4, 4e-3], d: [0, 1e-3] },
  source: 'definition',
  proof: 'a chain that ends in an axis counts the buffers of its drive',
  of: (n: readonly number[], T: number, d: readonly number[]) => total(n) * T + total(d),
});

export const quickestSignal = formula({
  id: 'timing.link.quickest',
  title: 'shortest delay of what comes earlier or later',
  text: 'd - min(d, j)',
  gives: 's',
  symbols: { d: 's', j: 's' },
  means: { d: 'its delay', j: 'by how much it may be shorter' },
  try: { d: [0, 2e-2], j: [0, 2e-2] },
  source: 'definition',
  proof: 'a chain that ends in an axis counts the buffers of its drive',
  of: (d: number, j: number) => d - Math.min(d, j),
});

/** At constant speed the tool is behind its setpoint by so long. */
export const loopDelay = formula({
  id: 'timing.link.loop',
  title: 'by how long a position loop is behind its setpoint',
  text: '(1 - f)/k',
  gives: 's',
  symbols: { f: '1', k: '1/s' },
  means: { f: 'share of the speed that is fed forward', k: 'gain of the loop' },
  try: { f: [0, 1], k: [5, 500] },
  source: 'definition',
  proof: 'a position loop that is integrated is behind its setpoint by its gain',
  of: (f: number, k: number) => (1 - f) / k,
});

/** On the clock that networks and tasks share. */
export const lookInCycle = formula({
  id: 'timing.link.looks',
  title: 'when a station looks, on the clock of networks and tasks',
  text: 'o + t',
  gives: 's',
  symbols: { o: 's', t: 's' },
  means: { o: 'when the cycle of its network starts', t: 'when it looks, from the start of the cycle' },
  try: { o: [0, 1e-3], t: [0, 1e-3] },
  source: 'definition',
  proof: 'two networks that begin their cycles apart',
  of: (o: number, t: number) => o + t,
});
