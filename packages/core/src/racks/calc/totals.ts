// What the racks of a machine come to as a whole: channels that are free, points that are carried, parts and their costs.
import { formula } from '../../working/formula.ts';
import { total } from '../../working/total.ts';

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
