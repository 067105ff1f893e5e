// What random bit errors do to a frame, and how long a frame is open to noise. Bits fail independently of each other here;
// where they fail together, see `two-state.ts` and `bursts.ts`.
import { formula, method } from '../../working/formula.ts';
import { mustBeProbability } from './probability.ts';

/**
 * A frame is lost with any of its bits. The ratio may count another thing than bits of the frame: of a line that sends 5
 * code bits for 4 bits it is the ratio of 0.8 bit.
 */
export const frameErrorRatio = formula({
  id: 'networks.noise.frame_error_ratio',
  title: 'chance that a frame is lost by a random bit error',
  text: '1 - (1 - p)^(L/b)',
  gives: '1',
  symbols: { p: '1', L: 'bit', b: 'bit' },
  means: { p: 'bit error ratio', L: 'all bits of the frame that may not fail', b: 'what the ratio counts: one bit' },
  try: { p: [1e-4, 0.2], L: [8, 160], b: [0.8, 2] },
  source: 'ucd-comp20320',
  proof: 'N3',
  of: (p: number, L: number, b: number) => -Math.expm1((L / b) * Math.log1p(-p)),
});

/** The other way round: what a counted share of lost frames means for each bit. */
export const bitErrorRatio = formula({
  id: 'networks.noise.bit_error_ratio',
  title: 'bit error ratio that explains a share of lost frames',
  text: '1 - (1 - f)^(b/L)',
  gives: '1',
  symbols: { f: '1', b: 'bit', L: 'bit' },
  means: {
    f: 'share of lost frames',
    b: 'what the ratio counts: one bit',
    L: 'all bits of the frame that may not fail',
  },
  try: { f: [1e-2, 0.9], b: [0.8, 2], L: [8, 160] },
  source: 'definition',
  proof: 'there and back again',
  of: (f: number, b: number, L: number) => -Math.expm1((b / L) * Math.log1p(-f)),
});

export const timeBetweenBitErrors = formula({
  id: 'networks.noise.between_errors',
  title: 'mean time between bit errors on a line that is never idle',
  text: 'b/(p*R)',
  gives: 's',
  symbols: { b: 'bit', p: '1', R: 'bit/s' },
  means: { b: 'what the ratio counts: one bit', p: 'bit error ratio', R: 'bits per second' },
  try: { b: [0.8, 2], p: [1e-12, 1e-6], R: [1e7, 1e9] },
  source: 'definition',
  proof: 'E12',
  of: (b: number, p: number, R: number) => b / (p * R),
});

/** The gap behind a frame carries no octets: a pulse in it spoils nothing. */
export const timeOpenToNoise = formula({
  id: 'networks.noise.open',
  title: 'time in which a pulse spoils the frame, preamble included',
  text: '(L + w)/R',
  gives: 's',
  symbols: { L: 'bit', w: 'bit', R: 'bit/s' },
  means: { L: 'frame', w: 'preamble and delimiter before it', R: 'bits per second' },
  try: { L: [512, 12144], w: [1, 64], R: [1e7, 1e9] },
  source: 'ieee-802.3',
  proof: 'a pulse every 200 µs',
  of: (L: number, w: number, R: number) => (L + w) / R,
});

/** A frame over several runs, or an exchange of several frames, each with a chance of its own. */
export const anyLost = method({
  id: 'networks.noise.any_lost',
  title: 'chance that at least one of them is lost',
  prose: '1 less the product of 1 − p over all of them, which fail independently of each other',
  gives: '1',
  symbols: { p: '1[]' },
  means: { p: 'chance that each is lost' },
  source: 'definition',
  proof: 'every combination of losses',
  of: (p: readonly number[]) => {
    for (const each of p) mustBeProbability(each, 'a loss');
    return 0 - Math.expm1(p.reduce((sum, each) => sum + Math.log1p(-each), 0));
  },
});
