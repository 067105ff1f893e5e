// Chains of states that are left for good at some step: how long it takes. Nothing is ever subtracted from what is nearly
// as large, so that a probability of 1e-30 is as exact as one of ½.
import { total } from '../../working/total.ts';

/** Every row of `stays` and its `leaves` add up to 1, and so does `start`. */
export interface AbsorbingChain {
  readonly start: readonly number[];
  /** Probability of a step from each state (row) to each state (column). */
  readonly stays: readonly (readonly number[])[];
  /** Probability that the next step leaves the chain for good, from each state. */
  readonly leaves: readonly number[];
}

type Steps = Pick<AbsorbingChain, 'stays' | 'leaves'>;

/** Probability that the chain has been left within so many steps, a whole number of them. */
export function leftWithin(chain: AbsorbingChain, steps: number): number {
  if (!(Number.isInteger(steps) && steps >= 0)) throw new RangeError(`${steps} steps`);
  let walked: Steps = noStep(chain);
  let power: Steps = chain;
  for (let left = steps; left > 0; left = Math.floor(left / 2)) {
    if (left % 2 === 1) walked = oneBehind(walked, power);
    if (left > 1) power = oneBehind(power, power);
  }
  return fromStart(chain, walked.leaves);
}

/**
 * The least number of steps within which the chain has been left with a probability of `share`; Infinity where none is
 * enough. Beyond 2^53 it is the nearest number that there is.
 */
export function stepsUntil(chain: AbsorbingChain, share: number): number {
  if (!(share > 0 && share < 1)) throw new RangeError(`a share of ${share}`);
  const isEnough = ({ leaves }: Steps): boolean => fromStart(chain, leaves) >= share;
  const powers: Steps[] = [chain];
  while (!isEnough(powers.at(-1)!)) {
    if (powers.length > mostDoublings) return Infinity;
    powers.push(oneBehind(powers.at(-1)!, powers.at(-1)!));
  }
  let walked: Steps = noStep(chain);
  let steps = 0;
  for (const [doublings, power] of [...powers.entries()].reverse()) {
    const further = oneBehind(walked, power);
    if (isEnough(further)) continue;
    walked = further;
    steps += 2 ** doublings;
  }
  return steps + 1;
}

/** More steps than a double can count. */
const mostDoublings = 1024;

/**
 * Mean number of steps until the chain is left; Infinity where it may never be. States are taken out one by one, and how
 * often one is left is the sum of its ways out, not 1 less the way to itself (Grassmann, Taksar and Heyman, Operations
 * Research 33, 1985, from memory).
 */
export function meanSteps({ start, stays, leaves }: AbsorbingChain): number {
  const to = stays.map((row) => [...row]);
  const away = [...leaves];
  const spent = start.map(() => 1);
  const exits = start.map(() => 0);
  for (let out = start.length - 1; out >= 0; out--) {
    const exit = away[out]! + total(to[out]!.slice(0, out));
    exits[out] = exit;
    for (let from = 0; from < out; from++) {
      if (to[from]![out] === 0) continue;
      const share = to[from]![out]! / exit;
      for (let state = 0; state < out; state++) to[from]![state]! += share * to[out]![state]!;
      away[from]! += share * away[out]!;
      spent[from]! += share * spent[out]!;
    }
  }
  const means: number[] = [];
  for (const [state, exit] of exits.entries()) means.push((spent[state]! + product(to[state]!, means)) / exit);
  return product(start, means);
}

const noStep = ({ leaves }: AbsorbingChain): Steps => ({
  stays: leaves.map((_, row) => leaves.map((__, column) => Number(row === column))),
  leaves: leaves.map(() => 0),
});

/**
 * The steps of `first` and then those of `then`. What stays is held to be the rest of what leaves while that is the smaller
 * part: else rounding, doubled with each doubling of the steps, would be all that is left after billions of them.
 */
function oneBehind(first: Steps, then: Steps): Steps {
  const leaves = first.leaves.map((left, row) => left + product(first.stays[row]!, then.leaves));
  const stays = first.stays.map((row, at) => {
    const next = row.map((_, column) => total(row.map((share, state) => share * then.stays[state]![column]!)));
    const scale = leaves[at]! < 0.5 ? (1 - leaves[at]!) / total(next) : 1;
    return next.map((share) => share * scale);
  });
  return { stays, leaves };
}

const fromStart = ({ start }: AbsorbingChain, values: readonly number[]): number => product(start, values);

/** Sum of products over as many as the second has; what has the weight 0 counts nothing, however large. */
function product(weights: readonly number[], values: readonly number[]): number {
  let result = 0;
  for (const [at, value] of values.entries()) if (weights[at] !== 0) result += weights[at]! * value;
  return result;
}
