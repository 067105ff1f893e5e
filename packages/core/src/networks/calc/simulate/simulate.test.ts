// The simulation and the closed forms against each other: they share nothing but types.
import { describe, expect, it } from 'vitest';
import { caseOf, disciplines, halfWidth, models, ringCase, ringModels } from './cases.support.ts';
import { lostShare, mergeSimulation, splitSimulation } from './job.ts';
import type { Hop, SimulationJob, SimulationPlan, StationCounts } from './plan.ts';
import { runSimulation } from './run.ts';

const cases = 200;
/** Of one run; its chunks are long enough that pulses come at many phases in each. */
const cycles = 10_240;

/** The same with chances so many times as small. */
const rarer = (plan: SimulationPlan, times: number): SimulationPlan => {
  const hops = <H extends Hop>(all: readonly H[]) => all.map((hop) => ({ ...hop, spoils: hop.spoils / times }));
  return {
    ...plan,
    cycles: plan.cycles.map((cycle) => ({
      ...cycle,
      branches: hops(cycle.branches),
      exchanges: cycle.exchanges.map(({ otherWay, ...each }) => ({
        ...each,
        hops: hops(each.hops),
        again: hops(each.again),
        otherWay: otherWay && { hops: hops(otherWay.hops), again: hops(otherWay.again) },
      })),
    })),
  };
};

/** A pattern of two cycles, in the second of which half as much is spoilt. */
const inTwoCycles = (plan: SimulationPlan): SimulationPlan => ({
  ...plan,
  cycles: [...plan.cycles, ...rarer(plan, 2).cycles],
});

function estimateOf(values: readonly number[]) {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { mean, error: Math.sqrt(squares / (values.length - 1) / values.length) };
}

const played = (job: SimulationJob) => splitSimulation(job).map((chunk) => runSimulation(chunk));

/**
 * A share with an interval that is narrow enough. A first run tells how many it takes, and its scatter the interval of all of them
 * (Stein 1945, a two-sample test whose power is independent of the variance): its width is fixed before they are drawn.
 */
function narrowShare(plan: SimulationPlan, station: number, seed: number) {
  const first = played({ plan, cycles, seed: seed * 1000 });
  const { value: about, error } = lostShare(first, station);
  const runs = Math.max(1, Math.ceil(((2 * halfWidth(error)) / (0.049 * about)) ** 2));
  const others = Array.from({ length: runs - 1 }, (_, run) => played({ plan, cycles, seed: seed * 1000 + run + 1 }));
  const { value } = lostShare([first, ...others].flat(), station);
  return { value, reach: halfWidth(error) / Math.sqrt(runs) };
}

describe.each(disciplines)('%s', (discipline) => {
  it.each(models)(
    'covers the closed form in at least 190 of 200 cases of %s, and neither a falsified one nor a repeat counted twice',
    (model) => {
      let [covered, falsified, twice, repeated] = [0, 0, 0, 0];
      for (let seed = 1; seed <= cases; seed++) {
        const { plan, station, expected, oneRepeatMore } = caseOf(discipline, model, seed);
        const { value, reach } = narrowShare(plan, station, seed);
        if (Math.abs(value - expected) <= reach && 2 * reach <= 0.05 * value) covered++;
        if (Math.abs(value - 1.05 * expected) <= reach) falsified++;
        if (oneRepeatMore === expected) continue;
        repeated++;
        if (Math.abs(value - oneRepeatMore) <= reach) twice++;
      }
      expect(covered).toBeGreaterThanOrEqual(190);
      expect(falsified).toBeLessThan(100);
      expect(twice).toBeLessThanOrEqual(repeated / 2);
    },
    60_000,
  );
});

describe('a ring that sends both ways, run by run and state by state', () => {
  it.each(ringModels)(
    'covers the closed form in at least 190 of 200 cases of %s, and neither a falsified one, one way alone nor a repeat more',
    (model) => {
      let [covered, falsified, oneWayOnly, differs, twice, repeated] = [0, 0, 0, 0, 0, 0];
      for (let seed = 1; seed <= cases; seed++) {
        const { plan, station, expected, oneRepeatMore, oneWay } = ringCase(seed, model);
        const { value, reach } = narrowShare(plan, station, seed);
        if (Math.abs(value - expected) <= reach && 2 * reach <= 0.05 * value) covered++;
        if (Math.abs(value - 1.05 * expected) <= reach) falsified++;
        if (oneWay > 1.1 * expected) {
          differs++;
          if (Math.abs(value - oneWay) <= reach) oneWayOnly++;
        }
        if (oneRepeatMore === expected) continue;
        repeated++;
        if (Math.abs(value - oneRepeatMore) <= reach) twice++;
      }
      expect(covered).toBeGreaterThanOrEqual(190);
      expect(falsified).toBeLessThan(100);
      expect(differs).toBeGreaterThan(100);
      expect(oneWayOnly).toBe(0);
      expect(twice).toBeLessThanOrEqual(repeated / 10);
    },
    60_000,
  );

  it('jumps over cycles without an error to the same share', () => {
    const { plan } = ringCase(3);
    const job = { plan: rarer(plan, 8), cycles: 600_000, seed: 11 };
    const [all, jumped] = [played(job), played({ ...job, seed: 12, skipAhead: true })].map((each) =>
      lostShare(each, 0),
    );
    expect(all!.value).toBeGreaterThan(0);
    expect(Math.abs(all!.value - jumped!.value)).toBeLessThan(4 * Math.hypot(all!.error, jumped!.error));
  });

  it('loses what passes a run that loses all only where both ways do', () => {
    const { plan } = ringCase(3);
    const dead = (which: readonly number[]): SimulationPlan => {
      const hops = (each: readonly Hop[]) => each.map((hop) => ({ ...hop, spoils: which.includes(hop.run) ? 1 : 0 }));
      const ways = ({ hops: first, again }: { readonly hops: readonly Hop[]; readonly again: readonly Hop[] }) => ({
        hops: hops(first),
        again: hops(again),
      });
      const exchanges = plan.cycles[0]!.exchanges.map((each) => ({
        ...each,
        ...ways(each),
        otherWay: ways(each.otherWay!),
      }));
      return { ...plan, cycles: [{ ...plan.cycles[0]!, exchanges }] };
    };
    const lostOf = (which: readonly number[]) =>
      plan.stations.map((_, station) => lostShare(played({ plan: dead(which), cycles: 640, seed: 1 }), station).value);
    const last = plan.runs - 1;
    expect(lostOf([0])).toEqual(plan.stations.map(() => 0));
    expect(lostOf([last])).toEqual(plan.stations.map(() => 0));
    expect(lostOf([0, last])).toEqual(plan.stations.map(() => 1));
  });

  it('loses by noise that couples into both ways at once only', () => {
    const { plan } = ringCase(3);
    const quiet = rarer(plan, Number.POSITIVE_INFINITY);
    const always = { toBad: 0.5, toGood: 0.5, step_ps: plan.cycle_ps, lossInGood: 1, lossInBad: 1 };
    const pattern = { starts_ps: [0], pulse_ps: 1_000_000, period_ps: 1_000_000 };
    const last = plan.runs - 1;
    for (const hits of [[0], [last], [0, last]]) {
      const noises = [
        { ...quiet, twoState: { ...always, hits } },
        { ...quiet, pulses: [{ pattern, hits }] },
      ];
      for (const noisy of noises)
        for (const station of plan.stations.keys())
          expect(lostShare(played({ plan: noisy, cycles: 640, seed: 1 }), station).value).toBe(hits.length - 1);
    }
  });
});

describe('a simulation', () => {
  const { plan } = caseOf('polled', 'bit errors', 7);
  it('counts every cycle once, and each run of losses by its length', () => {
    for (const model of models) {
      const { plan } = caseOf('chained', model, 3);
      const { cycles, stations, traces } = mergeSimulation(played({ plan, cycles: 10_007, seed: 5 }));
      expect(cycles).toBe(10_007);
      expect(traces.length).toBeGreaterThan(0);
      for (const { updates, lost, runs, trips } of stations) {
        expect(updates).toBe(10_007);
        const inRuns = runs.reduce((sum, count, at) => sum + count * (at + 1), 0);
        // A run that began before a chunk is not its own, and one that ends behind it is.
        expect(Math.abs(inRuns - lost)).toBeLessThan(0.03 * lost);
        expect(trips).toBe(runs.slice(2).reduce((sum, count) => sum + count, 0));
      }
    }
  });

  it('spoils what is spoilt for certain always, and what never is never', () => {
    const spoiltBy = (spoils: number): SimulationPlan => ({
      ...plan,
      cycles: plan.cycles.map((cycle) => ({
        ...cycle,
        exchanges: cycle.exchanges.map((each) => ({
          ...each,
          hops: each.hops.map((hop, at) => ({ ...hop, spoils: at === 0 ? spoils : 0 })),
          again: each.again.map((hop) => ({ ...hop, spoils })),
        })),
      })),
    });
    expect(lostShare(played({ plan: spoiltBy(1), cycles, seed: 1 }), 0).value).toBe(1);
    expect(lostShare(played({ plan: spoiltBy(0), cycles, seed: 1 }), 0).value).toBe(0);
  });

  it('spoils as often as the chance says, also where it is a part of the last of the bits that are drawn', () => {
    const one: Hop = { run: 0, from_ps: 0, lasts_ps: 1, open_ps: 1, spoils: 0 };
    const part = 2 ** -16;
    for (const [at, spoils] of [0.3 * part, part, 1.5 * part, 40.7 * part, 0.4, 1 - 0.4 * part].entries()) {
      const exchange = { stations: [0], behind: -1, hops: [{ ...one, spoils }], again: [] };
      const plan: SimulationPlan = {
        cycle_ps: 1000,
        cycles: [{ branches: [], exchanges: [exchange], repeatsFrom_ps: [] }],
        runs: 1,
        stations: [{ every: 1, tripAfter: 0 }],
        pulses: [],
      };
      const cycles = 4_000_000;
      const { value } = lostShare(played({ plan, cycles, seed: at + 1 }), 0);
      const error = Math.sqrt((spoils * (1 - spoils)) / cycles);
      expect(Math.abs(value - spoils) / error, `${spoils}`).toBeLessThan(4);
    }
  });

  it.each(disciplines)(
    'jumps over cycles without an error to the same counts in all that is counted: %s',
    (discipline) => {
      const { plan } = caseOf(discipline, 'bit errors', 7);
      const job = { plan: inTwoCycles(rarer(plan, 8)), cycles: 600_000, seed: 11 };
      const each = [played(job), played({ ...job, seed: 12, skipAhead: true })];
      for (const station of plan.stations.keys()) {
        const counted = (of: (counts: StationCounts) => number) => {
          const [all, jumped] = each.map((results) =>
            estimateOf(results.map(({ stations }) => of(stations[station]!))),
          );
          return { value: all!.mean, off: (all!.mean - jumped!.mean) / Math.hypot(all!.error, jumped!.error, 1e-9) };
        };
        const [updates, lost, repeats, alone, pairs, longer] = [
          counted((counts) => counts.updates),
          counted((counts) => counts.lost),
          counted((counts) => counts.repeats),
          counted(({ runs }) => runs[0] ?? 0),
          counted(({ runs }) => runs[1] ?? 0),
          counted(({ runs }) => runs.slice(2).reduce((sum, count) => sum + count, 0)),
        ];
        expect(updates!.off).toBe(0);
        expect(Math.min(lost!.value, alone!.value)).toBeGreaterThan(4);
        for (const { off } of [lost!, repeats!, alone!, pairs!, longer!]) expect(Math.abs(off)).toBeLessThan(4);
      }
      const [all, jumped] = each.map((results) => mergeSimulation(results).events);
      expect(jumped!).toBeLessThan(all! / 3);
    },
  );

  it('plays ten thousand million cycles in seconds where errors are rare', () => {
    const hops = (each: readonly Hop[]) => each.map((hop) => ({ ...hop, spoils: 1e-7 }));
    const seldom = {
      ...plan,
      cycles: plan.cycles.map((cycle) => ({
        ...cycle,
        repeatsFrom_ps: [],
        exchanges: cycle.exchanges.map((each) => ({ ...each, hops: hops(each.hops) })),
      })),
    };
    const results = played({ plan: seldom, cycles: 1e10, seed: 3, skipAhead: true });
    const { value, error } = lostShare(results, 0);
    const expected = 1 - (1 - 1e-7) ** seldom.cycles[0]!.exchanges[0]!.hops.length;
    expect(Math.abs(value - expected)).toBeLessThan(4 * error);
    expect(error).toBeLessThan(0.05 * expected);
  });

  it('refuses cycles that are none and a jump over noise that comes in bunches', () => {
    expect(() => splitSimulation({ plan, cycles: 0, seed: 1 })).toThrow(RangeError);
    const { plan: bunches } = caseOf('polled', 'two-state', 1);
    expect(() => splitSimulation({ plan: bunches, cycles: 10, seed: 1, skipAhead: true })).toThrow(RangeError);
  });
});
