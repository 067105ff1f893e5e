// How long a frame is and how long it keeps the line busy. Data amounts are bits, so that no octet factor is needed.
import { formula } from '../../working/formula.ts';

/** From destination address to check sequence, padded to the shortest frame that is allowed. */
export const frameLength = formula({
  id: 'networks.frame.length',
  title: 'frame, from destination address to check sequence',
  text: 'max(m, h + P)',
  gives: 'bit',
  symbols: { m: 'bit', h: 'bit', P: 'bit' },
  means: { m: 'shortest frame allowed', h: 'what it carries beside the payload', P: 'payload' },
  try: { m: [1, 1024], h: [0, 512], P: [0, 2048] },
  source: 'ieee-802.3',
  at: 'clause 3.2.8: a short frame is padded',
  proof: 'F5',
  of: (m: number, h: number, P: number) => Math.max(m, h + P),
});

/** The time from the first bit of the preamble to the end of the gap: what the next frame has to wait for. */
export const lineOccupancy = formula({
  id: 'networks.frame.occupancy',
  title: 'time on the line, preamble and gap included',
  text: '(L + w + g)/R',
  gives: 's',
  symbols: { L: 'bit', w: 'bit', g: 'bit', R: 'bit/s' },
  means: { L: 'frame', w: 'preamble and delimiter before it', g: 'gap after it', R: 'bits per second' },
  try: { L: [8, 12144], w: [0, 64], g: [0, 96], R: [1e7, 1e9] },
  source: 'ieee-802.3',
  at: 'clause 4.4.2: gap of 96 bit times',
  proof: 'E1',
  of: (L: number, w: number, g: number, R: number) => (L + w + g) / R,
});

/** A profile may do without a frame that others send; it states 0 octets then. */
export const lineOccupancyIfSent = formula({
  id: 'networks.frame.occupancy_if_sent',
  title: 'time on the line of a frame that the profile may do without',
  cases: [{ when: 'L > 0', text: '(L + w + g)/R' }, { text: '0*L/R' }],
  gives: 's',
  symbols: { L: 'bit', w: 'bit', g: 'bit', R: 'bit/s' },
  means: {
    L: 'frame; nothing is sent when it is 0',
    w: 'preamble and delimiter before it',
    g: 'gap after it',
    R: 'bits per second',
  },
  try: { L: [0, 4, 1], w: [0, 64], g: [0, 96], R: [1e7, 1e9] },
  source: 'ieee-802.3',
  at: 'clause 4.4.2: gap of 96 bit times',
  proof: 'C10',
  of: (L: number, w: number, g: number, R: number) => (L > 0 ? (L + w + g) / R : (0 * L) / R),
});
