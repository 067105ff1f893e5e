// A channel that is good or bad for a while (Gilbert 1960; Elliott 1963): losses come in bunches. A step is one place for a
// frame; with the chance `toBad` a good channel is bad at the next step, with `toGood` a bad one good.
import { formula, method } from '../../working/formula.ts';
import { type AbsorbingChain, meanSteps } from './absorbing.ts';
import { mustBeCount, mustBeProbability } from './probability.ts';

export interface TwoStateChannel {
  readonly toBad: number;
  readonly toGood: number;
  /** Chance that a frame is lost while the channel is good. */
  readonly lossInGood: number;
  readonly lossInBad: number;
}

export const shareBad = formula({
  id: 'networks.two_state.share_bad',
  title: 'share of the time in which the channel is bad',
  text: 'b/(b + g)',
  gives: '1',
  symbols: { b: '1', g: '1' },
  means: { b: 'chance to become bad at the next step', g: 'chance to become good at the next step' },
  try: { b: [1e-3, 0.5], g: [1e-2, 0.9] },
  source: 'lntwww',
  at: 'exercise 5.7',
  proof: 'N6',
  of: (b: number, g: number) => b / (b + g),
});

export const meanLossOfTwoStates = formula({
  id: 'networks.two_state.mean_loss',
  title: 'share of frames that the channel loses on the whole',
  text: '(1 - w)*u + w*v',
  gives: '1',
  symbols: { w: '1', u: '1', v: '1' },
  means: { w: 'share of the time in which it is bad', u: 'loss while it is good', v: 'loss while it is bad' },
  try: { w: [0.01, 0.5], u: [0, 0.01], v: [0.05, 1] },
  source: 'lntwww',
  at: 'chapter on burst error channels',
  proof: 'N7',
  of: (w: number, u: number, v: number) => (1 - w) * u + w * v,
});

/** Both copies meet the line in the same state, and each is taken for itself; where one is, the other is left to chance. */
export const lostBothWaysOfTwoStates = formula({
  id: 'networks.two_state.both_ways',
  title: 'chance that a try is lost with its copy the other way round, both ways on a line of two states',
  text: '(1 - w)*(u^2 + u*(1 - u)*(x + y) + (1 - u)^2*p) + w*(v^2 + v*(1 - v)*(x + y) + (1 - v)^2*p)',
  gives: '1',
  symbols: { w: '1', u: '1', v: '1', x: '1', y: '1', p: '1' },
  means: {
    w: 'share of the time in which it is bad',
    u: 'loss while it is good',
    v: 'loss while it is bad',
    x: 'chance that bit errors spoil a try one way round',
    y: 'the same the other way round',
    p: 'chance that they spoil it with both copies',
  },
  try: { w: [0.01, 0.5], u: [0.01, 0.5], v: [0.05, 0.9], x: [0.01, 0.5], y: [0.01, 0.5], p: [0.01, 0.4] },
  source: 'definition',
  proof: 'a ring that sends both ways, run by run and state by state',
  of: (w: number, u: number, v: number, x: number, y: number, p: number) => {
    const lost = (taken: number): number => taken ** 2 + taken * (1 - taken) * (x + y) + (1 - taken) ** 2 * p;
    return (1 - w) * lost(u) + w * lost(v);
  },
});

/** Which copy it takes counts for nothing: the other one is left to chance. */
export const lostBesideTwoStates = formula({
  id: 'networks.two_state.one_way',
  title: 'chance that a try is lost with its copy, one way on a line of two states',
  text: 'q*y + (1 - q)*p',
  gives: '1',
  symbols: { q: '1', y: '1', p: '1' },
  means: {
    q: 'share of tries that the line takes on the whole',
    y: 'chance that bit errors spoil a try the other way round',
    p: 'chance that they spoil it with both copies',
  },
  try: { q: [0.01, 0.5], y: [0.01, 0.5], p: [0.01, 0.4] },
  source: 'definition',
  proof: 'a ring that sends both ways, run by run and state by state',
  of: (q: number, y: number, p: number) => q * y + (1 - q) * p,
});

/** With independent losses it would be the mean loss itself. */
export const repeatLostToo = formula({
  id: 'networks.two_state.repeat_lost_too',
  title: 'chance that a repeat is lost too, given that the first try was',
  text: 'p + w*(1 - w)*(v - u)^2*(1 - b - g)^k/p',
  gives: '1',
  symbols: { p: '1', w: '1', u: '1', v: '1', b: '1', g: '1', k: '1' },
  means: {
    p: 'share of frames that the channel loses on the whole',
    w: 'share of the time in which it is bad',
    u: 'loss while it is good',
    v: 'loss while it is bad',
    b: 'chance to become bad at the next step',
    g: 'chance to become good at the next step',
    k: 'steps from the first try to the repeat',
  },
  try: { p: [0.01, 0.05], w: [0.01, 0.4], u: [0, 0.01], v: [0.1, 1], b: [1e-3, 0.1], g: [1e-2, 0.5], k: [1, 6, 1] },
  source: 'lntwww',
  at: 'exercise 5.6Z: correlation of errors over their mean; there (v - p)*(p - u) for w*(1 - w)*(v - u)^2',
  proof: 'N8',
  of: (p: number, w: number, u: number, v: number, b: number, g: number, k: number) =>
    p + (w * (1 - w) * (v - u) ** 2 * (1 - b - g) ** k) / p,
});

/** The same channel seen at every `steps`-th step only, such as once in a cycle. */
export function everySteps(channel: TwoStateChannel, steps: number): TwoStateChannel {
  mustBeChannel(channel);
  mustBeCount(steps, 1, 'the distance in steps');
  const changes = channel.toBad + channel.toGood;
  if (changes === 0) return channel;
  const settled = (changes < 1 ? -Math.expm1(steps * Math.log1p(-changes)) : 1 - (1 - changes) ** steps) / changes;
  return { ...channel, toBad: channel.toBad * settled, toGood: channel.toGood * settled };
}

/** Probability that a try and all of its repeats are lost, each so many steps behind the one before it. */
export function allTriesLost(channel: TwoStateChannel, distances: readonly number[]): number {
  let { good, bad } = settledOf(channel);
  good *= channel.lossInGood;
  bad *= channel.lossInBad;
  for (const steps of distances) {
    const { toBad, toGood } = everySteps(channel, steps);
    [good, bad] = [
      (good * (1 - toBad) + bad * toGood) * channel.lossInGood,
      (good * toBad + bad * (1 - toGood)) * channel.lossInBad,
    ];
  }
  return good + bad;
}

/**
 * The states are 0 to m − 1 losses in a row in a good channel and as many in a bad one; the m-th loss leaves the chain. It
 * begins with no loss in a channel that has settled. One step is one update; see `everySteps`. Throws a RangeError for
 * chances that are none and for an m that is not a whole number from 1 on.
 */
export function twoStateRuns(channel: TwoStateChannel, inARow: number): AbsorbingChain {
  mustBeChannel(channel);
  mustBeCount(inARow, 1, 'the number of losses in a row');
  const { toBad, toGood } = channel;
  const settled = settledOf(channel);
  const states = [false, true].flatMap((bad) => Array.from({ length: inARow }, (_, run) => ({ bad, run })));
  // A state is that of the channel at the update to come and the run up to it.
  return {
    start: states.map(({ bad, run }) => (run > 0 ? 0 : bad ? settled.bad : settled.good)),
    stays: states.map(({ bad, run }) => {
      const loss = bad ? channel.lossInBad : channel.lossInGood;
      const change = bad ? toGood : toBad;
      return states.map(
        (next) =>
          (next.run === 0 ? 1 - loss : next.run === run + 1 ? loss : 0) * (next.bad === bad ? 1 - change : change),
      );
    }),
    leaves: states.map(({ bad, run }) => (run < inARow - 1 ? 0 : bad ? channel.lossInBad : channel.lossInGood)),
  };
}

/** Infinity where too little is ever lost. */
export const meanTimeToTripOfTwoStates = method({
  id: 'networks.two_state.mean_time',
  title: 'mean time to a trip on a line that is good or bad for a while',
  prose:
    'T times the mean number of updates until m in a row are lost, over the states of the line and of the run of losses',
  gives: 's',
  symbols: { T: 's', m: '1', b: '1', g: '1', u: '1', v: '1', k: '1' },
  means: {
    T: 'period of the updates',
    m: 'losses in a row that trip',
    b: 'chance to become bad at the next step',
    g: 'chance to become good at the next step',
    u: 'loss while it is good',
    v: 'loss while it is bad',
    k: 'steps from one update to the next',
  },
  source: 'lntwww',
  at: 'chapter on burst error channels',
  proof: 'every course of its states',
  of: (T: number, m: number, b: number, g: number, u: number, v: number, k: number) =>
    T * meanSteps(twoStateRuns(everySteps({ toBad: b, toGood: g, lossInGood: u, lossInBad: v }, k), m)),
});

/** A channel that never changes is good for good. */
function settledOf({ toBad, toGood }: TwoStateChannel): { readonly good: number; readonly bad: number } {
  const bad = toBad === 0 ? 0 : toBad / (toBad + toGood);
  return { good: toBad === 0 ? 1 : toGood / (toBad + toGood), bad };
}

function mustBeChannel({ toBad, toGood, lossInGood, lossInBad }: TwoStateChannel): void {
  mustBeProbability(toBad, 'to become bad');
  mustBeProbability(toGood, 'to become good');
  mustBeProbability(lossInGood, 'the loss in a good channel');
  mustBeProbability(lossInBad, 'the loss in a bad channel');
}
