// One command for all, on trees of any shape and in any order, against every outcome of every run, answer and repeat.
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../../../tests/support/seeded.ts';
import { q } from '../../working/testing.support.ts';
import { lostWithCommandForAll } from './command-for-all.ts';
import { sharedRepeats } from './repeats.ts';

interface Tree {
  readonly lost: readonly number[];
  readonly before: readonly number[];
  readonly last: readonly number[];
  readonly answers: readonly number[];
  readonly again: readonly number[];
}

/** Played on with each outcome where a new one is asked for: the command run by run, the answers, the repeats one by one. */
function enumerated({ lost, before, last, answers, again }: Tree, repeats: number): readonly number[] {
  const unserved = last.map(() => 0);
  const branch = (outcomes: readonly boolean[]): void => {
    let [at, share, isOpen] = [0, 1, false];
    const fails = (chance: number): boolean => {
      const outcome = outcomes[at++];
      if (outcome === undefined) isOpen = true;
      else share *= outcome ? chance : 1 - chance;
      return outcome ?? false;
    };
    const spoilt = lost.map((chance) => fails(chance));
    const isReached = (run: number): boolean => run === 0 || (!spoilt[run - 1] && isReached(before[run - 1]!));
    const waiting = last.flatMap((run, station) => (isReached(run) && !fails(answers[station]!) ? [] : [station]));
    for (let used = 0; used < repeats && waiting.length > 0; used++) if (!fails(again[waiting[0]!]!)) waiting.shift();
    if (isOpen) {
      branch([...outcomes, false]);
      branch([...outcomes, true]);
    } else for (const station of waiting) unserved[station]! += share;
  };
  branch([]);
  return unserved;
}

const told = (tree: Tree, repeats: number, station: number): number => {
  const up = <T>(list: readonly T[]): readonly T[] => list.slice(0, station + 1);
  const all = (list: readonly number[]) => list.map((each) => q(each, '1'));
  return lostWithCommandForAll(
    {
      c: all(tree.lost),
      b: all(tree.before),
      w: all(up(tree.last)),
      a: all(up(tree.answers)),
      p: all(up(tree.again)),
      n: q(repeats, '1'),
    },
    'test',
  ).value;
};

describe('a command for all, every outcome', () => {
  it('is lost as every outcome on every run says, in any order of the stations', () => {
    const random = seeded(31);
    const whole = (most: number): number => Math.floor(random() * (most + 1));
    for (let made = 0; made < 60; made++) {
      const runs = 1 + whole(3);
      const stations = 1 + whole(2);
      const chances = (count: number) => Array.from({ length: count }, () => 0.05 + 0.6 * random());
      const tree: Tree = {
        lost: chances(runs),
        before: Array.from({ length: runs }, (_, run) => whole(run)),
        last: Array.from({ length: stations }, () => 1 + whole(runs - 1)),
        answers: chances(stations),
        again: chances(stations),
      };
      for (const repeats of [0, 1, 3]) {
        const due = enumerated(tree, repeats);
        for (let station = 0; station < stations; station++)
          expect(told(tree, repeats, station) / due[station]!, JSON.stringify(tree)).toBeCloseTo(1, 10);
      }
    }
  });

  it('is a pool of repeats like any other where the command is never lost', () => {
    const tree: Tree = {
      lost: [0, 0, 0],
      before: [0, 1, 2],
      last: [1, 2, 3],
      answers: [1e-4, 2e-4, 3e-4],
      again: [1e-4, 2e-4, 3e-4],
    };
    const { unserved } = sharedRepeats(tree.again, 2);
    for (const [station, due] of unserved.entries()) expect(told(tree, 2, station) / due).toBeCloseTo(1, 12);
  });

  it('keeps its digits where losses are rare, and its pace where stations are many', () => {
    const count = 200;
    const runs = Array.from({ length: count }, (_, at) => at + 1);
    const line: Tree = {
      lost: runs.map(() => 1e-9),
      before: runs.map((run) => run - 1),
      last: runs.toReversed(),
      answers: runs.map(() => 1e-8),
      again: runs.map(() => 2e-8),
    };
    // The farthest comes first: its own repeats are all there.
    const first = 200 * 1e-9 + 1e-8;
    expect(told(line, 1, 0) / (first * 2e-8)).toBeCloseTo(1, 6);
    // One run behind the controller that is lost silences all, and one repeat serves the first of them.
    expect(told(line, 1, count - 1) / 1e-9).toBeCloseTo(1, 3);
  });
});
