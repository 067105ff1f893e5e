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
