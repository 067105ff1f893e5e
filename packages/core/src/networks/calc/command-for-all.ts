// One command for all stations: where it is lost on a run, all stations behind that run miss it at once, and share the repeats.
import { method } from '../../working/formula.ts';
import { mustBeCount, mustBeProbability } from './probability.ts';

export const lostWithCommandForAll = method({
  id: 'networks.repeats.command_for_all',
  title: 'share of lost updates with shared repeats where the first command is one for all',
  prose:
    'probability that the first try and all repeats that are left for the station are lost: station by station, over the repeats that are left and the runs on which the command for all was lost; a repeat has a command of its own',
  gives: '1',
  symbols: { c: '1[]', b: '1[]', w: '1[]', a: '1[]', p: '1[]', n: '1' },
  means: {
    c: 'chance that the command for all is lost on each run',
    b: 'which of these runs is before each, counted from 1; 0 at the controller',
    w: 'which of them is the last to each station up to this one',
    a: 'chance that the answer is lost, of each station up to this one',
    p: 'chance that a repeat is lost, of each station up to this one',
    n: 'repeats that all stations share in a cycle',
  },
  source: 'definition',
  proof: 'a command for all, every outcome',
  of: (
    c: readonly number[],
    b: readonly number[],
    w: readonly number[],
    a: readonly number[],
    p: readonly number[],
    n: number,
  ) => unservedBehind({ lost: c, before: b, last: w, answers: a, again: p, repeats: n }),
});

export interface CommandForAll {
  /** Chance that the command is lost on each run. */
  readonly lost: readonly number[];
  /** The run before each, counted from 1; 0 at the controller. */
  readonly before: readonly number[];
  /** The last run of each station, in the order of repeats. */
  readonly last: readonly number[];
  readonly answers: readonly number[];
  readonly again: readonly number[];
  readonly repeats: number;
}

/** Where the command is known to be lost, of the runs that later stations ask for, and how likely so many repeats are left. */
interface State {
  readonly dead: ReadonlySet<number>;
  readonly left: readonly number[];
}

/**
 * Probability that the last of the stations stays unserved. Throws a RangeError for a loss that is no probability and for repeats
 * that are no whole number.
 */
export function unservedBehind({ lost, before, last, answers, again, repeats }: CommandForAll): number {
  mustBeCount(repeats, 0, 'the number of repeats');
  for (const each of [...lost, ...answers, ...again]) mustBeProbability(each, 'a loss');
  const ways = last.map((run) => wayTo(run, before));
  const known = new Set<number>();
  let states: readonly State[] = [{ dead: new Set(), left: [...Array<number>(repeats).fill(0), 1] }];
  let unserved = 0;
  for (const [station, way] of ways.entries()) {
    const reached = way.filter((run) => known.has(run)).at(-1) ?? 0;
    const fresh = way.filter((run) => !known.has(run));
    for (const run of fresh) known.add(run);
    const asked = new Set(ways.slice(station + 1).map((later) => later.filter((run) => known.has(run)).at(-1) ?? 0));
    const next = new Map<string, { dead: Set<number>; left: number[] }>();
    unserved = 0;
    for (const { dead, left } of states) {
      let through = 1;
      const isDead = dead.has(reached);
      // The command is lost on one of the fresh runs, or on none of them.
      for (let at = isDead ? fresh.length : 0; at <= fresh.length; at++) {
        const here = isDead ? 1 : through * (at < fresh.length ? lost[fresh[at]! - 1]! : 1);
        if (at < fresh.length) through *= 1 - lost[fresh[at]! - 1]!;
        const isLost = (run: number): boolean =>
          fresh.includes(run) ? isDead || fresh.indexOf(run) >= at : dead.has(run);
        const found = [...asked].filter(isLost).sort((one, other) => one - other);
        const key = found.join();
        const into = next.get(key) ?? { dead: new Set(found), left: left.map(() => 0) };
        next.set(key, into);
        const fails = isDead || at < fresh.length ? 1 : answers[station]!;
        unserved += served(left, here, fails, again[station]!, into.left);
      }
    }
    states = [...next.values()];
  }
  return unserved;
}

function wayTo(run: number, before: readonly number[]): readonly number[] {
  const way: number[] = [];
  for (let at = run; at > 0; at = before[at - 1]!) way.unshift(at);
  return way;
}

/** Adds what is left when a station has had its tries, and gives the probability that it is unserved then. */
function served(left: readonly number[], share: number, fails: number, again: number, into: number[]): number {
  let unserved = 0;
  for (const [repeats, chance] of left.entries()) {
    into[repeats]! += share * chance * (1 - fails);
    let failing = share * chance * fails;
    for (let used = 1; used <= repeats; used++) {
      into[repeats - used]! += failing * (1 - again);
      failing *= again;
    }
    into[0]! += failing;
    unserved += failing;
  }
  return unserved;
}
