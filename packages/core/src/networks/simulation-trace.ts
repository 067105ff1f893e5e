// What was on the wire before a trip, made again from the plan and the hops that were spoilt; and what spoilt each of them.
import { nextShare } from './calc/simulate/noise-state.ts';
import type { Exchanged, Hop, PulseNoise, SpoiltHop, TripTrace } from './calc/simulate/plan.ts';
import type { Simulation } from './simulation.ts';

/** A try at an exchange as it went. */
export interface Tried {
  /** Places among the stations of the plan. */
  readonly stations: readonly number[];
  /** 0 is the first try. */
  readonly repeat: number;
  /** As the first way has it where copies go the other way round. */
  readonly hops: readonly Hop[];
  readonly hasCommand: boolean;
  /** None where its command for all was spoilt. */
  readonly spoilt: readonly Spoilt[];
  readonly isCommandLost: boolean;
  readonly fate: 'whole' | 'spoilt' | 'no command' | 'late';
}

export interface Spoilt {
  readonly of: 'command' | 'answer';
  /** Whether it was a copy that went the other way round. */
  readonly isCopy: boolean;
  readonly run: number;
  readonly by: string;
}

export interface TracedCycle {
  readonly cycle: number;
  /** The command for all, from the controller's end of each run that leaves it. */
  readonly forAll: readonly Hop[];
  readonly spoiltForAll: readonly Spoilt[];
  readonly tries: readonly Tried[];
  /** Stations that lost their update. */
  readonly lost: readonly number[];
  /** When each pulse fell into the cycle. */
  readonly pulses: readonly Pulse[];
}

/** Cycles that are shown at most; more losses in a row look alike (our judgement). */
export const mostCycles = 6;

/** The cycles in which the station was served, up to the trip. */
export function tracedCycles(simulation: Simulation, trace: TripTrace): readonly TracedCycle[] {
  const { every, tripAfter } = simulation.plan.stations[trace.station]!;
  const count = Math.min(tripAfter, mostCycles);
  const phaseOf = phasesOf(simulation, trace);
  const causes = causesOf(simulation, phaseOf);
  return Array.from({ length: count }, (_, at): TracedCycle => {
    const cycle = trace.cycle - every * (count - 1 - at);
    return { ...tracedCycle(simulation, trace, cycle, causes), pulses: pulsesIn(simulation, cycle, phaseOf) };
  });
}

/** Of a hop, and all hops of its try, there and back. */
type Causes = (spoilt: SpoiltHop, hop: Hop, way: readonly Hop[]) => string;

/** From a place up to another. */
type Part = readonly [from: number, to: number];

function tracedCycle(
  { plan }: Simulation,
  trace: TripTrace,
  cycle: number,
  causes: Causes,
): Omit<TracedCycle, 'pulses'> {
  const { branches, exchanges, repeatsFrom_ps } = plan.cycles[remainder(cycle, plan.cycles.length)]!;
  const inCycle = trace.spoilt.filter((each) => each.cycle === cycle);
  /** The first hop from one place of a try up to another that was spoilt, and what did it. */
  const spoiltIn = (exchange: number, repeat: number, hops: readonly Hop[], [from, to]: Part, way: readonly Hop[]) => {
    const spoilt = inCycle.find(
      (each) => each.exchange === exchange && each.repeat === repeat && each.place >= from && each.place < to,
    );
    const hop = spoilt && hops[spoilt.place];
    return hop && { hop, by: causes(spoilt, hop, way) };
  };
  const spoiltForAll: Spoilt[] = [];
  const isBranchLost: boolean[] = [];
  for (const [at, hop] of branches.entries()) {
    const isLost = hop.after >= 0 && isBranchLost[hop.after]!;
    const own = isLost ? undefined : spoiltIn(-1, 0, branches, [at, at + 1], [hop]);
    if (own !== undefined) spoiltForAll.push({ run: hop.run, by: own.by, of: 'command', isCopy: false });
    isBranchLost.push(isLost || own !== undefined);
  }
  const tried = (place: number, repeat: number): Tried => {
    const exchange = exchanges[place]!;
    const begins_ps = repeat === 0 ? 0 : repeatsFrom_ps[repeat - 1]!;
    const hasCommand = repeat > 0 || exchange.behind < 0;
    const begun = ({ hops, again }: Pick<Exchanged, 'hops' | 'again'>): readonly Hop[] =>
      (repeat === 0 ? hops : again).map((hop) => ({ ...hop, from_ps: hop.from_ps + begins_ps }));
    const hops = begun(exchange);
    const ways = exchange.otherWay === undefined ? [hops] : [hops, begun(exchange.otherWay)];
    const isSilent = !hasCommand && isBranchLost[exchange.behind]!;
    /** Where the answer begins: there and back pass the same runs. */
    const answersFrom = (way: readonly Hop[]): number => (hasCommand ? Math.ceil(way.length / 2) : 0);
    const spoiltOf = (which: 0 | 1, of: Spoilt['of']): readonly Spoilt[] => {
      const way = ways[which]!;
      const before = which * hops.length;
      const middle = before + answersFrom(way);
      const part: Part = of === 'command' ? [before, middle] : [middle, before + way.length];
      const found = spoiltIn(place, repeat, ways.flat(), part, way);
      return found === undefined ? [] : [{ run: found.hop.run, by: found.by, of, isCopy: which === 1 }];
    };
    const some = (of: Spoilt['of']): readonly Spoilt[] => ways.flatMap((_, which) => spoiltOf(which as 0 | 1, of));
    const areAll = (spoilt: readonly Spoilt[], which: Spoilt['of']): boolean =>
      spoilt.filter(({ of }) => of === which).length === ways.length;
    const spoilt = isSilent ? [] : [...some('command'), ...some('answer')];
    const isCommandLost = isSilent || areAll(spoilt, 'command');
    const isLost = isCommandLost || areAll(spoilt, 'answer');
    const isLate = ways.flat().some(({ from_ps, open_ps }) => from_ps + open_ps > plan.cycle_ps);
    return {
      stations: exchange.stations,
      repeat,
      hops,
      hasCommand,
      spoilt,
      isCommandLost,
      fate: isSilent ? 'no command' : isLost ? 'spoilt' : isLate ? 'late' : 'whole',
    };
  };
  const tries = exchanges.map((_, place) => tried(place, 0));
  const failed = tries.flatMap(({ fate }, place) => (fate === 'whole' ? [] : [place]));
  let served = 0;
  for (let repeat = 1; repeat <= repeatsFrom_ps.length && served < failed.length; repeat++) {
    const again = tried(failed[served]!, repeat);
    tries.push(again);
    if (again.fate === 'whole') served++;
  }
  return {
    cycle,
    forAll: branches.filter(({ after }) => after < 0),
    spoiltForAll,
    tries,
    lost: failed.slice(served).flatMap((place) => exchanges[place]!.stations),
  };
}

// ── what spoilt it ───────────────────────────────────────────────────────────────────────────────────────────────────

/** The phase of each source of pulses at the start of a cycle: phases are what a part of the simulation draws first. */
function phasesOf({ plan, chunks }: Simulation, trace: TripTrace): (cycle: number, source: number) => number {
  const { every, tripAfter } = plan.stations[trace.station]!;
  const began = trace.cycle - every * (tripAfter - 1);
  const { state, first } = chunks.findLast((chunk) => chunk.first <= began)!;
  const bits = Int32Array.from(state);
  const phases = plan.pulses.map(({ pattern: { starts_ps, period_ps } }) =>
    starts_ps.length === 0 ? 0 : Math.floor(nextShare(bits) * period_ps) % period_ps,
  );
  return (cycle, source) => {
    const period_ps = plan.pulses[source]!.pattern.period_ps;
    const played_ps = BigInt(cycle - first + plan.cycles.length) * BigInt(plan.cycle_ps);
    return (phases[source]! + Number(played_ps % BigInt(period_ps))) % period_ps;
  };
}

export interface Pulse {
  readonly from_ps: number;
  readonly to_ps: number;
}

/** More pulses of a cycle are not told apart in a picture (our judgement). */
const mostPulses = 100;

/** The pulses that fall into a cycle; those that lie close together as one where they are many. */
function pulsesIn({ plan }: Simulation, cycle: number, phaseOf: ReturnType<typeof phasesOf>): readonly Pulse[] {
  const { cycle_ps } = plan;
  const all = plan.pulses.flatMap(({ pattern: { starts_ps, pulse_ps, period_ps } }, source) => {
    const phase_ps = phaseOf(cycle, source);
    return starts_ps.flatMap((start_ps) => {
      const first_ps = remainder(start_ps - phase_ps, period_ps) - period_ps;
      const periods = Math.ceil((cycle_ps - first_ps) / period_ps);
      return Array.from({ length: Math.min(periods, mostPulses) }, (_, at) => first_ps + at * period_ps)
        .filter((from_ps) => from_ps < cycle_ps && from_ps + pulse_ps > 0)
        .map((from_ps) => ({ from_ps: Math.max(0, from_ps), to_ps: Math.min(cycle_ps, from_ps + pulse_ps) }));
    });
  });
  const sorted = all.toSorted((a, b) => a.from_ps - b.from_ps);
  if (sorted.length <= mostPulses) return sorted;
  const joined: Pulse[] = [];
  for (const each of sorted) {
    const last = joined.at(-1);
    if (last !== undefined && each.from_ps - last.to_ps < cycle_ps / mostPulses)
      joined[joined.length - 1] = { from_ps: last.from_ps, to_ps: Math.max(last.to_ps, each.to_ps) };
    else joined.push(each);
  }
  return joined;
}

/** A pulse that lies on the frame spoils it, whatever else does; what no pulse meets, chance or the line of two states took. */
function causesOf({ plan, noise }: Simulation, phaseOf: ReturnType<typeof phasesOf>): Causes {
  return ({ cycle, at_ps, run }, { open_ps }, way) => {
    const met = plan.pulses.flatMap((source, at) =>
      meets(source, run, phaseOf(cycle, at) + at_ps, open_ps) ? [noise.sources[at]!.name] : [],
    );
    if (met.length > 0) return met.join(' and ');
    const { twoState } = plan;
    const mayBeTaken = twoState !== undefined && way.some((hop) => twoState.hits.includes(hop.run));
    if (!mayBeTaken) return 'bit error';
    return way.some(({ spoils }) => spoils > 0) ? 'two-state line or bit error' : 'two-state line';
  };
}

function meets({ pattern, hits }: PulseNoise, run: number, from_ps: number, open_ps: number): boolean {
  const { starts_ps, pulse_ps, period_ps } = pattern;
  if (!hits.includes(run)) return false;
  const reach_ps = open_ps + pulse_ps;
  return starts_ps.some((start_ps) => {
    const behind_ps = remainder(start_ps - (from_ps - pulse_ps), period_ps);
    return (behind_ps === 0 ? period_ps : behind_ps) < reach_ps;
  });
}

const remainder = (value: number, divisor: number): number => ((value % divisor) + divisor) % divisor;
