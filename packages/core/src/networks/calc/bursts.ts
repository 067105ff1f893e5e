// One burst that spoils all it meets: how many updates it costs, and how long it may last before a drive trips. The pulses
// of a pattern, with gaps between them, are in `pulse-pattern.ts`.
import { formula } from '../../working/formula.ts';

/** The share of a random pattern is no answer to a burst: always state both. */
export const framesSpoilt = formula({
  id: 'networks.burst.frames_spoilt',
  title: 'frames in a row that a burst spoils at its worst phase',
  text: 'floor((B + L)/T) + 1',
  gives: '1',
  symbols: { B: 's', L: 's', T: 's' },
  means: { B: 'burst', L: 'time in which the frame is open to noise', T: 'period of the frames' },
  try: { B: [0, 5e-3], L: [5e-6, 1.2e-4], T: [1e-4, 4e-3] },
  source: 'definition',
  proof: 'a burst walked through all phases',
  of: (B: number, L: number, T: number) => Math.floor((B + L) / T) + 1,
});

/** A shorter cycle with as many losses in a row bridges a shorter burst. 0 where every burst trips. */
export const burstBridged = formula({
  id: 'networks.burst.bridged',
  title: 'a burst is bridged while it is shorter than this',
  text: 'max((m - 1)*T, L) - L',
  gives: 's',
  symbols: { m: '1', T: 's', L: 's' },
  means: {
    m: 'losses in a row that trip',
    T: 'period of the updates',
    L: 'time in which the frame is open to noise',
  },
  try: { m: [1, 6, 1], T: [1e-4, 4e-3], L: [5e-6, 1.2e-4] },
  source: 'definition',
  proof: 'a burst walked through all phases',
  of: (m: number, T: number, L: number) => Math.max((m - 1) * T, L) - L,
});

/** A burst has to reach from the first try to the last repeat before it costs an update at all. */
export const burstBridgedWithRepeats = formula({
  id: 'networks.burst.bridged_with_repeats',
  title: 'a burst is bridged while it is shorter than this, with repeats of its own',
  text: '(m - 1)*T + D - L',
  gives: 's',
  symbols: { m: '1', T: 's', D: 's', L: 's' },
  means: {
    m: 'losses in a row that trip',
    T: 'period of the updates',
    D: 'from the begin of the first try to that of the last repeat',
    L: 'time in which the first try is open to noise',
  },
  try: { m: [1, 6, 1], T: [1e-4, 4e-3], D: [1e-5, 1e-3], L: [5e-6, 1.2e-4] },
  source: 'definition',
  proof: 'a burst walked through all phases',
  of: (m: number, T: number, D: number, L: number) => (m - 1) * T + D - L,
});

/** The smallest setting of a drive that bridges a burst. */
export const tripAfterForBurst = formula({
  id: 'networks.burst.trip_after',
  title: 'losses in a row that may trip so that a burst is bridged, at least',
  text: 'floor((B + L)/T) + 2',
  gives: '1',
  symbols: { B: 's', L: 's', T: 's' },
  means: { B: 'burst', L: 'time in which the frame is open to noise', T: 'period of the updates' },
  try: { B: [0, 5e-3], L: [5e-6, 1.2e-4], T: [1e-4, 4e-3] },
  source: 'definition',
  proof: 'a burst walked through all phases',
  of: (B: number, L: number, T: number) => Math.floor((B + L) / T) + 2,
});
