// The summation discipline: frames that carry the data of many stations, pass through all of them and come back.
import { formula } from '../../working/formula.ts';
import { total } from '../../working/total.ts';

/** What one station takes up in a frame: the places of its command and of its answer. */
export const stationData = formula({
  id: 'networks.summation.data',
  title: 'places of a station in the frame',
  text: 'P + Q',
  gives: 'bit',
  symbols: { P: 'bit', Q: 'bit' },
  means: { P: 'payload of its command', Q: 'payload of its answer' },
  try: { P: [0, 1024], Q: [1, 1024] },
  source: 'judgement',
  at: 'a place for the command and one for the answer',
  proof: 'C16',
  of: (P: number, Q: number) => P + Q,
});

export const frameData = formula({
  id: 'networks.summation.frame_data',
  title: 'data of all stations in one frame',
  text: 'sum(P)',
  gives: 'bit',
  symbols: { P: 'bit[]' },
  means: { P: 'places of each station in this frame' },
  try: { P: [8, 1024] },
  source: 'definition',
  proof: 'F1',
  of: (P: readonly number[]) => total(P),
});

/** Frames follow each other; the way there and back is waited for once, behind the last of them. */
export const throughAll = formula({
  id: 'networks.summation.exchanges',
  title: 'frames one behind another, and the way through all stations and back',
  text: 'sum(a) + t',
  gives: 's',
  symbols: { a: 's[]', t: 's' },
  means: { a: 'each frame on the line', t: 'through all devices and back' },
  try: { a: [5e-6, 2e-4], t: [0, 1e-4] },
  source: 'common-practice',
  proof: 'C16',
  of: (a: readonly number[], t: number) => total(a) + t,
});

/** A frame that is lost is sent again as a whole. */
export const frameAgain = formula({
  id: 'networks.summation.frame_again',
  title: 'a frame sent again, through all stations and back',
  text: 'a + t',
  gives: 's',
  symbols: { a: 's', t: 's' },
  means: { a: 'frame on the line', t: 'through all devices and back' },
  try: { a: [5e-6, 2e-4], t: [1e-7, 1e-4] },
  source: 'definition',
  proof: 'cycle walked frame by frame',
  of: (a: number, t: number) => a + t,
});
