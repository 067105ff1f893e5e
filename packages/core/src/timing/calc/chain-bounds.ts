// From a cause to its effect as steps of a working: the shortest way, and bounds on the longest that hold for every phase.
import { formula } from '../../working/formula.ts';
import type { Quantity } from '../../working/quantity.ts';
import { total } from '../../working/total.ts';

type Time = Quantity<'s'>;

export interface BoundLink {
  /** How often it looks; nothing for what passes on at once. */
  readonly period: Time | undefined;
  /** From its look to its output, at most. */
  readonly most: Time;
  /** Where it runs, for tasks. */
  readonly runs: { readonly on: string; readonly priority: number; readonly jitter: Time } | undefined;
}

interface Looking extends BoundLink {
  readonly period: Time;
}

/** Davare: each link has just looked, and answers slowest. Holds for tasks that read late, and for every phase. */
export const safeBoundOf = (links: readonly BoundLink[], about: string): Time =>
  safeBound(
    {
      T: links.flatMap(({ period }) => period ?? []),
      R: links.filter(looks).map(({ most }) => most),
      d: passing(links),
    },
    about,
  );

/** Dürr: at a hand-over to a less urgent task of the same processor, only one of the two waits counts. */
export function reactionBoundOf(links: readonly BoundLink[], about: string): Time {
  const [first, last] = [links.find(looks), links.findLast(looks)];
  if (first === undefined || last === undefined) return safeBoundOf(links, about);
  const h = handOvers(links).map(({ from, to, isBelow, place }) =>
    isBelow
      ? handOverBelow({ R: from.most, T: to.period, J: from.runs!.jitter }, `${about}.${place}`)
      : handOver({ R: from.most, T: to.period }, `${about}.${place}`),
  );
  return reactionBound({ T: first.period, h, R: last.most, d: passing(links) }, about);
}

/** Dürr: the age of data as they come out; they grow older until the next output, up to the longest reaction. */
export function ageBoundOf(links: readonly BoundLink[], about: string): Time {
  const last = links.findLast(looks);
  if (last === undefined) return safeBoundOf(links, about);
  const h = handOvers(links).map(({ from, isBelow, place }) =>
    isBelow
      ? agedBelow({ T: from.period, J: from.runs!.jitter }, `${about}.${place}`)
      : aged({ T: from.period, R: from.most }, `${about}.${place}`),
  );
  return ageBound({ h, R: last.most, d: passing(links) }, about);
}

const looks = (link: BoundLink): link is Looking => link.period !== undefined;

const passing = (links: readonly BoundLink[]): readonly Time[] =>
  links.flatMap((link) => (looks(link) ? [] : [link.most]));

interface HandOver {
  readonly from: Looking;
  readonly to: Looking;
  /** To a less urgent task of the same processor, with nothing between. */
  readonly isBelow: boolean;
  /** Of the link that takes, from 1. */
  readonly place: number;
}

function handOvers(links: readonly BoundLink[]): readonly HandOver[] {
  const places = links.flatMap((link, at) => (looks(link) ? [{ link, at }] : []));
  return places.slice(1).map(({ link: to, at }, index) => {
    const from = places[index]!;
    const [one, other] = [from.link.runs, to.runs];
    const isOnOne = one !== undefined && one.on === other?.on && one.priority < other.priority;
    return { from: from.link, to, isBelow: isOnOne && from.at + 1 === at, place: at + 1 };
  });
}

export const bestCase = formula({
  id: 'timing.chain.best',
  title: 'shortest way from a cause to its effect',
  text: 'sum(d)',
  gives: 's',
  symbols: { d: 's[]' },
  means: { d: 'each link at its quickest, looking just as the data come' },
  try: { d: [0, 1e-2] },
  source: 'definition',
  proof: 'a scanned controller, by the formula of a controller manual',
  of: (d: readonly number[]) => total(d),
});

export const safeBound = formula({
  id: 'timing.chain.bound',
  title: 'safe bound on the way from a cause to its effect',
  text: 'sum(T) + sum(R) + sum(d)',
  gives: 's',
  symbols: { T: 's[]', R: 's[]', d: 's[]' },
  means: {
    T: 'period of each link that looks once in a period',
    R: 'its longest response',
    d: 'each link that passes on at once, at its slowest',
  },
  try: { T: [1e-4, 1e-2], R: [1e-4, 1e-2], d: [0, 1e-2] },
  source: 'davare',
  proof: 'CE1',
  of: (T: readonly number[], R: readonly number[], d: readonly number[]) => total(T) + total(R) + total(d),
});

/** What is more urgent, or elsewhere, may have looked just before the data come, and may look only once they are there. */
export const handOver = formula({
  id: 'timing.chain.hand_over',
  title: 'hand-over to a link that is more urgent or elsewhere',
  text: 'R + T',
  gives: 's',
  symbols: { R: 's', T: 's' },
  means: { R: 'longest response of the link that hands over', T: 'period of the one that takes' },
  try: { R: [1e-4, 1e-2], T: [1e-4, 1e-2] },
  source: 'duerr',
  at: 'theorem 5.4',
  proof: 'CE2',
  of: (R: number, T: number) => R + T,
});

/** A less urgent task of the same processor cannot begin between the release and the end of the one that hands over. */
export const handOverBelow = formula({
  id: 'timing.chain.hand_over_below',
  title: 'hand-over to a task that is less urgent on the same processor',
  text: 'max(R, T + J)',
  gives: 's',
  symbols: { R: 's', T: 's', J: 's' },
  means: {
    R: 'longest response of the task that hands over',
    T: 'period of the one that takes',
    J: 'jitter of the release of the one that hands over',
  },
  try: { R: [1e-4, 1e-2], T: [1e-4, 1e-2], J: [0, 5e-3] },
  source: 'duerr',
  at: 'theorem 5.4; jitter added by us',
  proof: 'CE1',
  of: (R: number, T: number, J: number) => Math.max(R, T + J),
});

export const reactionBound = formula({
  id: 'timing.chain.reaction_bound',
  title: 'bound on the longest reaction',
  text: 'T + sum(h) + R + sum(d)',
  gives: 's',
  symbols: { T: 's', h: 's[]', R: 's', d: 's[]' },
  means: {
    T: 'period of the first link that looks once in a period',
    h: 'each hand-over from one such link to the next',
    R: 'longest response of the last',
    d: 'each link that passes on at once, at its slowest',
  },
  try: { T: [1e-4, 1e-2], h: [1e-4, 1e-2], R: [1e-4, 1e-2], d: [0, 1e-2] },
  source: 'duerr',
  at: 'theorem 5.4',
  proof: 'CE1',
  of: (T: number, h: readonly number[], R: number, d: readonly number[]) => T + total(h) + R + total(d),
});

const agedAt = { gives: 's', source: 'duerr', proof: 'Davare is at least Dürr' } as const;

/** Backwards from an output: the data were taken up to a period before, by a job that answered so late. */
export const aged = formula({
  ...agedAt,
  id: 'timing.chain.aged',
  title: 'by how much data are older before a hand-over',
  text: 'T + R',
  symbols: { T: 's', R: 's' },
  means: { T: 'period of the link that hands over', R: 'its longest response' },
  try: { T: [1e-4, 1e-2], R: [1e-4, 1e-2] },
  of: (T: number, R: number) => T + R,
});

/** A less urgent task of the same processor reads once the one that hands over is done. */
export const agedBelow = formula({
  ...agedAt,
  id: 'timing.chain.aged_below',
  title: 'by how much data are older before a hand-over to a task that is less urgent on the same processor',
  text: 'T + J',
  symbols: { T: 's', J: 's' },
  means: { T: 'period of the task that hands over', J: 'jitter of its release' },
  try: { T: [1e-4, 1e-2], J: [0, 5e-3] },
  at: 'jitter added by us',
  of: (T: number, J: number) => T + J,
});

export const ageBound = formula({
  id: 'timing.chain.age_bound',
  title: 'bound on the age of data as they come out',
  text: 'sum(h) + R + sum(d)',
  gives: 's',
  symbols: { h: 's[]', R: 's', d: 's[]' },
  means: {
    h: 'by how much data are older before each hand-over',
    R: 'longest response of the last link that looks',
    d: 'each link that passes on at once, at its slowest',
  },
  try: { h: [1e-4, 1e-2], R: [1e-4, 1e-2], d: [0, 1e-2] },
  source: 'duerr',
  proof: 'Davare is at least Dürr',
  of: (h: readonly number[], R: number, d: readonly number[]) => total(h) + R + total(d),
});
