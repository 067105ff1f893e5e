// What a link of a chain takes, from what is said of a signal or of a station that a network serves.
import { formula } from '../../working/formula.ts';

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
