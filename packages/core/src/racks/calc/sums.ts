// What a rack and a kind of point come to: places, currents, channels, and the spare that is wanted.
import { formula } from '../../working/formula.ts';
import { total } from '../../working/total.ts';

export const placesTaken = formula({
  id: 'racks.places_taken',
  title: 'places that are taken',
  text: 'sum(p)',
  gives: '1',
  symbols: { p: '1[]' },
  means: { p: 'places of the supply, of what stands beside the modules, and of each module' },
  try: { p: [0, 4, 1] },
  source: 'definition',
  proof: 'places and currents by hand',
  of: total,
});

export const currentDrawn = formula({
  id: 'racks.current_drawn',
  title: 'current that is drawn from a supply',
  text: 'sum(i)',
  gives: 'A',
  symbols: { i: 'A[]' },
  means: { i: 'current of each' },
  try: { i: [0, 2] },
  source: 'definition',
  proof: 'places and currents by hand',
  of: total,
});

export const channelsThere = formula({
  id: 'racks.channels',
  title: 'channels that are there',
  text: 'sum(n)',
  gives: '1',
  symbols: { n: '1[]' },
  means: { n: 'channels of each group that can be of the kind' },
  try: { n: [1, 20, 1] },
  source: 'definition',
  proof: 'places and currents by hand',
  of: total,
});

export const octetsOfModules = formula({
  id: 'racks.octets',
  title: 'data of the modules of a remote rack',
  text: 'sum(o)',
  gives: 'bit',
  symbols: { o: 'bit[]' },
  means: { o: 'data of each module' },
  try: { o: [0, 128, 8] },
  source: 'definition',
  proof: 'places and currents by hand',
  of: total,
});

/** 75 free beside 225 used are 33 % of the used and 25 % of all. */
export const spareOfAll = formula({
  id: 'racks.spare_of_all',
  title: 'spare as a share of all channels',
  text: 's/(1 + s)',
  gives: '1',
  as: '%',
  symbols: { s: '1' },
  means: { s: 'free channels for each used one' },
  try: { s: [0, 2] },
  source: 'definition',
  proof: 'spare of the used and of all',
  of: (s: number) => s / (1 + s),
});
