// Cables and collisions: what a link takes from the signal, how long it is, how long a collision needs to be noticed.
import { formula } from '../../working/formula.ts';
import { total } from '../../working/total.ts';

export const linkLength = formula({
  id: 'networks.link.length',
  title: 'cable between two devices that pass the signal on',
  text: 'sum(l)',
  gives: 'm',
  symbols: { l: 'm[]' },
  means: { l: 'each cable' },
  try: { l: [0, 100] },
  source: 'definition',
  proof: 'all cord: 70 m',
  of: (l: readonly number[]) => total(l),
});

export const cableAttenuation = formula({
  id: 'networks.link.cable_attenuation',
  title: 'what a cable takes from the signal',
  text: 'l*k',
  gives: 'dB',
  symbols: { l: 'm', k: 'dB/m' },
  means: { l: 'length', k: 'for each metre' },
  try: { l: [0, 100], k: [0.1, 0.4] },
  source: 'common-practice',
  proof: 'all cord: 70 m',
  of: (l: number, k: number) => l * k,
});

export const linkAttenuation = formula({
  id: 'networks.link.attenuation',
  title: 'what a link takes from the signal',
  text: 'sum(k)',
  gives: 'dB',
  symbols: { k: 'dB[]' },
  means: { k: 'each cable and each coupling' },
  try: { k: [0, 24] },
  source: 'common-practice',
  proof: 'all cord: 70 m',
  of: (k: readonly number[]) => total(k),
});

/** The round trip that a collision at the far end needs to be noticed. */
export const collisionRoundTrip = formula({
  id: 'networks.collisions.round_trip',
  title: 'round trip in which a collision is noticed',
  text: 'd + sum(h) + 2*sum(c)*R',
  gives: 'bit',
  symbols: { d: 'bit', h: 'bit[]', c: 's[]', R: 'bit/s' },
  means: {
    d: 'two stations',
    h: 'each repeater on the way',
    c: 'propagation along each cable on the way',
    R: 'bits per second',
  },
  try: { d: [1, 100], h: [92, 140], c: [0, 1e-6], R: [1e7, 1e8] },
  source: 'ieee-802.3',
  at: '802.3u-1995 delay budget',
  proof: 'E6',
  of: (d: number, h: readonly number[], c: readonly number[], R: number) => d + total(h) + 2 * total(c) * R,
});

/** What fits into a frame beside its overhead. */
export const payloadCapacity = formula({
  id: 'networks.frame.capacity',
  title: 'payload that the longest frame can carry',
  text: 'M - h',
  gives: 'bit',
  symbols: { M: 'bit', h: 'bit' },
  means: { M: 'longest frame', h: 'what it carries beside the payload' },
  try: { M: [4096, 12144], h: [0, 512] },
  source: 'definition',
  proof: 'F1',
  of: (M: number, h: number) => M - h,
});

export const longestLink = formula({
  id: 'networks.link.longest',
  title: 'longest link',
  text: 'max(l)',
  gives: 'm',
  symbols: { l: 'm[]' },
  means: { l: 'each link' },
  try: { l: [0, 100] },
  source: 'definition',
  proof: 'all cord: 70 m',
  of: (l: readonly number[]) => Math.max(...l),
});

export const weakestLink = formula({
  id: 'networks.link.weakest',
  title: 'link that takes most from the signal',
  text: 'max(k)',
  gives: 'dB',
  symbols: { k: 'dB[]' },
  means: { k: 'each link' },
  try: { k: [0, 24] },
  source: 'definition',
  proof: 'all cord: 70 m',
  of: (k: readonly number[]) => Math.max(...k),
});

export const largestPayload = formula({
  id: 'networks.frame.largest_payload',
  title: 'largest payload of one frame',
  text: 'max(P)',
  gives: 'bit',
  symbols: { P: 'bit[]' },
  means: { P: 'each payload' },
  try: { P: [8, 12000] },
  source: 'definition',
  proof: 'F1',
  of: (P: readonly number[]) => Math.max(...P),
});
