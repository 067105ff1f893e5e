// Seeded networks for the simulation, each with the share of lost updates that the closed forms expect.
import { nextWord, streamsOf } from '../../../physics/random-bits.ts';
import { lostBothWays } from '../exchange-noise.ts';
import { anyLost } from '../noise.ts';
import { type FrameOpen, type PulsePattern, patternLosses } from '../pulse-pattern.ts';
import { sharedRepeats } from '../repeats.ts';
import { allTriesLost, lostBothWaysOfTwoStates } from '../two-state.ts';
import type { BranchHop, Exchanged, Hop, SimulationPlan, TwoStateNoise } from './plan.ts';

export const disciplines = ['polled', 'pipelined', 'chained', 'summation', 'slotted'] as const;
export const models = ['bit errors', 'two-state', 'pulses', 'recorded', 'dropout'] as const;

export interface Case {
  readonly plan: SimulationPlan;
  readonly station: number;
  readonly expected: number;
  /** What it would be with one shared repeat more. */
  readonly oneRepeatMore: number;
}

const lossOfAny = anyLost.of as (lost: readonly number[]) => number;

/** The 0.995 quantile of Student's t with 63 degrees of freedom, from printed tables. */
const quantile = 2.656;

export const halfWidth = (error: number): number => quantile * error;

/** A case in which enough is lost that few cycles tell the share. */
export function caseOf(discipline: (typeof disciplines)[number], model: (typeof models)[number], seed: number): Case {
  const found = anyCase(discipline, model, seed);
  return found.expected > 0.15 ? found : caseOf(discipline, model, seed + 10_000);
}

export const ringModels = ['bit errors', 'two-state', 'pulses'] as const;

/** A polled ring that sends every frame both ways round. `oneWay` is what it would be without the copies. */
export function ringCase(
  seed: number,
  model: (typeof ringModels)[number] = 'bit errors',
): Case & { readonly oneWay: number } {
  const found = anyRing(seed, model);
  return found.expected > 0.1 ? found : ringCase(seed + 10_000, model);
}

function anyRing(seed: number, model: (typeof ringModels)[number]): Case & { readonly oneWay: number } {
  const bits = Int32Array.from(streamsOf(seed, 1)[0]!);
  const share = (): number => (nextWord(bits) >>> 0) / 2 ** 32;
  const between = (least: number, most: number): number => least + share() * (most - least);
  const whole = (least: number, most: number): number => Math.floor(between(least, most + 1));
  const byChance = model === 'bit errors';
  const count = 2 + Math.floor(share() * 2);
  // Repeats that several stations share have a closed form for errors that are independent only.
  const repeats = byChance ? Math.floor(share() * 2) : 0;
  const cycle_ps = 400_000_000;
  const spoils = { 'bit errors': [0.25, 0.45], 'two-state': [0.05, 0.15], pulses: [0, 0] }[model] as [number, number];
  const way = (runs: readonly number[], begin_ps: number): readonly Hop[] =>
    [...runs, ...runs.toReversed()].map((run, at) => ({
      run,
      from_ps: begin_ps + at * 1_000_000,
      lasts_ps: 900_000,
      open_ps: 950_000,
      spoils: between(...spoils),
    }));
  const runs = Array.from({ length: count + 1 }, (_, run) => run);
  const exchanges = Array.from({ length: count }, (_, at): Exchanged => {
    const [there, round] = [runs.slice(0, at + 1), runs.slice(at + 1).toReversed()];
    const tries = () => ({ hops: way(there, at * 20_000_000), again: way(there, 0) });
    return {
      stations: [at],
      behind: -1,
      ...tries(),
      otherWay: { hops: way(round, at * 20_000_000), again: way(round, 0) },
    };
  });
  // Repeats are as likely to be lost as first tries, as the closed form has it.
  const alike = exchanges.map(({ hops, otherWay, ...each }): Exchanged => {
    const as = (of: readonly Hop[], again: readonly Hop[]) =>
      again.map((hop, at) => ({ ...hop, spoils: of[at]!.spoils }));
    return {
      ...each,
      hops,
      again: as(hops, each.again),
      otherWay: { hops: otherWay!.hops, again: as(otherWay!.hops, otherWay!.again) },
    };
  });
  const halfOf = (hops: readonly Hop[], which: 0 | 1): readonly Hop[] =>
    hops.slice((which * hops.length) / 2, ((which + 1) * hops.length) / 2);
  const chanceOf = (hops: readonly Hop[]): number => lossOfAny(hops.map(({ spoils }) => spoils));
  const both = (a: number, b: number): number => (lostBothWays.of as (c: number, d: number) => number)(a, b);
  const lost = alike.map(({ hops, otherWay }) =>
    lossOfAny(
      ([0, 1] as const).map((which) => both(chanceOf(halfOf(hops, which)), chanceOf(halfOf(otherWay!.hops, which)))),
    ),
  );
  const station = Math.floor(share() * count);
  const plan: SimulationPlan = {
    cycle_ps,
    cycles: [{ branches: [], exchanges: alike, repeatsFrom_ps: Array.from({ length: repeats }, () => cycle_ps / 2) }],
    runs: runs.length,
    stations: alike.map(() => ({ every: 1, tripAfter: 3 })),
    pulses: [],
  };
  const { hops, otherWay } = alike[station]!;
  if (byChance) {
    const unserved = (losses: readonly number[], n: number): number => sharedRepeats(losses, n).unserved[station]!;
    const oneWay = unserved(
      alike.map(({ hops }) => chanceOf(hops)),
      repeats,
    );
    return {
      plan,
      station,
      expected: unserved(lost, repeats),
      oneRepeatMore: unserved(lost, repeats + 1),
      oneWay,
    };
  }
  // Mostly it couples into all runs, else into one each way.
  const hits = share() < 0.7 ? runs : [0, count];
  if (model === 'two-state') {
    const twoState: TwoStateNoise = {
      toBad: between(0.3, 0.6),
      toGood: between(0.2, 0.5),
      step_ps: cycle_ps,
      lossInGood: between(0.1, 0.3),
      lossInBad: between(0.6, 1),
      hits,
    };
    const { toBad, toGood, lossInGood, lossInBad } = twoState;
    const bad = toBad / (toBad + toGood);
    const [one, other] = [chanceOf(hops), chanceOf(otherWay!.hops)];
    const of = lostBothWaysOfTwoStates.of as (...values: readonly number[]) => number;
    const expected = of(bad, lossInGood, lossInBad, one, other, lost[station]!);
    const oneWay = lossOfAny([one, (1 - bad) * lossInGood + bad * lossInBad]);
    return { plan: { ...plan, twoState }, station, expected, oneRepeatMore: expected, oneWay };
  }
  const pattern = patternOf('pulses', cycle_ps, 1, between, whole);
  const openOf = (of: readonly Hop[]): readonly FrameOpen[] =>
    of.filter(({ run }) => hits.includes(run)).map(({ from_ps, open_ps }) => ({ from_ps, lasts_ps: open_ps }));
  const [command, answer] = ([0, 1] as const).map((which) => [hops, otherWay!.hops].map((each) => halfOf(each, which)));
  // Lost is what all four choices of one copy each lose.
  const choices = command!.flatMap((out) => answer!.map((home) => [...openOf(out), ...openOf(home)]));
  const expected = patternLosses(pattern, choices, cycle_ps).share;
  const oneWay = patternLosses(pattern, [openOf(hops)], cycle_ps).share;
  return { plan: { ...plan, pulses: [{ pattern, hits }] }, station, expected, oneRepeatMore: expected, oneWay };
}

function anyCase(discipline: (typeof disciplines)[number], model: (typeof models)[number], seed: number): Case {
  const bits = Int32Array.from(streamsOf(seed, 1)[0]!);
  const share = (): number => (nextWord(bits) >>> 0) / 2 ** 32;
  const between = (least: number, most: number): number => least + share() * (most - least);
  const whole = (least: number, most: number): number => Math.floor(between(least, most + 1));
  const byChance = model === 'bit errors';
  const canRepeat = discipline !== 'chained' && discipline !== 'slotted';
  // Repeats that several stations share have a closed form for errors that are independent only.
  const count = byChance || !canRepeat ? whole(2, 3) : 1;
  const repeats = canRepeat ? whole(byChance ? 1 : 0, byChance ? 2 : 1) : 0;
  const cycle_ps = 2 * whole(45_000_000, 60_000_000);
  const frame_ps = (): number => whole(1_000_000, 2_500_000);
  const perHop = discipline === 'summation' ? [0.2, 0.35] : repeats > 0 ? [0.3, 0.45] : [0.15, 0.3];
  const hop = (run: number, from_ps: number, lasts_ps: number): Hop => ({
    run,
    from_ps,
    lasts_ps,
    // Runs of forty metres.
    open_ps: lasts_ps + 200_000,
    spoils: byChance ? between(perHop[0]!, perHop[1]!) : 0,
  });
  const way = (runs: readonly number[], from_ps: number): readonly Hop[] => {
    const lasts_ps = frame_ps();
    return runs.map((run, at) => hop(run, from_ps + at * 300_000, lasts_ps));
  };
  const upTo = (station: number): readonly number[] => Array.from({ length: station + 1 }, (_, at) => at);
  const back = (station: number): readonly number[] => upTo(station).toReversed();
  const moved = (hops: readonly Hop[], by_ps: number): readonly Hop[] =>
    hops.map((each) => ({ ...each, from_ps: each.from_ps - by_ps }));
  const branches: readonly BranchHop[] =
    discipline === 'chained' ? way(upTo(count - 1), 500_000).map((each, at) => ({ ...each, after: at - 1 })) : [];
  const exchanges = Array.from({ length: discipline === 'summation' ? 1 : count }, (_, at): Exchanged => {
    const own = { stations: [at], behind: -1 };
    if (discipline === 'summation') {
      const runs = upTo(count - 1);
      const hops = way([...runs, ...[...runs].reverse()], 1_000_000);
      return { stations: runs, behind: -1, hops, again: moved(hops, 1_000_000) };
    }
    if (discipline === 'chained')
      return { stations: [at], behind: at, hops: way(back(at), 5_000_000 + at * 3_000_000), again: [] };
    const [command_ps, answer_ps] = (
      {
        polled: [at * 9_000_000, at * 9_000_000 + 4_500_000],
        pipelined: [at * 2_700_000, at * 2_700_000 + 6_000_000],
        slotted: [(count - at) * 2_700_000, 800_000 + at * 2_700_000],
      } as const satisfies Record<string, readonly [number, number]>
    )[discipline];
    const hops = [...way(upTo(at), command_ps), ...way(back(at), answer_ps)];
    return { ...own, hops, again: moved(hops, command_ps) };
  });
  const repeatsFrom_ps = Array.from({ length: repeats }, (_, at) => cycle_ps / 2 + at * 10_000_000);
  const station = whole(0, count - 1);
  const at = discipline === 'summation' ? 0 : station;
  const exchange = exchanges[at]!;
  const first = [...branches.slice(0, exchange.behind + 1), ...exchange.hops];
  const tries = [first, ...repeatsFrom_ps.map((from_ps) => moved(exchange.again, -from_ps))];
  const stations = Array.from({ length: count }, () => ({ every: 1, tripAfter: 3 }));
  const plan = { cycle_ps, cycles: [{ branches, exchanges, repeatsFrom_ps }], runs: count, stations, pulses: [] };

  if (byChance) {
    const lost = exchanges.map(({ hops, behind }) =>
      lossOfAny([...branches.slice(0, behind + 1), ...hops].map(({ spoils }) => spoils)),
    );
    const [expected, oneRepeatMore] = [repeats, repeats + 1].map((n) => sharedRepeats(lost, n).unserved[at]!);
    return { plan, station, expected: expected!, oneRepeatMore: oneRepeatMore! };
  }
  if (model === 'two-state') {
    const twoState: TwoStateNoise = {
      toBad: between(0.3, 0.6),
      toGood: between(0.2, 0.5),
      step_ps: cycle_ps / 2,
      lossInGood: between(0.1, 0.3),
      lossInBad: between(0.6, 1),
      hits: [0],
    };
    // The repeat has its place one step behind the first try.
    const expected = allTriesLost(
      twoState,
      repeatsFrom_ps.map(() => 1),
    );
    return { plan: { ...plan, twoState }, station, expected, oneRepeatMore: expected };
  }
  const pattern = patternOf(model, cycle_ps, repeats, between, whole);
  const open = tries.map((hops): readonly FrameOpen[] =>
    hops.map(({ from_ps, open_ps }) => ({ from_ps, lasts_ps: open_ps })),
  );
  const expected = patternLosses(pattern, open, cycle_ps).share;
  const pulses = [{ pattern, hits: Array.from({ length: count }, (_, run) => run) }];
  return { plan: { ...plan, pulses }, station, expected, oneRepeatMore: expected };
}

/** Periods that no simple ratio ties to the cycle, so that every phase comes up. */
function patternOf(
  model: (typeof models)[number],
  cycle_ps: number,
  repeats: number,
  between: (least: number, most: number) => number,
  whole: (least: number, most: number) => number,
): PulsePattern {
  if (model === 'dropout') {
    const period_ps = Math.round(cycle_ps * between(5.1, 9.9));
    return { starts_ps: [0], pulse_ps: Math.round(period_ps * between(0.3, 0.6)), period_ps };
  }
  const every_ps = repeats > 0 ? whole(5_000_000, 7_000_000) : whole(7_000_000, 14_000_000);
  if (model === 'pulses') {
    const pulses = whole(12, 30);
    return {
      starts_ps: Array.from({ length: pulses }, (_, at) => at * every_ps),
      pulse_ps: 50_000,
      period_ps: Math.round(pulses * every_ps * between(1.2, 1.8)) + 1,
    };
  }
  const period_ps = Math.round(cycle_ps * between(2.1, 4.9));
  const starts_ps = Array.from({ length: Math.round(period_ps / every_ps) }, () => whole(0, period_ps - 1));
  return { starts_ps, pulse_ps: 100_000, period_ps };
}
