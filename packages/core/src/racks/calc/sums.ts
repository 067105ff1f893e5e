// What racks come to: places, currents, channels and how many are free, the spare that is wanted, parts and their costs.
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

/** A channel that can be of several kinds is none of the others any more when a point is on it. */
export const channelsLeft = formula({
  id: 'racks.channels_left',
  title: 'channels that are left for a kind',
  text: 'n - t',
  gives: '1',
  symbols: { n: '1', t: '1' },
  means: { n: 'channels that can be of the kind', t: 'those of them that points of another kind use' },
  try: { n: [12, 40, 1], t: [0, 11, 1] },
  source: 'definition',
  proof: 'channels that another kind uses, by hand',
  of: (n: number, t: number) => n - t,
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

export const channelsFree = formula({
  id: 'racks.free',
  title: 'channels that are free',
  text: 'n - u',
  gives: '1',
  symbols: { n: '1', u: '1' },
  means: { n: 'channels that are there', u: 'channels that are used' },
  try: { n: [12, 40, 1], u: [0, 11, 1] },
  source: 'definition',
  proof: 'free channels by hand',
  of: (n: number, u: number) => n - u,
});

export const freeShare = formula({
  id: 'racks.free_share',
  title: 'share of the channels that is free',
  text: '(n - u)/n',
  gives: '1',
  as: '%',
  symbols: { n: '1', u: '1' },
  means: { n: 'channels that are there', u: 'channels that are used' },
  try: { n: [12, 40, 1], u: [0, 11, 1] },
  source: 'definition',
  proof: 'free channels by hand',
  of: (n: number, u: number) => (n - u) / n,
});

export const costOfParts = formula({
  id: 'racks.cost_of_part',
  title: 'cost of all parts of a name',
  text: 'n*c',
  gives: 'cost',
  symbols: { n: '1', c: 'cost' },
  means: { n: 'how many', c: 'cost of one' },
  try: { n: [1, 40, 1], c: [1, 900] },
  source: 'definition',
  proof: 'a parts list by hand',
  of: (n: number, c: number) => n * c,
});

export const costOfAll = formula({
  id: 'racks.cost',
  title: 'cost of all parts of racks',
  text: 'sum(c)',
  gives: 'cost',
  symbols: { c: 'cost[]' },
  means: { c: 'cost of all parts of each name' },
  try: { c: [1, 9000] },
  source: 'definition',
  proof: 'a parts list by hand',
  of: total,
});
