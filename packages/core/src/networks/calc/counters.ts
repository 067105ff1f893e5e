// What error counters of ports say: on which cable frames are spoilt, and whether chance explains it, a bad cable or bursts.

import { formula, method } from '../../working/formula.ts';
import { chanceOfAtLeast, type LossInterval, lossInterval } from './binomial.ts';
import { mustBeCount } from './probability.ts';

export interface PortCounter {
  /** Frames that came in at the port, spoilt ones among them. */
  readonly frames: number;
  /** Of these, the ones that were spoilt. */
  readonly spoilt: number;
  /** Chance that a frame is spoilt on the cable before the port, as the noise model has it. */
  readonly expected: number;
}

export interface PortReading {
  /** Frames spoilt on the cable right before the port. */
  readonly own: number;
  /** The loss of that cable, by its count, at the confidence asked for. */
  readonly loss: LossInterval;
  /** Chance of so many or more if the noise model were right. */
  readonly chance: number;
  /** Too many for chance, with all ports looked at. */
  readonly isDefect: boolean;
}

/**
 * Readings in the order of the ports along the line, in the direction of the frames. Where devices pass spoilt frames on
 * ('all frames': they forward while they receive), each later port counts them again, and the port whose counter grows first
 * has the fault before it. Where they do not ('whole frames': they store and check), each port counts its own. That any port
 * at all is called a defect by mistake has at most the chance 1 − confidence. Throws a RangeError for counts that cannot be.
 */
export function readCounters(
  ports: readonly PortCounter[],
  passesOn: 'all frames' | 'whole frames',
  confidence: number,
): readonly PortReading[] {
  return ports.map(({ frames, spoilt, expected }, at) => {
    mustBeCount(frames, 1, 'the number of frames');
    mustBeCount(spoilt, 0, 'the number of spoilt frames');
    if (spoilt > frames) throw new RangeError(`${spoilt} spoilt frames among ${frames}`);
    const before = passesOn === 'all frames' && at > 0 ? ports[at - 1]!.spoilt : 0;
    // Counters are not read at one instant: a later port may be a few frames behind.
    const own = Math.max(0, spoilt - before);
    const whole = Math.max(own, 1, frames - before);
    const chance = chanceOfAtLeast(own, whole, expected);
    return {
      own,
      loss: lossInterval(own, whole, confidence),
      chance,
      isDefect: chance < (1 - confidence) / ports.length,
    };
  });
}

/** The first port along the line with more spoilt frames of its own than chance explains; undefined where there is none. */
export function firstDefect(readings: readonly PortReading[]): number | undefined {
  const at = readings.findIndex(({ isDefect }) => isDefect);
  return at < 0 ? undefined : at;
}

/**
 * Whether losses come in bursts: counts of intervals of one length, all frames alike, are too uneven for losses one by one.
 * `chance` is at least the probability that the fullest interval gets so many of all the losses by chance; where it is small,
 * look for what switches then. With one cause all the time it is large: a cable, a connector, a screen. Undefined without a
 * loss or with fewer than two intervals: then there is nothing to tell. Throws a RangeError for what is no count.
 */
export function burstiness(counts: readonly number[]): { readonly chance: number } | undefined {
  for (const count of counts) mustBeCount(count, 0, 'a count of losses');
  const all = counts.reduce((sum, count) => sum + count, 0);
  if (all === 0 || counts.length < 2) return undefined;
  return { chance: Math.min(1, counts.length * chanceOfAtLeast(Math.max(...counts), all, 1 / counts.length)) };
}

const symbols = { s: '1', b: '1[]', f: '1', p: '1' } as const;
const means = {
  s: 'spoilt frames that the port counts',
  b: 'spoilt frames that the ports before it have counted and passed on',
  f: 'frames that came in at the port',
  p: 'chance that the cable before it spoils a frame',
} as const;

/** The port itself behind one that stands for all that pass spoilt frames on to it. */
function readingOf(spoilt: number, before: readonly number[], frames: number, expected: number): PortReading {
  const passedOn = Math.min(
    frames,
    before.reduce((sum, each) => sum + each, 0),
  );
  const ports = [passedOn, spoilt].map((each) => ({ frames, spoilt: each, expected }));
  return readCounters(ports, 'all frames', usualConfidence)[1]!;
}

/** Only the interval of a reading rests on it, and no number below takes that. */
const usualConfidence = 0.95;

export const spoiltByOwnCable = method({
  id: 'networks.count.own',
  title: 'frames spoilt on the cable right before the port',
  prose:
    'spoilt frames less those that came in spoilt already; never below 0, for counters are not read at one instant',
  gives: '1',
  symbols: { s: '1', b: '1[]', f: '1' },
  means: { s: means.s, b: means.b, f: means.f },
  source: 'definition',
  proof: 'a faulty run among sound ones is found',
  of: (s: number, b: readonly number[], f: number) => readingOf(s, b, f, 0).own,
});

export const chanceOfCount = method({
  id: 'networks.count.chance',
  title: 'chance of so many spoilt frames or more if the noise were as the file says',
  prose: 'tail of the binomial distribution over the frames that did not come in spoilt already',
  gives: '1',
  symbols,
  means,
  source: 'definition',
  proof: 'tails in exact fractions',
  of: (s: number, b: readonly number[], f: number, p: number) => readingOf(s, b, f, p).chance,
});

export const chanceOfUnevenness = method({
  id: 'networks.count.unevenness',
  title: 'chance that losses one by one pile up like this in one interval, at most',
  prose: 'number of intervals times the chance that as many of all losses as the fullest has fall into one of them',
  gives: '1',
  symbols: { k: '1[]' },
  means: { k: 'spoilt frames in each interval' },
  source: 'definition',
  proof: 'are seen where the same number comes in two of the intervals',
  of: (k: readonly number[]) => burstiness(k)?.chance ?? 1,
});

export const timeBetweenLosses = formula({
  id: 'networks.count.between',
  title: 'mean time between two spoilt frames',
  text: 't/k',
  gives: 's',
  symbols: { t: 's', k: '1' },
  means: { t: 'how long was counted', k: 'spoilt frames' },
  try: { t: [1, 1e5], k: [1, 1000, 1] },
  source: 'definition',
  proof: 'a faulty run among sound ones is found',
  of: (t: number, k: number) => t / k,
});
