// What is found of a chain as a whole, as steps of a working.

import { formula, openMethod } from '../working/formula.ts';
import { total } from '../working/total.ts';

export const shortestDelay = openMethod({
  id: 'timing.chain.shortest',
  title: 'shortest way from a cause to its effect',
  prose:
    'each link at its quickest; one that looks does so just as the data come, unless it shares a clock with the one before, whose looks then decide, the look of a task as late as others may keep it waiting',
  gives: 's',
  source: 'definition',
  proof: 'as if it went from look to look',
});

export const longestDelay = openMethod({
  id: 'timing.chain.longest',
  title: 'longest way from a cause to its effect',
  prose:
    'each link at its slowest; one that looks has just done so, unless it shares a clock with the one before, whose looks then decide over all of their common period',
  gives: 's',
  source: 'davare',
  at: 'for links with clocks of their own; on one clock by walking from look to look',
  proof: 'as if it went from look to look',
});

export const delayUpTo = openMethod({
  id: 'timing.chain.up_to',
  title: 'delay that a share of all causes stays within',
  prose:
    'independent waits, each even over its period, and delays, each even from least to most: their distribution, exact in pieces, and where it reaches the share',
  gives: 's',
  source: 'definition',
  proof: '200 chains of free links and runs on one clock or two',
});

const withEnds = {
  text: 'x + sum(d)',
  gives: 's',
  symbols: { x: 's', d: 's[]' },
  try: { x: [1e-4, 1e-1], d: [0, 1e-2] },
  source: 'definition',
  proof: 'CE1 as a file between a sensor and a valve',
  of: (x: number, d: readonly number[]) => x + total(d),
} as const;

export const exactWithEnds = formula({
  ...withEnds,
  id: 'timing.chain.exact',
  title: 'longest way from a cause to its effect, every job of the schedule walked',
  means: { x: 'longest way through the tasks', d: 'each link that passes on at once, at its slowest' },
});

export const exactLeastWithEnds = formula({
  ...withEnds,
  id: 'timing.chain.exact_least',
  title: 'shortest way from a cause to its effect, every job of the schedule walked',
  means: { x: 'shortest way through the tasks', d: 'each link that passes on at once, at its quickest' },
});
